// Patterns of uneven make-up: rows along the sides, tongues from the flanks, few large
// spots among small ones.
#include "tools/render/mechanisms.h"
#include "tools/render/pattern_field.h"

namespace evet::render::detail {

namespace {

constexpr float kMiddle = kSkinCols / 2.0f;

Spot spot_at(Rng& rng, float row, float col, float radius, double warp) {
  return {row,
          col,
          radius,
          rng.uniformf(0.7, 1.45),
          rng.uniformf(0, kPi),
          static_cast<float>(warp) * rng.uniformf(0.6, 1.3),
          rng.next32()};
}

}  // namespace

cv::Mat1f row_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols, kNoSpot);
  const float out = rng.uniformf(0.4, 0.85) * kCellsPerV, waver = rng.uniformf(2, 9);
  const double size = rng.uniform(4, 11), warp = rng.uniform(0.2, 0.5);
  const bool second_row = rng.chance(0.4);
  const float gaps = rng.uniformf(1.4, 3.2);
  for (const int side : {-1, 1})
    for (const int line : {0, 1}) {
      if (line == 1 && !second_row) continue;
      const float at = line == 0 ? out : out * rng.uniformf(0.35, 0.6);
      for (float row = rng.uniformf(0, 25); row < kSkinRows;) {
        const float radius = static_cast<float>(size) * rng.uniformf(0.35, 1.4) * (line == 0 ? 1.0f : 0.7f);
        if (!rng.chance(0.1))
          raise_spot(field, spot_at(rng, row,
                                    kMiddle + static_cast<float>(side) *
                                                  (at + waver * static_cast<float>(rng.normal())),
                                    radius, warp));
        row += radius * gaps * rng.uniformf(0.6, 1.5);
      }
    }
  // A few strays in the middle.
  for (int i = rng.between(0, 7); i > 0; --i)
    raise_spot(field, spot_at(rng, rng.uniformf(20, kSkinRows - 20), kMiddle + out * rng.uniformf(-0.7, 0.7),
                              rng.uniformf(2, 7), warp));
  return field;
}

cv::Mat1f tongue_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols, kNoSpot);
  const float spacing = rng.uniformf(24, 70), edge = rng.uniformf(0.85, 1.25) * kCellsPerV;
  const double reach = rng.uniform(0.35, 1.05);
  for (const int side : {-1, 1})
    for (float row = rng.uniformf(-10, 30); row < kSkinRows; row += spacing * rng.uniformf(0.5, 1.5)) {
      const float length = kCellsPerV * static_cast<float>(reach * rng.uniform(0.2, 1)),
                  thick = rng.uniformf(6, 16), lean = rng.uniformf(-0.5, 0.5);
      for (float in = 0; in < length;) {
        const float radius = thick * (1 - 0.65f * in / length) * rng.uniformf(0.8, 1.2);
        raise_spot(field, spot_at(rng, row + lean * in, kMiddle + static_cast<float>(side) * (edge - in),
                                  radius, 0.4));
        in += radius * 0.8f;
      }
    }
  for (int i = rng.between(0, 14); i > 0; --i)
    raise_spot(field, spot_at(rng, rng.uniformf(10, kSkinRows - 10), rng.uniformf(40, kSkinCols - 40),
                              rng.uniformf(2, 9), 0.35));
  return field;
}

cv::Mat1f sprinkle_field(Rng rng) {
  cv::Mat1f field(kSkinRows, kSkinCols, kNoSpot);
  const double warp = rng.uniform(0.1, 0.55);
  const float small = rng.uniformf(1.6, 2.6), most = rng.uniformf(14, 30);
  const int count = rng.between(70, 230);
  for (int i = 0; i < count; ++i) {
    // Sizes by a power law: the many are small.
    const double t = rng.uniform();
    const float radius = std::min(
        most, small / static_cast<float>(std::sqrt(0.004 + t * t)) * (i % 9 == 0 ? 1.0f : 0.45f) + 1);
    raise_spot(field,
               spot_at(rng, rng.uniformf(5, kSkinRows - 5), rng.uniformf(5, kSkinCols - 5), radius, warp));
  }
  return field;
}

}  // namespace evet::render::detail
