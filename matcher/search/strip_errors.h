// How two strips of one animal are seen to lie apart, as the prior of the alignment.
//
// A strip is cut along coordinates that are a little wrong: slid along, rolled, stretched, twisted, most of
// it smoothly. The displacement between two such strips, at a grid of nodes, is taken to be normal with mean
// 0 and a covariance learned from rendered photos, whose true coordinates are known
// (tools/train/fit_strip_errors.h): twice that of one strip's errors, as its largest modes and the same small
// variance for all the rest. Of the kind of Cootes et al. 1995, Computer Vision and Image Understanding 61:38
// (point distribution models).
#pragma once
#include <array>
#include <opencv2/core.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace evet {

inline constexpr int kNodesAlong = 9;   // u = 0, 1/8 .. 1
inline constexpr int kNodesAcross = 4;  // v = -1, -1/3, 1/3, 1
inline constexpr int kNodes = kNodesAlong * kNodesAcross;
inline constexpr double kHalfWidth = 0.16;  // of a belly, in its lengths: what a v of 1 amounts to

// (du, dv) at the nodes, row by row along u.
using Flow = std::array<cv::Vec2f, kNodes>;

struct StripErrors {
  // Of one strip, each 2 kNodes numbers (du, dv, du, dv, ...): direction times standard deviation.
  std::vector<std::vector<double>> modes;
  double rest = 0.004;  // standard deviation of what the modes leave, at each node, in lengths
  // Inverse covariance of the displacement between two strips, 2 kNodes squared, in the order of Flow.
  std::vector<float> precision;
};
StripErrors strip_errors(std::vector<std::vector<double>> modes, double rest);

// Mean square of the displacement in standard deviations: about 1 for strips of one animal, seen in full.
double strain(const Flow& flow, const StripErrors& errors);

StripErrors parse_strip_errors(std::string_view json, const std::string& item);  // Errors: bad_input
std::string to_json(const StripErrors& errors);
const StripErrors& shipped_strip_errors();  // from models/weights/strip_errors.json, built in

}  // namespace evet
