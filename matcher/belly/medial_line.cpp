#include "matcher/belly/medial_line.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <queue>

namespace evet {
namespace {

constexpr int kMedialPoints = 65;
constexpr int kCourse = 25;         // points of the course while it is being centred
constexpr double kTrim = 0.12;      // of the course, at each end, where a way runs into a corner
constexpr int kCentrings = 4;       // more move nothing
constexpr double kShortestWay = 8;  // pixels

// Farthest pixel from `from` inside the region, where steps near the rim cost more; `back` traces the way.
cv::Point farthest(const cv::Mat1f& depth, cv::Point from, cv::Mat1i& back) {
  cv::Mat1f cost(depth.size(), 1e30f);
  back = cv::Mat1i(depth.size(), -1);
  const float deepest = *std::max_element(depth.begin(), depth.end());
  using Item = std::pair<float, int>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> open;
  cost(from) = 0;
  open.push({0.f, from.y * depth.cols + from.x});
  int last = from.y * depth.cols + from.x;
  while (!open.empty()) {
    const auto [c, index] = open.top();
    open.pop();
    const cv::Point p(index % depth.cols, index / depth.cols);
    if (c > cost(p)) continue;
    last = index;
    for (int dy = -1; dy <= 1; ++dy)
      for (int dx = -1; dx <= 1; ++dx) {
        const cv::Point q = p + cv::Point(dx, dy);
        if ((dx == 0 && dy == 0) || q.x < 0 || q.y < 0 || q.x >= depth.cols || q.y >= depth.rows) continue;
        if (depth(q) <= 0) continue;
        const float step = (dx != 0 && dy != 0 ? 1.414f : 1.f) * (1 + 4 * (1 - depth(q) / deepest));
        if (c + step >= cost(q)) continue;
        cost(q) = c + step;
        back(q) = index;
        open.push({cost(q), q.y * depth.cols + q.x});
      }
  }
  return {last % depth.cols, last / depth.cols};
}

bool inside(const cv::Mat1b& mask, const cv::Point2d& p) {
  const int x = cvFloor(p.x), y = cvFloor(p.y);
  return x >= 0 && y >= 0 && x < mask.cols && y < mask.rows && mask(y, x) != 0;
}

// Pixels from `from` along a unit vector to the region's border; 0 when it starts outside.
double reach(const cv::Mat1b& mask, const cv::Point2d& from, const cv::Point2d& way) {
  constexpr double kStep = 0.25;
  const double limit = mask.rows + mask.cols;
  double gone = 0;
  while (gone < limit && inside(mask, from + way * gone)) gone += kStep;
  return std::max(gone - kStep / 2, 0.0);
}

std::vector<double> smoothed(const std::vector<double>& values, int radius) {
  const int n = static_cast<int>(values.size());
  std::vector<double> out(values.size());
  for (int i = 0; i < n; ++i) {
    std::vector<double> near(values.begin() + std::max(0, i - radius),
                             values.begin() + std::min(n, i + radius + 1));
    std::nth_element(near.begin(), near.begin() + static_cast<std::ptrdiff_t>(near.size() / 2), near.end());
    out[i] = near[near.size() / 2];
  }
  return out;
}

// Each point halfway between the borders to its left and right, then calmed along the course.
std::vector<cv::Point2d> centred(const cv::Mat1b& mask, const std::vector<cv::Point2d>& course) {
  const auto left = left_normals(course);
  std::vector<double> shift;
  for (size_t i = 0; i < course.size(); ++i)
    shift.push_back((reach(mask, course[i], left[i]) - reach(mask, course[i], -left[i])) / 2);
  shift = smoothed(shift, 2);
  std::vector<cv::Point2d> moved;
  for (size_t i = 0; i < course.size(); ++i) moved.push_back(course[i] + left[i] * shift[i]);
  std::vector<cv::Point2d> calm = moved;
  for (size_t i = 1; i + 1 < moved.size(); ++i) calm[i] = (moved[i - 1] + 2 * moved[i] + moved[i + 1]) / 4;
  return smooth_curve(calm, kCourse);
}

// From the course's end on to the region's border, the way its last fifth goes.
cv::Point2d carried_on(const cv::Mat1b& mask, const cv::Point2d& before, const cv::Point2d& end) {
  const cv::Point2d way = (end - before) / std::max(cv::norm(end - before), 1e-9);
  return end + way * reach(mask, end, way);
}

cv::Mat1b deepest_region(const cv::Mat1b& mask) {
  cv::Mat1f depth;
  cv::distanceTransform(mask, depth, cv::DIST_L2, 5);
  cv::Point deepest;
  cv::minMaxLoc(depth, nullptr, nullptr, nullptr, &deepest);
  cv::Mat1i label;
  cv::connectedComponents(mask, label, 8, CV_32S);
  return label == label(deepest);
}

}  // namespace

std::vector<cv::Point2d> longest_way(const cv::Mat1f& depth) {
  cv::Point deepest;
  cv::minMaxLoc(depth, nullptr, nullptr, nullptr, &deepest);
  cv::Mat1i back;
  const cv::Point one = farthest(depth, deepest, back);
  const cv::Point other = farthest(depth, one, back);
  std::vector<cv::Point2d> way;
  for (int index = other.y * depth.cols + other.x; index >= 0;) {
    const int row = index / depth.cols, col = index % depth.cols;
    way.emplace_back(col + 0.5, row + 0.5);
    index = back(row, col);
  }
  return way;
}

std::optional<Ribbon> medial_ribbon(const cv::Mat1b& mask) {
  if (mask.empty() || cv::countNonZero(mask) < kShortestWay * 2) return std::nullopt;
  // A frame of nothing, so that a region cut off by the picture has a border there.
  cv::Mat1b region;
  cv::copyMakeBorder(deepest_region(mask), region, 1, 1, 1, 1, cv::BORDER_CONSTANT, cv::Scalar(0));
  cv::Mat1f depth;
  cv::distanceTransform(region, depth, cv::DIST_L2, 5);
  const std::vector<cv::Point2d> way = longest_way(depth);
  if (way.size() < kShortestWay) return std::nullopt;
  const auto trim = static_cast<std::ptrdiff_t>(kTrim * static_cast<double>(way.size()));
  std::vector<cv::Point2d> course;
  const auto stride = std::max<std::ptrdiff_t>(1, static_cast<std::ptrdiff_t>(way.size()) / kCourse);
  for (std::ptrdiff_t i = trim; i < static_cast<std::ptrdiff_t>(way.size()) - trim; i += stride)
    course.push_back(way[static_cast<size_t>(i)]);
  if (course.size() < 3) return std::nullopt;
  course = smooth_curve(course, kCourse);
  for (int i = 0; i < kCentrings; ++i) {
    course = centred(region, course);
    const size_t fifth = kCourse / 5;
    std::vector<cv::Point2d> longer{carried_on(region, course[fifth], course.front())};
    longer.insert(longer.end(), course.begin(), course.end());
    longer.push_back(carried_on(region, course[kCourse - 1 - fifth], course.back()));
    const std::vector<cv::Point2d> fine = smooth_curve(longer, kMedialPoints);
    if (i + 1 == kCentrings) {
      course = fine;
      break;
    }
    // The ends are found anew each time: close to a border a perpendicular tells little.
    const auto cut = static_cast<std::ptrdiff_t>(kTrim / 2 * kMedialPoints);
    course = smooth_curve({fine.begin() + cut, fine.end() - cut}, kCourse);
  }
  Ribbon out;
  out.midline = course;
  const auto left = left_normals(course);
  for (size_t i = 0; i < course.size(); ++i) {
    out.left.push_back(reach(region, course[i], left[i]));
    out.right.push_back(reach(region, course[i], -left[i]));
  }
  out.left = smoothed(out.left, 3), out.right = smoothed(out.right, 3);
  for (cv::Point2d& p : out.midline) p -= cv::Point2d(1, 1);
  return out;
}

}  // namespace evet
