#include "matcher/belly/scale_card.h"

#include <algorithm>
#include <cmath>
#include <opencv2/calib3d.hpp>

namespace evet {
namespace {

constexpr double kRulerError =
    0.5 / kRulerMm;                        // of a length: what a check of the print with a ruler lets pass
constexpr double kLeastCornerError = 0.1;  // pixels: no corner is found better

double length_mm(const cv::Matx33d& mm_from_photo, const std::vector<cv::Point2d>& curve_px) {
  std::vector<cv::Point2d> mm;
  cv::perspectiveTransform(curve_px, mm, mm_from_photo);
  double sum = 0;
  for (size_t i = 1; i < mm.size(); ++i) sum += cv::norm(mm[i] - mm[i - 1]);
  return sum;
}

}  // namespace

const std::array<CardSquare, kCardSquares>& card_squares() {
  constexpr double kMargin = 4, kRight = kCardWidthMm - kMargin - kSquareMm,
                   kBottom = kCardHeightMm - kMargin - kSquareMm;
  static const std::array<CardSquare, kCardSquares> squares{{{{kMargin, kMargin}, 181 << 8 | 50},
                                                             {{kRight, kMargin}, 15 << 8 | 154},
                                                             {{kMargin, kBottom}, 51 << 8 | 45},
                                                             {{kRight, kBottom}, 153 << 8 | 70}}};
  return squares;
}

bool is_white(const CardSquare& square, int row, int column) {
  if (row < 1 || column < 1 || row > 4 || column > 4) return false;
  return (square.bits >> (15 - (4 * (row - 1) + column - 1)) & 1) != 0;
}

std::optional<cv::Matx33d> plane_map(const std::vector<cv::Point2d>& px, const std::vector<cv::Point2d>& mm) {
  const cv::Mat map = cv::findHomography(px, mm);
  if (map.empty() || !cv::checkRange(map)) return std::nullopt;
  return cv::Matx33d(map);
}

LengthMm measure_mm(const ScaleCard& card, const std::vector<cv::Point2d>& curve_px) {
  LengthMm out;
  if (curve_px.size() < 2) return out;
  out.mm = length_mm(card.mm_from_photo, curve_px);
  // Corners err on their own: each is moved a little, and what that does to the length is
  // added up in squares.
  const double mm_per_px = cv::norm(card.corners_mm[1] - card.corners_mm[0]) /
                           std::max(cv::norm(card.corners_px[1] - card.corners_px[0]), 1e-9);
  const double corner = std::max(card.error_mm / mm_per_px, kLeastCornerError);
  double variance = std::pow(kRulerError * out.mm, 2);
  for (size_t i = 0; i < card.corners_px.size(); ++i)
    for (double cv::Point2d::*axis : {&cv::Point2d::x, &cv::Point2d::y}) {
      std::vector<cv::Point2d> moved = card.corners_px;
      moved[i].*axis += corner;
      if (const auto map = plane_map(moved, card.corners_mm))
        variance += std::pow(length_mm(*map, curve_px) - out.mm, 2);
    }
  out.error_mm = std::sqrt(variance);
  return out;
}

}  // namespace evet
