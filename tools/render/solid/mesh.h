// Triangles with what the solid world needs to know at each corner.
#pragma once
#include <array>
#include <functional>
#include <vector>

#include "tools/render/solid/shapes.h"

namespace evet::render::solid {

// What a ray met.
struct Touch {
  Point at, normal;  // the normal is smoothed over the corners and faces the eye
  Point from_eye;    // direction of the ray
  Flat place;        // as Mesh::places
  float distance = 0, open = 1;
  int mesh = -1;
};

// How a place looks.
struct Surface {
  Colour albedo = Colour::Constant(0.5F);
  Point normal = Point(0, 0, 1);
  float gloss = 0;      // share of light mirrored head on, by a film of water or varnish
  float spread = 0.3F;  // of the mirrored light: 0 a mirror, 1 dull
  float bleed = 0;      // how far light creeps round the edge of shadow
};

enum class Part : std::uint8_t { none, head, trunk, arm, leg, tail };

struct Mesh {
  std::vector<Point> points, normals;
  std::vector<Flat> places;  // coordinates of the surface's own; the body's are u and s
  std::vector<float> open;   // share of the sky seen from each corner
  std::vector<std::array<unsigned, 3>> triangles;
  std::function<Surface(const Touch&)> look;
  Part part = Part::none;  // of the animal in question; head and trunk are told apart by u
  bool covers = true;      // hides what lies under it

  // Joins rows of equal length; `columns` corners a row.
  void join_rows(int rows, int columns);
  void smooth_normals();
};

struct Knot {
  Point at;
  float radius, flat;  // flat: height to width
};
// A tube along a smooth curve through `knots`, rounded at both ends. places: along 0..1, round -1..1 with 0
// on the side of `up`.
Mesh tube(const std::vector<Knot>& knots, int sides, const Point& up = Point(0, 0, 1));

// A smooth curve through points (centripetal enough for our use: Catmull and Rom 1974), `per` steps a piece.
std::vector<Knot> smooth_curve(const std::vector<Knot>& knots, int per);

}  // namespace evet::render::solid
