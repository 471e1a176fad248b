// The dark pattern of one skin, in material body coordinates, at any age.
//
// The pattern is a signed distance to the edge of the dark (negative inside; unit: belly length), so that
// edges are sharp at any size, and ageing is a growth of the dark set that never takes anything back.
#pragma once
#include <opencv2/core.hpp>
#include <vector>

#include "tools/render/rng.h"
#include "tools/render/vec.h"

namespace evet::render {

// Canvas of the skin: rows along u in [-0.125, 1.125], columns along v in [-1.5, 1.5]; cells are square on a
// belly whose half-width along the skin is 80/448 of its length.
inline constexpr int kSkinRows = 560, kSkinCols = 240;
inline constexpr float kCellsPerLength = 448, kCellsPerV = 80;
inline constexpr float kSkinFirstU = -0.125f, kSkinFirstV = -1.5f;
inline float skin_u(int row) {
  return kSkinFirstU + (static_cast<float>(row) + 0.5f) / kCellsPerLength;
}
inline float skin_v(int col) {
  return kSkinFirstV + (static_cast<float>(col) + 0.5f) / kCellsPerV;
}

class PatternField {
 public:
  PatternField() = default;
  // `dark`: kSkinRows x kSkinCols, 255 where dark at year 0. Rates of growth and later
  // spots follow from `rng`.
  PatternField(const cv::Mat1b& dark, Rng rng);

  // Signed distance to the edge of the dark at an age, kSkinRows x kSkinCols.
  cv::Mat1f at_years(double years) const;

 private:
  struct LaterSpot {
    float row, col, radius, born_years, stretch;  // cells, years
  };
  cv::Mat1f distance_;         // at year 0, belly lengths
  cv::Mat1f growth_per_year_;  // belly lengths by which the nearest spot's edge advances
  std::vector<LaterSpot> later_;
};

// Bilinear reading of a field from at_years().
float sample_field(const cv::Mat1f& field, float u, float v);

}  // namespace evet::render
