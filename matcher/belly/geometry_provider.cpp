#include "matcher/belly/geometry_provider.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/belly/medial_line.h"
#include "matcher/belly/ribbon.h"

namespace evet {
namespace {

constexpr int kLongSide = 320;  // working size
constexpr int kRibbonPoints = 65;

struct Candidate {
  Ribbon ribbon;  // working frame
  cv::Mat1b region;
  double score = 0;
};

// How warm a pixel is: chroma towards orange and yellow, after the picture's own cast is halved.
cv::Mat1f warmth(const cv::Mat3b& bgr) {
  cv::Mat3b lab;
  cv::cvtColor(bgr, lab, cv::COLOR_BGR2Lab);
  const cv::Scalar mean = cv::mean(lab);
  const double a0 = 128 + (mean[1] - 128) / 2, b0 = 128 + (mean[2] - 128) / 2;
  cv::Mat1f out(bgr.size());
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x)
      out(y, x) = static_cast<float>(0.5 * (lab(y, x)[1] - a0) + 0.87 * (lab(y, x)[2] - b0));
  return out;
}

cv::Mat1b fill_holes(const cv::Mat1b& mask) {
  std::vector<std::vector<cv::Point>> contours;
  cv::findContours(mask, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
  cv::Mat1b out = cv::Mat1b::zeros(mask.size());
  cv::drawContours(out, contours, -1, cv::Scalar(255), cv::FILLED);
  return out;
}

// Medial line and widths of a filled region; the ends are cut where the body narrows to a neck or a tail.
bool reduce_to_ribbon(const cv::Mat1b& region, Ribbon& ribbon) {
  cv::Mat1f depth;
  cv::distanceTransform(region, depth, cv::DIST_L2, 5);
  cv::Point deepest;
  cv::minMaxLoc(depth, nullptr, nullptr, nullptr, &deepest);
  const std::vector<cv::Point2d> path = longest_way(depth);
  if (path.size() < 12) return false;
  // A pixel path is ragged: smooth it over about a half-width before anything is measured along it.
  const int reach = std::clamp(static_cast<int>(depth(deepest)), 2, static_cast<int>(path.size()) / 4);
  std::vector<cv::Point2d> calm;
  for (int i = 0; i < static_cast<int>(path.size()); i += std::max(1, reach / 2)) {
    const int r = std::min({reach, i, static_cast<int>(path.size()) - 1 - i});
    cv::Point2d sum;
    for (int j = i - r; j <= i + r; ++j) sum += path[j];
    calm.push_back(sum / (2 * r + 1));
  }
  calm.push_back(path.back());
  const auto whole = smooth_curve(calm, kRibbonPoints);
  const auto depth_at = [&](const cv::Point2d& p) {
    return depth(std::clamp(static_cast<int>(p.y), 0, depth.rows - 1),
                 std::clamp(static_cast<int>(p.x), 0, depth.cols - 1));
  };
  const double narrow = 0.5 * depth(deepest);
  int from = 0, to = kRibbonPoints - 1;
  while (from < kRibbonPoints - 1 && depth_at(whole[from]) < narrow) ++from;
  while (to > from && depth_at(whole[to]) < narrow) --to;
  if (to - from < 8) return false;
  // The medial line stops about a half-width short of a blunt end.
  std::vector<cv::Point2d> kept(whole.begin() + from, whole.begin() + to + 1);
  ribbon.midline = smooth_curve(kept, kRibbonPoints);
  ribbon.left.clear();
  for (const cv::Point2d& p : ribbon.midline) ribbon.left.push_back(std::max<double>(depth_at(p), 1));
  ribbon.right = ribbon.left;
  return true;
}

// A product of soft tests, each in [0, 1]: proportions, spots, dark surroundings, width that changes slowly.
double score_of(const Candidate& c, const cv::Mat1f& warm, const cv::Mat1b& warm_mask) {
  const auto soft = [](double value, double low, double full_low, double full_high, double high) {
    if (value <= low || value >= high) return 0.0;
    if (value < full_low) return (value - low) / (full_low - low);
    if (value > full_high) return (high - value) / (high - full_high);
    return 1.0;
  };
  const double length = curve_length(c.ribbon.midline);
  double width = 0, change = 0;
  for (size_t i = 0; i < c.ribbon.left.size(); ++i) {
    width += 2 * c.ribbon.left[i] / static_cast<double>(c.ribbon.left.size());
    if (i > 0) change += std::abs(c.ribbon.left[i] - c.ribbon.left[i - 1]);
  }
  const double area = cv::countNonZero(c.region);
  const double spots = 1 - cv::countNonZero(warm_mask & c.region) / area;
  cv::Mat1b ring;
  const int reach = std::max(2, static_cast<int>(width / 4));
  cv::dilate(c.region, ring, cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * reach + 1, 2 * reach + 1}));
  ring.setTo(0, c.region);
  const double contrast = cv::mean(warm, c.region & warm_mask)[0] - cv::mean(warm, ring)[0];
  return soft(length / width, 1.6, 2.4, 5.0, 8.0) * soft(spots, 0.01, 0.06, 0.6, 0.8) *
         soft(contrast, 6, 20, 1e9, 2e9) * soft(change / width, -1, 0, 0.8, 2.5) *
         soft(area / c.region.total(), 0.008, 0.025, 0.4, 0.6);
}

}  // namespace

