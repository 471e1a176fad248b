#include "tools/render/raster.h"

namespace evet::render {

void Raster::triangle(const Vertex& a, const Vertex& b, const Vertex& c) {
  const float area = (b.px.x - a.px.x) * (c.px.y - a.px.y) - (b.px.y - a.px.y) * (c.px.x - a.px.x);
  if (std::abs(area) < 1e-9f) return;
  const float inverse = 1 / area;
  const auto first = [](float x, int low) { return std::max(low, static_cast<int>(std::ceil(x - 0.5f))); };
  const auto last = [](float x, int high) { return std::min(high, static_cast<int>(std::floor(x - 0.5f))); };
  const float left = std::min({a.px.x, b.px.x, c.px.x}), right = std::max({a.px.x, b.px.x, c.px.x});
  const float top = std::min({a.px.y, b.px.y, c.px.y}), bottom = std::max({a.px.y, b.px.y, c.px.y});
  if (right < static_cast<float>(window_.x) || bottom < static_cast<float>(window_.y)) return;
  if (left > static_cast<float>(window_.x + window_.width) ||
      top > static_cast<float>(window_.y + window_.height))
    return;
  const int x0 = first(left, window_.x), x1 = last(right, window_.x + window_.width - 1);
  const int y0 = first(top, window_.y), y1 = last(bottom, window_.y + window_.height - 1);
  for (int y = y0; y <= y1; ++y)
    for (int x = x0; x <= x1; ++x) {
      const float px = static_cast<float>(x) + 0.5f, py = static_cast<float>(y) + 0.5f;
      const float wb = ((px - a.px.x) * (c.px.y - a.px.y) - (py - a.px.y) * (c.px.x - a.px.x)) * inverse;
      const float wc = ((b.px.x - a.px.x) * (py - a.px.y) - (b.px.y - a.px.y) * (px - a.px.x)) * inverse;
      const float wa = 1 - wb - wc;
      if (wa < 0 || wb < 0 || wc < 0) continue;
      const Fragment &fa = a.fragment, &fb = b.fragment, &fc = c.fragment;
      const float depth = wa * fa.depth + wb * fb.depth + wc * fc.depth;
      Fragment& out = at(x, y);
      if (depth >= out.depth) continue;
      out.depth = depth;
      out.u = wa * fa.u + wb * fb.u + wc * fc.u;
      out.s = wa * fa.s + wb * fb.s + wc * fc.s;
      out.position = fa.position * wa + fb.position * wb + fc.position * wc;
      out.normal = fa.normal * wa + fb.normal * wb + fc.normal * wc;
      out.part = fa.part;
    }
}

void Raster::surface(const std::vector<std::vector<Vertex>>& rows) {
  for (std::size_t r = 0; r + 1 < rows.size(); ++r)
    for (std::size_t c = 0; c + 1 < rows[r].size(); ++c) {
      triangle(rows[r][c], rows[r][c + 1], rows[r + 1][c]);
      triangle(rows[r][c + 1], rows[r + 1][c + 1], rows[r + 1][c]);
    }
}

std::vector<std::vector<Raster::Vertex>> body_surface(const Body& body, const Camera& camera) {
  constexpr int kAround = 30;  // each side, to s = +-0.8
  std::vector<std::vector<Raster::Vertex>> rows;
  for (const Ring& ring : body.rings()) {
    std::vector<Raster::Vertex> row;
    for (int i = -kAround; i <= kAround; ++i) {
      const float s = 0.8f * static_cast<float>(i) / kAround;
      const Body::SkinPoint p = body.point(ring, s);
      const Camera::Projected seen = camera.project(p.position);
      Raster::Vertex vertex;
      vertex.px = seen.px;
      vertex.fragment = {ring.u,
                         s,
                         p.position,
                         p.normal,
                         static_cast<float>(seen.depth),
                         ring.u < 0   ? Part::head
                         : ring.u < 1 ? Part::trunk
                                      : Part::tail};
      row.push_back(vertex);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

std::vector<std::vector<Raster::Vertex>> tube_surface(const std::vector<TubePoint>& path,
                                                      const Camera& camera, Part part, float id) {
  constexpr int kSides = 10, kBetween = 4;
  std::vector<TubePoint> fine;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const TubePoint &before = path[i == 0 ? 0 : i - 1], &a = path[i], &b = path[i + 1],
                    &after = path[std::min(i + 2, path.size() - 1)];
    for (int k = 0; k < kBetween; ++k) {
      const float t = static_cast<float>(k) / kBetween, t2 = t * t, t3 = t2 * t;
      // Catmull-Rom.
      const Vec3 p = (a.position * 2 + (b.position - before.position) * t +
                      (before.position * 2 - a.position * 5 + b.position * 4 - after.position) * t2 +
                      (a.position * 3 - before.position - b.position * 3 + after.position) * t3) *
                     0.5f;
      fine.push_back({p, mix(a.radius, b.radius, t)});
    }
  }
  fine.push_back(path.back());
  // Rounded ends.
  const Vec3 tip = normalised(fine.back().position - fine[fine.size() - 2].position);
  const TubePoint end = fine.back();
  fine.push_back({end.position + tip * (0.6f * end.radius), end.radius * 0.75f});
  fine.push_back({end.position + tip * (0.95f * end.radius), end.radius * 0.1f});

  std::vector<std::vector<Raster::Vertex>> rows;
  for (std::size_t i = 0; i < fine.size(); ++i) {
    const Vec3 along =
        normalised(fine[std::min(i + 1, fine.size() - 1)].position - fine[i == 0 ? 0 : i - 1].position);
    const Vec3 across = normalised(cross(std::abs(along.z) > 0.9f ? Vec3{1, 0, 0} : Vec3{0, 0, 1}, along)),
               up = cross(along, across);
    std::vector<Raster::Vertex> row;
    for (int k = 0; k <= kSides; ++k) {
      const float angle = static_cast<float>(2 * kPi * k / kSides);
      const Vec3 normal = across * std::cos(angle) + up * std::sin(angle);
      const Vec3 position = fine[i].position + normal * fine[i].radius;
      const Camera::Projected seen = camera.project(position);
      Raster::Vertex vertex;
      vertex.px = seen.px;
      vertex.fragment = {id + static_cast<float>(i) / static_cast<float>(fine.size()),
                         2.0f * static_cast<float>(k) / kSides - 1,
                         position,
                         normal,
                         static_cast<float>(seen.depth),
                         part};
      row.push_back(vertex);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

cv::Rect window_of(const std::vector<std::vector<std::vector<Raster::Vertex>>>& surfaces, cv::Size picture) {
  float left = 1e9f, right = -1e9f, top = 1e9f, bottom = -1e9f;
  for (const auto& rows : surfaces)
    for (const auto& row : rows)
      for (const Raster::Vertex& v : row) {
        left = std::min(left, v.px.x);
        right = std::max(right, v.px.x);
        top = std::min(top, v.px.y);
        bottom = std::max(bottom, v.px.y);
      }
  const int x0 = std::clamp(static_cast<int>(left) - 2, 0, picture.width),
            x1 = std::clamp(static_cast<int>(right) + 3, 0, picture.width);
  const int y0 = std::clamp(static_cast<int>(top) - 2, 0, picture.height),
            y1 = std::clamp(static_cast<int>(bottom) + 3, 0, picture.height);
  return {x0, y0, std::max(0, x1 - x0), std::max(0, y1 - y0)};
}

}  // namespace evet::render
