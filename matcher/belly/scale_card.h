// The scale card: what is printed on it, in millimetres, and what is known once it has been found in a photo.
//
// Four squares of the public ArUco dictionary of 4 x 4 bits (numbers 0 to 3) stand at the corners of a card
// as large as a bank card (ISO/IEC 7810 ID-1, rounded), with a ruler of 50 mm between them. Frame of the
// card: x right, y down, millimetres from its top left corner.
#pragma once
#include <array>
#include <cstdint>
#include <opencv2/core.hpp>
#include <optional>
#include <vector>

namespace evet {

inline constexpr double kCardWidthMm = 86, kCardHeightMm = 54;
inline constexpr double kSquareMm = 12;  // with its black border of one module
inline constexpr int kSquareModules = 6;
inline constexpr double kRulerMm = 50, kRulerLeftMm = 18, kRulerTopMm = 26;

struct CardSquare {
  cv::Point2d top_left_mm;
  std::uint16_t bits;  // 4 x 4, row by row, the highest bit top left; 1 is white
};
// Garrido-Jurado et al., Pattern Recognition 47 (2014); bits as in OpenCV's DICT_4X4_50.
inline constexpr int kCardSquares = 4;
const std::array<CardSquare, kCardSquares>& card_squares();

// Whether a module of a square is white; row and column from 0 to 5, the border included.
bool is_white(const CardSquare& square, int row, int column);

// A card found in a photo, lying in one plane.
struct ScaleCard {
  std::vector<int> seen;                            // numbers of the squares, at least two
  std::vector<cv::Point2d> corners_px, corners_mm;  // four a square, clockwise from its top left; as matched
  cv::Matx33d mm_from_photo;
  double error_mm = 0;  // root mean square of the corners about the map
};

// What a curve in the photo measures, were it in the card's plane. The error counts how well the corners
// were found and how far the curve lies from them, and that a printed ruler can be checked to half a
// millimetre; not that the curve may lie nearer to the camera than the card (by a thirtieth of their
// distance: 3 % too long).
struct LengthMm {
  double mm = 0, error_mm = 0;  // one standard deviation
};
LengthMm measure_mm(const ScaleCard& card, const std::vector<cv::Point2d>& curve_px);

// The map from photo to card through corresponding points, at least four; none when they lie on a line.
std::optional<cv::Matx33d> plane_map(const std::vector<cv::Point2d>& px, const std::vector<cv::Point2d>& mm);

}  // namespace evet
