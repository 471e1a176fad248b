#include "matcher/belly/find_scale_card.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/belly/messages.h"

namespace evet {
namespace {

using Quad = std::array<cv::Point2f, 4>;  // clockwise in the picture

struct Reading {
  int square = -1;
  Quad corners;  // from the code's own top left
};

double shortest_side(const Quad& q) {
  double least = 1e300;
  for (int i = 0; i < 4; ++i) least = std::min(least, cv::norm(q[i] - q[(i + 1) % 4]));
  return least;
}

// Outlines with four corners of everything darker than its neighbourhood.
void add_quads(const cv::Mat1b& grey, int window, double least_side, std::vector<Quad>& quads) {
  cv::Mat1b dark;
  cv::adaptiveThreshold(grey, dark, 255, cv::ADAPTIVE_THRESH_MEAN_C, cv::THRESH_BINARY_INV, window, 7);
  std::vector<std::vector<cv::Point>> contours;
  cv::findContours(dark, contours, cv::RETR_LIST, cv::CHAIN_APPROX_NONE);
  for (const auto& contour : contours) {
    if (static_cast<double>(contour.size()) < 3 * least_side) continue;
    std::vector<cv::Point> corners;
    cv::approxPolyDP(contour, corners, 0.04 * static_cast<double>(contour.size()), true);
    if (corners.size() != 4 || !cv::isContourConvex(corners)) continue;
    Quad quad;
    std::copy(corners.begin(), corners.end(), quad.begin());
    if (shortest_side(quad) < least_side) continue;
    if (cv::contourArea(corners, true) < 0) std::reverse(quad.begin(), quad.end());
    quads.push_back(quad);
  }
}

// Where outlines of blurred edges end is not where the edge is: corners go to where the gradients meet.
void refine(const cv::Mat1b& grey, Quad& quad) {
  const int reach = std::clamp(static_cast<int>(shortest_side(quad) / 10), 1, 6);
  std::vector<cv::Point2f> corners(quad.begin(), quad.end());
  cv::cornerSubPix(grey, corners, {reach, reach}, {-1, -1},
                   {cv::TermCriteria::COUNT | cv::TermCriteria::EPS, 20, 0.02});
  for (size_t i = 0; i < 4; ++i)
    if (cv::norm(corners[i] - quad[i]) < 2.0 * reach) quad[i] = corners[i];
}

// The code inside, and how it is turned; the border must be black throughout.
std::optional<Reading> read(const cv::Mat1b& grey, const Quad& quad) {
  constexpr int kCell = 8, kSide = kCell * kSquareModules;
  const std::array<cv::Point2f, 4> to{{{0, 0}, {kSide, 0}, {kSide, kSide}, {0, kSide}}};
  cv::Mat1b flat;
  cv::warpPerspective(grey, flat, cv::getPerspectiveTransform(quad.data(), to.data()), {kSide, kSide});
  double level[kSquareModules][kSquareModules], low = 255, high = 0;
  for (int row = 0; row < kSquareModules; ++row)
    for (int column = 0; column < kSquareModules; ++column) {
      const cv::Rect middle(column * kCell + 2, row * kCell + 2, kCell - 4, kCell - 4);
      level[row][column] = cv::mean(flat(middle))[0];
      low = std::min(low, level[row][column]), high = std::max(high, level[row][column]);
    }
  if (high - low < 40) return std::nullopt;
  for (int number = 0; number < kCardSquares; ++number)
    for (int turn = 0; turn < 4; ++turn) {  // corner `turn` of the outline is the code's top left
      bool same = true;
      for (int row = 0; row < kSquareModules && same; ++row)
        for (int column = 0; column < kSquareModules && same; ++column) {
          int r = row, c = column;
          for (int k = 0; k < turn; ++k) {
            const int old_row = r;
            r = c, c = kSquareModules - 1 - old_row;
          }
          same = (level[r][c] > (low + high) / 2) == is_white(card_squares()[number], row, column);
        }
      if (!same) continue;
      Reading reading{number, {}};
      for (int i = 0; i < 4; ++i) reading.corners[i] = quad[(i + turn) % 4];
      return reading;
    }
  return std::nullopt;
}

std::optional<ScaleCard> joined(const std::vector<Reading>& readings) {
  ScaleCard card;
  for (const Reading& reading : readings) {
    card.seen.push_back(reading.square);
    const cv::Point2d at = card_squares()[reading.square].top_left_mm;
    const cv::Point2d step[4] = {{0, 0}, {kSquareMm, 0}, {kSquareMm, kSquareMm}, {0, kSquareMm}};
    for (int i = 0; i < 4; ++i) {
      card.corners_px.push_back(cv::Point2d(reading.corners[i]) +
                                cv::Point2d(0.5, 0.5));  // found between pixel centres
      card.corners_mm.push_back(at + step[i]);
    }
  }
  const auto map = plane_map(card.corners_px, card.corners_mm);
  if (!map) return std::nullopt;
  card.mm_from_photo = *map;
  std::vector<cv::Point2d> mm;
  cv::perspectiveTransform(card.corners_px, mm, card.mm_from_photo);
  double sum = 0;
  for (size_t i = 0; i < mm.size(); ++i) sum += (mm[i] - card.corners_mm[i]).dot(mm[i] - card.corners_mm[i]);
  card.error_mm = std::sqrt(sum / static_cast<double>(mm.size()));
  return card;
}

}  // namespace

void CardOptions::check() const {
  if (!(least_side_px >= kSquareModules))
    throw Error(ErrorKind::usage, "least_side_px", messages::kIsBelowOnePixelModule, messages::kUse6OrMore);
  if (!(largest_error_mm > 0)) throw Error(ErrorKind::usage, "largest_error_mm", messages::kIsNotPositive);
}

std::optional<ScaleCard> find_scale_card(const cv::Mat3b& bgr, const CardOptions& options) {
  options.check();
  if (bgr.empty()) return std::nullopt;
  cv::Mat1b grey;
  cv::cvtColor(bgr, grey, cv::COLOR_BGR2GRAY);
  std::array<std::optional<Reading>, kCardSquares> best;
  // A window must reach across a square's border to the white beside it, and not to the next shadow.
  for (int window : {15, 45}) {
    std::vector<Quad> quads;
    add_quads(grey, window, options.least_side_px, quads);
    for (Quad& quad : quads) {
      const auto rough = read(grey, quad);
      if (!rough) continue;
      Reading fine = *rough;
      refine(grey, fine.corners);
      auto& kept = best[fine.square];
      if (!kept || shortest_side(fine.corners) > shortest_side(kept->corners)) kept = fine;
    }
  }
  std::vector<Reading> readings;
  for (const auto& reading : best)
    if (reading) readings.push_back(*reading);
  if (readings.size() < 2) return std::nullopt;
  const auto card = joined(readings);
  return card && card->error_mm <= options.largest_error_mm ? card : std::nullopt;
}

}  // namespace evet