BodyCoordinates coordinates_from_geometry(const Photo& photo) {
  BodyCoordinates none;
  none.source = "geometry";
  const double shrink =
      std::min(1.0, static_cast<double>(kLongSide) / std::max(photo.bgr.cols, photo.bgr.rows));
  cv::Mat3b small;
  cv::resize(photo.bgr, small, {}, shrink, shrink, cv::INTER_AREA);
  cv::GaussianBlur(small, small, {}, 1.0);
  const cv::Mat1f warm = warmth(small);
  cv::Mat1b scaled;
  warm.convertTo(scaled, CV_8U, 1.5, 64);
  cv::Mat1b dummy;
  const double otsu = (cv::threshold(scaled, dummy, 0, 255, cv::THRESH_OTSU) - 64) / 1.5;

  Candidate best;
  for (double level : {otsu - 6, otsu, otsu + 8}) {
    const cv::Mat1b warm_mask = warm > std::max(level, 8.0);
    for (int radius : {4, 8}) {
      const cv::Mat brush = cv::getStructuringElement(cv::MORPH_ELLIPSE, {2 * radius + 1, 2 * radius + 1});
      cv::Mat1b closed;
      cv::morphologyEx(warm_mask, closed, cv::MORPH_CLOSE, brush);
      closed = fill_holes(closed);
      cv::morphologyEx(closed, closed, cv::MORPH_OPEN, cv::getStructuringElement(cv::MORPH_ELLIPSE, {9, 9}));
      cv::Mat1i label;
      cv::Mat stats, centres;
      const int count = cv::connectedComponentsWithStats(closed, label, stats, centres);
      for (int n = 1; n < count; ++n) {
        const double area = stats.at<int>(n, cv::CC_STAT_AREA);
        const double share = area / static_cast<double>(closed.total());
        if (share < 0.008 || share > 0.6) continue;
        Candidate c;
        c.region = label == n;
        if (!reduce_to_ribbon(c.region, c.ribbon)) continue;
        c.score = score_of(c, warm, warm_mask);
        if (c.score > best.score) best = c;
      }
    }
  }
  if (best.score <= 0) return none;
  Ribbon ribbon = best.ribbon;
  for (cv::Point2d& p : ribbon.midline) p /= shrink;
  for (double& w : ribbon.left) w /= shrink;
  ribbon.right = ribbon.left;
  // The trunk is widest behind its middle, towards the vent: weak evidence for the head end, and only that.
  double front = 0, rear = 0;
  for (int i = 0; i < kRibbonPoints / 2; ++i)
    front += ribbon.left[i], rear += ribbon.left[kRibbonPoints - 1 - i];
  const double p_forward = 1 / (1 + std::exp(-2 * (rear - front) / std::max(rear + front, 1e-9)));
  BodyCoordinates k = coordinates_of(ribbon, photo.bgr.size());
  k.source = "geometry";
  k.confidence = 0.5 * best.score;  // never surer than a network that is half sure
  k.p_animal = best.score;
  k.p_head_right = p_forward;
  k.error = cv::Mat1f(k.uv.size(), 0.04f);
  return p_forward >= 0.5 ? k : turned_end_for_end(k);
}

}  // namespace evet
