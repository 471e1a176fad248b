// Things that lie beside or over the animal: leaves, fingers, rulers, twigs, pebbles, labels and the like.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "tools/render/rng.h"
#include "tools/render/vec.h"

namespace evet::render {

struct Thing {
  std::string kind;
  Vec2 centre;                // picture coordinates, pixels
  float angle = 0;            // of its own x axis
  float unit_px = 100;        // pixels a unit of its own frame
  float reach = 1;            // own units: nothing is drawn beyond
  float reach_across = 1e9f;  // own units, along its y axis, where that is less
  float lift = 0.05f;         // height above the floor, belly lengths, for its shadow
  // Opacity in [0,1] and colour (albedo times form shading) at a place in its own frame.
  std::function<float(Vec2 own, Vec3& colour)> look;
};

struct ClutterScene {
  Vec2 frame;                 // width, height, pixels
  float px_per_unit;          // pixels a belly length
  std::vector<Vec2> midline;  // of the animal, picture coordinates; may be empty
  float half_width_px = 0;
  Vec3 belly_ground;
};

// Things for the floor, drawn before the animal; may be hidden under it.
std::vector<Thing> draw_floor_clutter(const ClutterScene& scene, double strength, bool wild, Rng rng);
// Things over the animal; the caller drops those that would hide too much of the belly.
std::vector<Thing> draw_covering_clutter(const ClutterScene& scene, double strength, bool wild, Rng rng);

// The same of things that are kept back from training.
std::vector<Thing> draw_foreign_floor_clutter(const ClutterScene& scene, double strength, Rng rng);
std::vector<Thing> draw_foreign_covering_clutter(const ClutterScene& scene, double strength, Rng rng);

}  // namespace evet::render
