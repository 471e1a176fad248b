// Patterns laid spot by spot: blobs, blotches, dots, bars, trails, and their mirrored kind.
#include "tools/render/mechanisms.h"
#include "tools/render/noise.h"
#include "tools/render/pattern_field.h"

namespace evet::render::detail {

void raise_spot(cv::Mat1f& field, const Spot& spot) {
  const float reach = spot.radius * std::max(spot.stretch, 1 / spot.stretch) * (1.9f + spot.warp) + 2;
  const int r0 = std::max(0, static_cast<int>(spot.row - reach)),
            r1 = std::min(field.rows - 1, static_cast<int>(spot.row + reach));
  const int c0 = std::max(0, static_cast<int>(spot.col - reach)),
            c1 = std::min(field.cols - 1, static_cast<int>(spot.col + reach));
  const float cosine = std::cos(spot.angle), sine = std::sin(spot.angle);
  const float grain = 0.9f / spot.radius;
  for (int r = r0; r <= r1; ++r)
    for (int c = c0; c <= c1; ++c) {
      float dr = static_cast<float>(r) - spot.row, dc = static_cast<float>(c) - spot.col;
      dr += spot.warp * spot.radius * fractal_noise(dc * grain, dr * grain, spot.seed, 2);
      dc += spot.warp * spot.radius * fractal_noise(dc * grain + 31, dr * grain, spot.seed + 7, 2);
      const float a = (cosine * dr + sine * dc) / spot.stretch, b = (cosine * dc - sine * dr) * spot.stretch;
      field(r, c) = std::max(field(r, c), 1 - std::sqrt(a * a + b * b) / spot.radius);
    }
}

namespace {

cv::Mat1f empty_field() {
  return cv::Mat1f(kSkinRows, kSkinCols, kNoSpot);
}

// Radii with many small and few large.
float skewed(Rng& rng, double low, double high, double power) {
  double t = rng.uniform();
  if (power > 1.5) t *= rng.uniform();
  if (power > 2.5) t *= rng.uniform();
  return static_cast<float>(low + (high - low) * t);
}

void scatter(cv::Mat1f& field, Rng& rng, int count, double low, double high, double power, double warp,
             double apart) {
  std::vector<Spot> laid;
  for (int tries = 0; tries < count * 4 && static_cast<int>(laid.size()) < count; ++tries) {
    Spot spot{rng.uniformf(5, kSkinRows - 5),
              rng.uniformf(5, kSkinCols - 5),
              skewed(rng, low, high, power),
              rng.uniformf(0.75, 1.4),
              rng.uniformf(0, kPi),
              static_cast<float>(warp) * rng.uniformf(0.5, 1.3),
              rng.next32()};
    bool free = true;
    for (const Spot& other : laid) {
      const float dr = spot.row - other.row, dc = spot.col - other.col;
      const float need = static_cast<float>(apart) * (spot.radius + other.radius);
      free = free && dr * dr + dc * dc > need * need;
    }
    if (free) laid.push_back(spot);
  }
  for (const Spot& spot : laid) raise_spot(field, spot);
}

}  // namespace

cv::Mat1f blob_field(Rng rng) {
  cv::Mat1f field = empty_field();
  const double size = rng.uniform(0.7, 1.5);
  scatter(field, rng, rng.between(50, 150), 3 * size, 17 * size, rng.uniform(1, 3), rng.uniform(0.15, 0.6),
          rng.uniform(0.2, 1.1));
  return field;
}

cv::Mat1f blotch_field(Rng rng) {
  cv::Mat1f field = empty_field();
  const int blotches = rng.between(5, 14);
  for (int i = 0; i < blotches; ++i) {
    // A blotch is a small crowd of overlapping blobs.
    const float row = rng.uniformf(20, kSkinRows - 20), col = rng.uniformf(20, kSkinCols - 20);
    const float size = rng.uniformf(10, 30);
    const int parts = rng.between(1, 5);
    for (int k = 0; k < parts; ++k)
      raise_spot(field, {row + rng.uniformf(-1.1, 1.1) * size, col + rng.uniformf(-0.9, 0.9) * size,
                         size * rng.uniformf(0.5, 1), rng.uniformf(0.7, 1.5), rng.uniformf(0, kPi),
                         rng.uniformf(0.3, 0.7), rng.next32()});
  }
  return field;
}

cv::Mat1f dot_field(Rng rng) {
  cv::Mat1f field = empty_field();
  scatter(field, rng, rng.between(30, 190), 1.8, rng.uniform(4, 7), 1, rng.uniform(0.1, 0.4),
          rng.uniform(1.1, 1.8));
  return field;
}

cv::Mat1f bar_field(Rng rng) {
  cv::Mat1f field = empty_field();
  const float spacing = rng.uniformf(26, 60), waver = rng.uniformf(2, 9), gap = rng.uniformf(0, 14);
  for (float row = rng.uniformf(0, 20); row < kSkinRows; row += spacing * rng.uniformf(0.75, 1.3)) {
    for (const int side : {-1, 1}) {
      if (rng.chance(0.12)) continue;
      // A bar is a row of blobs from near the midline outwards, the two sides out of step.
      const float shift = rng.uniformf(-0.35, 0.35) * spacing, thick = rng.uniformf(5, 10);
      for (float out = gap * rng.uniformf(0, 1.5); out < kSkinCols / 2.0f; out += thick * 0.9f) {
        if (rng.chance(0.07)) continue;
        raise_spot(field, {row + shift + rng.uniformf(-1, 1) * waver,
                           kSkinCols / 2.0f + static_cast<float>(side) * out, thick * rng.uniformf(0.7, 1.25),
                           rng.uniformf(0.7, 1.2), rng.uniformf(-0.4, 0.4), 0.4f, rng.next32()});
      }
    }
  }
  return field;
}

cv::Mat1f trail_field(Rng rng) {
  cv::Mat1f field = empty_field();
  const int trails = rng.between(2, 6);
  for (int i = 0; i < trails; ++i) {
    float row = rng.uniformf(-40, kSkinRows * 0.4), col = rng.uniformf(25, kSkinCols - 25),
          drift = rng.uniformf(-0.3, 0.3);
    const float size = rng.uniformf(4, 11);
    while (row < kSkinRows) {
      raise_spot(field, {row, col, size * rng.uniformf(0.55, 1.3), rng.uniformf(0.9, 1.7),
                         rng.uniformf(-0.5, 0.5), 0.4f, rng.next32()});
      const float step = size * rng.uniformf(1.2, 3.0);
      drift = 0.7f * drift + rng.uniformf(-0.35, 0.35);
      row += step;
      col += drift * step;
    }
  }
  scatter(field, rng, rng.between(0, 25), 2, 7, 2, 0.3, 1);
  return field;
}

cv::Mat1f mirrored_field(Rng rng) {
  // Half the spots have a near twin on the other side; the rest do not.
  cv::Mat1f field = empty_field();
  const int pairs = rng.between(14, 45);
  const double size = rng.uniform(0.8, 1.5);
  for (int i = 0; i < pairs; ++i) {
    const float row = rng.uniformf(8, kSkinRows - 8), out = rng.uniformf(6, kSkinCols / 2.0),
                radius = skewed(rng, 4 * size, 15 * size, 2);
    for (const int side : {-1, 1}) {
      if (rng.chance(0.2)) continue;
      raise_spot(field, {row + rng.uniformf(-7, 7),
                         kSkinCols / 2.0f + static_cast<float>(side) * (out + rng.uniformf(-5, 5)),
                         radius * rng.uniformf(0.7, 1.3), rng.uniformf(0.75, 1.4), rng.uniformf(0, kPi),
                         rng.uniformf(0.2, 0.5), rng.next32()});
    }
  }
  return field;
}

}  // namespace evet::render::detail
