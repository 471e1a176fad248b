#include "matcher/belly/midline_provider.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/belly/messages.h"
#include "matcher/belly/ribbon.h"

namespace evet {
namespace {

constexpr int kDrawnPoints = 65;
constexpr int kOffsets = 40;     // offsets looked at to one side, evenly up to kReach
constexpr double kReach = 0.30;  // of the length
constexpr double kNarrowestEdge = 0.07, kWidestEdge = 0.22, kUsual = 0.135;

using Histogram = std::array<double, 8 * 16 * 16>;

int bin(const cv::Vec3b& lab) {
  return (lab[0] >> 5) * 256 + (lab[1] >> 4) * 16 + (lab[2] >> 4);
}

// Half-widths to one side (+1 left, -1 right): where colours stop being those next to the midline and start
// being those well away from it.
std::vector<double> half_widths(const cv::Mat3b& lab, const std::vector<cv::Point2d>& mid,
                                const std::vector<cv::Point2d>& left, double length, double side) {
  const auto look = [&](size_t i, double offset) -> const cv::Vec3b* {
    const cv::Point2d p = mid[i] + left[i] * (side * offset * length);
    const int x = static_cast<int>(std::floor(p.x)), y = static_cast<int>(std::floor(p.y));
    return x >= 0 && y >= 0 && x < lab.cols && y < lab.rows ? &lab(y, x) : nullptr;
  };
  Histogram inside{}, outside{};
  inside.fill(0.5), outside.fill(0.5);
  for (size_t i = 0; i < mid.size(); ++i)
    for (int s = 0; s < kOffsets; ++s) {
      const double offset = kReach * s / kOffsets;
      const cv::Vec3b* p = look(i, offset);
      if (!p) continue;
      if (offset < 0.06) inside[bin(*p)] += 1;
      if (offset > kWidestEdge) outside[bin(*p)] += 1;
    }
  double n_in = 0, n_out = 0;
  for (size_t b = 0; b < inside.size(); ++b) n_in += inside[b], n_out += outside[b];
  const auto evidence = [&](size_t i, double offset) {
    const cv::Vec3b* p = look(i, offset);
    return p ? std::clamp(std::log(inside[bin(*p)] / n_in * n_out / outside[bin(*p)]), -3.0, 3.0) : 0.0;
  };
  std::vector<double> out(mid.size());
  for (size_t i = 0; i < mid.size(); ++i) {
    double best = -1e300, sum = 0;
    out[i] = kUsual;
    for (int s = 0; s < kOffsets; ++s) {
      const double offset = kReach * s / kOffsets;
      const size_t from = i > 3 ? i - 3 : 0, to = std::min(i + 3, mid.size() - 1);
      for (size_t j = from; j <= to; ++j) sum += evidence(j, offset) / static_cast<double>(to - from + 1);
      if (offset < kNarrowestEdge || offset > kWidestEdge) continue;
      const double total = sum - 8 * std::pow((offset - kUsual) / 0.08, 2) / 2;  // a mild prior
      if (total > best) best = total, out[i] = offset;
    }
  }
  // A body's width changes slowly: median, then mean, over an eighth of the length.
  std::vector<double> calm(out.size());
  for (int pass = 0; pass < 2; ++pass) {
    for (size_t i = 0; i < out.size(); ++i) {
      std::vector<double> near(out.begin() + (i > 4 ? i - 4 : 0), out.begin() + std::min(i + 5, out.size()));
      std::sort(near.begin(), near.end());
      double mean = 0;
      for (double w : near) mean += w / static_cast<double>(near.size());
      calm[i] = pass == 0 ? near[near.size() / 2] : mean;
    }
    out = calm;
  }
  for (double& w : out) w *= length;
  return out;
}

// Before anything is drawn through them.
void check_points(const cv::Size& picture, const std::vector<cv::Point2d>& midline) {
  const double margin = 0.1 * std::max(picture.width, picture.height);
  const cv::Rect2d around(-margin, -margin, picture.width + 2 * margin, picture.height + 2 * margin);
  const bool inside =
      std::all_of(midline.begin(), midline.end(), [&](const cv::Point2d& p) { return around.contains(p); });
  if (!inside || midline.size() > kMostMidlinePoints)
    throw Error(ErrorKind::usage, "midline",
                inside ? Message(messages::kHasPoints, {{"midline", std::to_string(midline.size())}})
                       : Message(messages::kLiesOutsidePicture),
                Message(messages::kGiveUpPointsInPixels,
                        {{"most_midline_points", std::to_string(kMostMidlinePoints)}}));
}

}  // namespace

BodyCoordinates coordinates_from_midline(const Photo& photo, const std::vector<cv::Point2d>& midline) {
  check_points(photo.bgr.size(), midline);
  Ribbon ribbon;
  ribbon.midline = smooth_curve(midline, kDrawnPoints);
  if (ribbon.midline.empty())
    throw Error(ErrorKind::usage, "midline", messages::kHasFewerThanTwoDistinct,
                messages::kGiveThroatFoldFirstVent);
  const cv::Rect2d frame(0, 0, photo.bgr.cols, photo.bgr.rows);
  if (std::none_of(ribbon.midline.begin(), ribbon.midline.end(),
                   [&](const cv::Point2d& p) { return frame.contains(p); }))
    throw Error(ErrorKind::usage, "midline", messages::kLiesOutsidePicture, messages::kGivePointsInPixelsOf);
  const double length = curve_length(ribbon.midline);
  if (!(length <= 3.0 * (photo.bgr.cols + photo.bgr.rows)))
    throw Error(ErrorKind::usage, "midline", messages::kIsLongerThanAnyBelly,
                messages::kGiveThroatFoldFirstVent);
  cv::Mat3b soft, lab;
  const double sigma = std::max(length / 200, 0.5);
  cv::GaussianBlur(photo.bgr, soft, {}, sigma);
  cv::cvtColor(soft, lab, cv::COLOR_BGR2Lab);
  const auto left = left_normals(ribbon.midline);
  ribbon.left = half_widths(lab, ribbon.midline, left, length, 1);
  ribbon.right = half_widths(lab, ribbon.midline, left, length, -1);
  BodyCoordinates k = coordinates_of(ribbon, photo.bgr.size());
  k.source = "midline";
  k.confidence = 1;
  k.p_animal = 1;
  k.p_head_right = 1;
  return k;
}

}  // namespace evet
