#include "tools/render/solid/mesh.h"

#include <Eigen/Geometry>

namespace evet::render::solid {

void Mesh::join_rows(int rows, int columns) {
  for (int r = 0; r + 1 < rows; ++r)
    for (int c = 0; c + 1 < columns; ++c) {
      const unsigned a = static_cast<unsigned>(r * columns + c), b = a + static_cast<unsigned>(columns);
      triangles.push_back({a, a + 1, b});
      triangles.push_back({a + 1, b + 1, b});
    }
}

void Mesh::smooth_normals() {
  normals.assign(points.size(), Point::Zero());
  for (const auto& t : triangles) {
    const Point n = (points[t[1]] - points[t[0]]).cross(points[t[2]] - points[t[0]]);
    for (const unsigned corner : t) normals[corner] += n;
  }
  for (Point& n : normals) n = n.squaredNorm() > 1e-20F ? Point(n.normalized()) : Point(0, 0, 1);
}

std::vector<Knot> smooth_curve(const std::vector<Knot>& knots, int per) {
  std::vector<Knot> out;
  const int n = static_cast<int>(knots.size());
  const auto knot = [&](int i) { return knots[static_cast<std::size_t>(std::min(n - 1, std::max(0, i)))]; };
  for (int i = 0; i + 1 < n; ++i)
    for (int k = 0; k < per; ++k) {
      const float t = static_cast<float>(k) / static_cast<float>(per), t2 = t * t, t3 = t2 * t;
      const Knot a = knot(i - 1), b = knot(i), c = knot(i + 1), d = knot(i + 2);
      const Point at = 0.5F * (2 * b.at + (c.at - a.at) * t + (2 * a.at - 5 * b.at + 4 * c.at - d.at) * t2 +
                               (3 * b.at - a.at - 3 * c.at + d.at) * t3);
      out.push_back({at, blend(b.radius, c.radius, t2 * (3 - 2 * t)), blend(b.flat, c.flat, t)});
    }
  out.push_back(knots.back());
  return out;
}

Mesh tube(const std::vector<Knot>& knots, int sides, const Point& up) {
  // Caps: three more rings at each end that close like a sphere.
  std::vector<Knot> path;
  const Point first = (knots[0].at - knots[1].at).normalized(),
              last = (knots.back().at - knots[knots.size() - 2].at).normalized();
  for (const float angle : {1.5F, 1.1F, 0.6F})
    path.push_back({knots[0].at + first * knots[0].radius * 0.8F * std::sin(angle),
                    knots[0].radius * std::cos(angle), knots[0].flat});
  path.insert(path.end(), knots.begin(), knots.end());
  for (const float angle : {0.6F, 1.1F, 1.5F})
    path.push_back({knots.back().at + last * knots.back().radius * 0.8F * std::sin(angle),
                    knots.back().radius * std::cos(angle), knots.back().flat});
  Mesh mesh;
  const int n = static_cast<int>(path.size());
  Point side_before = Point(1, 0, 0);
  for (int i = 0; i < n; ++i) {
    const Point ahead = path[static_cast<std::size_t>(std::min(n - 1, i + 1))].at,
                behind = path[static_cast<std::size_t>(std::max(0, i - 1))].at;
    Point along = ahead - behind;
    along = along.norm() > 1e-9F ? Point(along.normalized()) : Point(1, 0, 0);
    Point side = along.cross(up);
    side = side.norm() > 0.05F ? Point(side.normalized())
                               : Point((side_before - along * along.dot(side_before)).normalized());
    side_before = side;
    const Point out = side.cross(along);
    const Knot& k = path[static_cast<std::size_t>(i)];
    for (int c = 0; c <= sides; ++c) {
      const float round = 2 * static_cast<float>(c) / static_cast<float>(sides) - 1, angle = round * kPi;
      mesh.points.push_back(k.at + side * (k.radius * std::sin(angle)) +
                            out * (k.radius * k.flat * std::cos(angle)));
      mesh.places.emplace_back(static_cast<float>(i) / static_cast<float>(n - 1), round);
    }
  }
  mesh.join_rows(n, sides + 1);
  mesh.smooth_normals();
  return mesh;
}

}  // namespace evet::render::solid
