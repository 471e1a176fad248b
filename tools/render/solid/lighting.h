// Where light comes from: a sky with bright panes in it, and lamps.
#pragma once
#include <memory>
#include <string>
#include <vector>

#include "tools/render/solid/dice.h"
#include "tools/render/solid/ground_photos.h"
#include "tools/render/solid/shapes.h"

namespace evet::render::solid {

struct Lamp {
  Point at = Point(0, 0, 10);
  float radius = 0.1F, hole = 0;              // a disc, or a ring with a hole
  Colour power = Colour::Ones();              // irradiance at the origin, facing it
  float cone = -1;                            // cosine of the beam's half angle; -1: shines everywhere
  Point aim = Point::Zero();                  // middle of the beam on the ground
  Colour arriving(const Point& place) const;  // irradiance there, facing the lamp, nothing between
};

struct Pane {  // a bright rectangle in the sky
  Point towards, right, up;
  float half_width, half_height;  // tangents
  Colour brightness;
};

struct Lighting {
  std::string name;
  std::vector<Lamp> lamps;
  Colour zenith = Colour::Ones(), horizon = Colour::Ones(), ground = Colour::Constant(0.3F);
  std::vector<Pane> panes;
  std::shared_ptr<const GroundPhoto> surroundings;  // a photograph mirrored in what is wet, if there is one
  Colour sky(const Point& way) const;               // radiance from there
  Colour sky_on(const Point& normal) const;         // irradiance / pi of an open place, without the panes
};

Lighting draw_lighting(const std::string& name, const Point& eye, bool wild, Dice dice);

}  // namespace evet::render::solid
