// Kept-back patterns laid line by line: lattices, rings, scribbles. Lengths in cells of the canvas.
#include "tools/render/mechanisms.h"
#include "tools/render/pattern_field.h"
#include "tools/render/vec.h"

namespace evet::render::detail {

namespace {

cv::Rect cells_around(float left, float top, float right, float bottom) {
  return cv::Rect(
             cv::Point(static_cast<int>(std::floor(left)), static_cast<int>(std::floor(top))),
             cv::Point(static_cast<int>(std::ceil(right)) + 1, static_cast<int>(std::ceil(bottom)) + 1)) &
         cv::Rect(0, 0, kSkinCols, kSkinRows);
}

// Raises `field` to at least 1 - distance / half_width of a straight line; x is the column, y the row.
void raise_line(cv::Mat1f& field, Vec2 from, Vec2 to, float half_width) {
  const float reach = 1.9f * half_width + 1;
  const cv::Rect near = cells_around(std::min(from.x, to.x) - reach, std::min(from.y, to.y) - reach,
                                     std::max(from.x, to.x) + reach, std::max(from.y, to.y) + reach);
  const Vec2 along = to - from;
  const float squared = std::max(1e-6f, dot(along, along));
  for (int r = near.y; r < near.br().y; ++r)
    for (int c = near.x; c < near.br().x; ++c) {
      const Vec2 p = Vec2{static_cast<float>(c), static_cast<float>(r)} - from;
      const float away = length(p - along * clamp01(dot(p, along) / squared));
      field(r, c) = std::max(field(r, c), 1 - away / half_width);
    }
}

struct Ring {
  Vec2 centre;
  float radius, half_width, stretch, angle;
  float gap = 0;  // radians left open
};

void raise_ring(cv::Mat1f& field, const Ring& ring) {
  const float reach = (ring.radius + 1.9f * ring.half_width) * std::max(ring.stretch, 1 / ring.stretch) + 1;
  const cv::Rect near = cells_around(ring.centre.x - reach, ring.centre.y - reach, ring.centre.x + reach,
                                     ring.centre.y + reach);
  const Turn turn(ring.angle);
  for (int r = near.y; r < near.br().y; ++r)
    for (int c = near.x; c < near.br().x; ++c) {
      Vec2 p = turn(Vec2{static_cast<float>(c), static_cast<float>(r)} - ring.centre);
      p = {p.x * ring.stretch, p.y / ring.stretch};
      if (std::abs(std::atan2(p.y, p.x)) < ring.gap / 2) continue;
      field(r, c) = std::max(field(r, c), 1 - std::abs(length(p) - ring.radius) / ring.half_width);
    }
}

}  // namespace

cv::Mat1f lattice_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols, kNoSpot);
  const float pitch = rng.uniformf(28, 50), jitter = pitch * rng.uniformf(0.12, 0.3);
  const double turned = rng.uniform(0, kPi / 3);
  const Vec2 first = rotate({pitch, 0}, turned), second = rotate({pitch, 0}, turned + kPi / 3);
  const double line_share = rng.uniform(0.35, 0.75), node_share = rng.uniform(0.4, 0.9);
  const float line = rng.uniformf(2.8, 4.4), node = rng.uniformf(4.5, 9);
  const std::uint32_t seed = rng.next32();
  const auto place = [&](int i, int j) {
    const std::uint32_t id = lattice_hash(i, j, seed);
    const Vec2 shift{static_cast<float>(id & 0xffffU) * 0x1p-15f - 1,
                     static_cast<float>(id >> 16) * 0x1p-15f - 1};
    return first * static_cast<float>(i) + second * static_cast<float>(j) + shift * jitter;
  };
  const int far = static_cast<int>(1.3f * (kSkinRows + kSkinCols) / pitch);
  for (int j = -far; j <= far; ++j)
    for (int i = -far; i <= far; ++i) {
      const Vec2 here = place(i, j);
      if (here.x < -pitch || here.y < -pitch || here.x > kSkinCols + pitch || here.y > kSkinRows + pitch)
        continue;
      // Each line once: from the node at its lower end.
      for (const Vec2 there : {place(i + 1, j), place(i, j + 1), place(i - 1, j + 1)})
        if (rng.chance(line_share)) raise_line(field, here, there, line * rng.uniformf(0.7, 1.4));
      if (rng.chance(node_share))
        raise_spot(field, {here.y, here.x, node * rng.uniformf(0.5, 1.3), rng.uniformf(0.8, 1.3),
                           rng.uniformf(0, kPi), 0.2f, rng.next32()});
    }
  return field;
}

cv::Mat1f ring_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols, kNoSpot);
  std::vector<Ring> laid;
  const int wanted = rng.between(25, 75);
  const double largest = rng.uniform(12, 23), apart = rng.uniform(0.75, 1.1), open = rng.uniform(0, 0.7);
  for (int tries = 0; tries < 4 * wanted && static_cast<int>(laid.size()) < wanted; ++tries) {
    Ring ring;
    ring.centre = {rng.uniformf(4, kSkinCols - 4), rng.uniformf(4, kSkinRows - 4)};
    ring.radius = rng.uniformf(6.5, largest);
    ring.half_width = std::max(2.8f, ring.radius * rng.uniformf(0.22, 0.38));
    ring.stretch = rng.uniformf(0.8, 1.25);
    ring.angle = rng.uniformf(0, 2 * kPi);
    if (rng.chance(open)) ring.gap = rng.uniformf(0.6, 2.6);
    bool free = true;
    for (const Ring& other : laid)
      free = free &&
             length(ring.centre - other.centre) > static_cast<float>(apart) * (ring.radius + other.radius);
    if (free) laid.push_back(ring);
  }
  for (const Ring& ring : laid) raise_ring(field, ring);
  return field;
}

cv::Mat1f scribble_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols, kNoSpot);
  constexpr float kStep = 3;
  const int strokes = rng.between(9, 20);
  const double restless = rng.uniform(0.08, 0.2);
  const float thick = rng.uniformf(2.6, 4.8);
  for (int i = 0; i < strokes; ++i) {
    Vec2 at{rng.uniformf(10, kSkinCols - 10), rng.uniformf(10, kSkinRows - 10)};
    float heading = rng.uniformf(0, 2 * kPi), turning = 0, half_width = thick * rng.uniformf(0.8, 1.3);
    for (int left = rng.between(20, 100); left > 0; --left) {
      turning = 0.88f * turning + rng.uniformf(-restless, restless);
      heading += turning;
      half_width = std::clamp(half_width + rng.uniformf(-0.35, 0.35), 0.7f * thick, 1.5f * thick);
      const Vec2 next = at + Vec2{std::cos(heading), std::sin(heading)} * kStep;
      raise_line(field, at, next, half_width);
      at = next;
      if (at.x < -10 || at.y < -10 || at.x > kSkinCols + 10 || at.y > kSkinRows + 10) break;
    }
  }
  return field;
}

}  // namespace evet::render::detail
