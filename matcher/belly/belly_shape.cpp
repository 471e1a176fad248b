#include "matcher/belly/belly_shape.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

namespace evet {
namespace {

constexpr int kOutlinePoints = 65;

// Contour of the largest region with p_belly >= 0.5, traced on an enlarged grid so that it is smooth.
std::vector<cv::Point> trace_outline(const BodyCoordinates& k) {
  constexpr int kEnlarge = 4;
  cv::Mat1f fine;
  cv::resize(k.p_belly, fine, {}, kEnlarge, kEnlarge, cv::INTER_LINEAR);
  const cv::Mat1b mask = fine >= 0.5f;
  std::vector<std::vector<cv::Point>> contours;
  cv::findContours(mask, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_SIMPLE);
  std::vector<cv::Point> outline;
  double most = 0;
  for (const auto& contour : contours) {
    const double area = cv::contourArea(contour);
    if (area <= most) continue;
    most = area;
    outline = contour;
  }
  for (cv::Point& p : outline) {
    const cv::Vec2d photo = k.photo_from_grid * cv::Vec3d((p.x + 0.5) / kEnlarge, (p.y + 0.5) / kEnlarge, 1);
    p = {cvRound(photo[0]), cvRound(photo[1])};
  }
  return outline;
}

// Roll turns other skin to the camera: the middle of the skin seen, weighted evenly along the belly. Only
// pixels of the trunk between the ends count, where both edges are the animal's and not the picture's.
double measure_roll(const BodyCoordinates& k) {
  constexpr int kBins = 10;
  std::array<std::vector<float>, kBins> v_seen;
  for (int y = 0; y < k.uv.rows; ++y)
    for (int x = 0; x < k.uv.cols; ++x) {
      const cv::Vec2f uv = k.uv(y, x);
      if (k.p_belly(y, x) < 0.5f || !(uv[0] >= 0 && uv[0] < 1)) continue;
      v_seen[static_cast<int>(uv[0] * kBins)].push_back(uv[1]);
    }
  double sum = 0;
  int bins = 0;
  for (int b = 1; b + 1 < kBins; ++b) {
    auto& v = v_seen[b];
    if (v.size() < 8) continue;
    std::sort(v.begin(), v.end());
    const size_t trim = v.size() / 50;
    sum += (std::max(v[trim], -1.f) + std::min(v[v.size() - 1 - trim], 1.f)) / 2;
    ++bins;
  }
  return bins > 0 ? sum / bins : 0;
}

}  // namespace

BellyShape measure_shape(const BodyCoordinates& coordinates, const StripFit& fit, double full_per_px) {
  BellyShape shape;
  for (int i = 0; i < kOutlinePoints; ++i) {
    const double u = static_cast<double>(i) / (kOutlinePoints - 1);
    shape.midline.push_back(fit.photo_from_strip.at(u, 0));
    shape.left_edge.push_back(fit.photo_from_strip.at(u, -1));
    shape.right_edge.push_back(fit.photo_from_strip.at(u, 1));
  }
  double last = 0;
  for (int i = 0; i + 1 < kOutlinePoints; ++i) {
    const cv::Point2d step = shape.midline[i + 1] - shape.midline[i];
    shape.length_px += std::hypot(step.x, step.y) * full_per_px;
    const double angle = std::atan2(step.y, step.x);
    if (i > 0) shape.bend_deg += std::abs(std::remainder(angle - last, 2 * std::numbers::pi));
    last = angle;
  }
  shape.bend_deg *= 180 / std::numbers::pi;
  shape.outline = trace_outline(coordinates);
  shape.roll = measure_roll(coordinates);
  shape.p_head_right = coordinates.p_head_right;
  return shape;
}

}  // namespace evet
