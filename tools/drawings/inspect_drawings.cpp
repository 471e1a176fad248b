#include "tools/drawings/inspect_drawings.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/pattern/pattern_code.h"
#include "tools/drawings/messages.h"

namespace evet {
namespace {

constexpr int kLongSide = 1200;  // of the drawings on the photo
constexpr int kEnlarge = 3;      // of drawings on the spot map
const cv::Scalar kLine(255, 255, 255), kShade(40, 40, 40), kThroat(80, 220, 80), kOutline(255, 160, 60);

struct DrawnOn {
  cv::Mat3b picture;
  double scale = 1;

  cv::Point at(const cv::Point2d& p) const { return {cvRound(p.x * scale), cvRound(p.y * scale)}; }
  // Light on dark, so that lines show on any ground.
  void polyline(const std::vector<cv::Point>& line, const cv::Scalar& colour, int thickness,
                bool closed = false) {
    cv::polylines(picture, line, closed, kShade, thickness + 2, cv::LINE_AA);
    cv::polylines(picture, line, closed, colour, thickness, cv::LINE_AA);
  }
};

DrawnOn drawn_on(const Photo& photo) {
  DrawnOn page;
  page.scale = static_cast<double>(kLongSide) / std::max(photo.bgr.cols, photo.bgr.rows);
  cv::resize(photo.bgr, page.picture, {}, page.scale, page.scale,
             page.scale < 1 ? cv::INTER_AREA : cv::INTER_LINEAR);
  return page;
}

cv::Mat draw_belly(const Photo& photo, const BellyFinding& belly) {
  DrawnOn page = drawn_on(photo);
  std::vector<cv::Point> outline;
  for (const cv::Point& p : belly.shape.outline) outline.push_back(page.at(p));
  if (outline.size() > 2) page.polyline(outline, kOutline, 1, true);
  if (const auto& fit = belly.fit) {
    const auto line = [&](auto&& place) {
      std::vector<cv::Point> points;
      for (int i = 0; i <= 40; ++i) points.push_back(page.at(place(i / 40.0)));
      return points;
    };
    const StripMap& map = fit->photo_from_strip;
    for (int i = 0; i <= 10; ++i)
      page.polyline(line([&](double t) { return map.at(i / 10.0, 2 * t - 1); }), kLine, 1);
    for (double v : {-1.0, -0.5, 0.5, 1.0})
      page.polyline(line([&](double t) { return map.at(t, v); }), kLine, 1);
    page.polyline(line([&](double t) { return map.at(t, 0); }), kLine, 2);
    page.polyline(line([&](double t) { return map.at(0, 2 * t - 1); }), kThroat, 3);
  }
  return page.picture;
}

// The photo, darkened where there is no belly; covered belly striped.
cv::Mat draw_probability(const Photo& photo, const BodyCoordinates& k) {
  DrawnOn page = drawn_on(photo);
  if (k.p_belly.empty()) return page.picture;
  const cv::Matx33d grid_from_photo =
      cv::Matx33d(k.photo_from_grid(0, 0), k.photo_from_grid(0, 1), k.photo_from_grid(0, 2),
                  k.photo_from_grid(1, 0), k.photo_from_grid(1, 1), k.photo_from_grid(1, 2), 0, 0, 1)
          .inv();
  cv::Mat2f at(page.picture.size());
  for (int y = 0; y < at.rows; ++y)
    for (int x = 0; x < at.cols; ++x) {
      const cv::Vec3d g = grid_from_photo * cv::Vec3d((x + 0.5) / page.scale, (y + 0.5) / page.scale, 1);
      at(y, x) = {static_cast<float>(g[0] - 0.5), static_cast<float>(g[1] - 0.5)};
    }
  cv::Mat1f belly, clear;
  cv::remap(k.p_belly, belly, at, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  cv::remap(k.p_clear, clear, at, cv::noArray(), cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  for (int y = 0; y < at.rows; ++y)
    for (int x = 0; x < at.cols; ++x) {
      cv::Vec3b& p = page.picture(y, x);
      p *= 0.25 + 0.75 * belly(y, x);
      const bool stripe = (x + y) / 4 % 2 == 0;
      if (stripe && belly(y, x) > 0.5f && clear(y, x) < 0.5f) p = cv::Vec3b(255, 160, 60);
    }
  return page.picture;
}

cv::Mat draw_spots(const Pattern& pattern) {
  cv::Mat3b picture;
  cv::Mat dark = 255 - pattern.map.dark;
  cv::cvtColor(dark, dark, cv::COLOR_GRAY2BGR);
  cv::resize(dark, picture, {}, kEnlarge, kEnlarge, cv::INTER_NEAREST);
  for (const Spot& spot : pattern.spots) {
    const cv::Point2d centre((spot.v + 1) / 2 * picture.cols, spot.u * picture.rows);
    const double area = spot.area * static_cast<double>(picture.total());
    const double longer = std::sqrt(area / CV_PI * spot.elongation), shorter = longer / spot.elongation;
    // The angle counts from the u axis (down the picture) towards v (right); OpenCV's from x towards y.
    cv::ellipse(
        picture,
        cv::RotatedRect(centre, cv::Size2d(2 * longer, 2 * shorter), 90 - spot.angle_rad * 180 / CV_PI),
        kOutline, 2, cv::LINE_AA);
  }
  return picture;
}

// One panel a filter, head up, one square a bit: black and white where known, mid grey where not.
cv::Mat draw_code(const PatternCode& code) {
  constexpr int kGap = 2;
  cv::Mat1b bits(kCodeAlong, kCodeFilters * (kCodeAcross + kGap) - kGap, 200);
  for (int filter = 0; filter < kCodeFilters; ++filter)
    for (int along = 0; along < kCodeAlong; ++along)
      for (int across = 0; across < kCodeAcross; ++across) {
        const int n = (filter * kCodeAlong + along) * kCodeAcross + across;
        const bool known = code.known[n / 64] >> (n % 64) & 1, on = code.bits[n / 64] >> (n % 64) & 1;
        bits(along, filter * (kCodeAcross + kGap) + across) = !known ? 128 : on ? 0 : 255;
      }
  cv::Mat picture;
  cv::resize(bits, picture, {}, 8, 12, cv::INTER_NEAREST);
  return picture;
}

}  // namespace

std::vector<Drawing> draw_stages(const Photo& photo, const BellyFinding& belly, const Pattern* pattern) {
  std::vector<Drawing> out;
  if (belly.strip)
    out.push_back({"1-belly", Message(messages::kDrawnBelly).words(), draw_belly(photo, belly)});
  out.push_back({"2-probability", Message(messages::kDrawnProbability).words(),
                 draw_probability(photo, belly.coordinates)});
  if (!belly.strip) return out;
  out.push_back({"3-strip", Message(messages::kDrawnStrip).words(), belly.strip->bgr});
  out.push_back({"4-mask", Message(messages::kDrawnMask).words(), belly.strip->valid});
  if (!pattern) return out;
  cv::Mat dark = 255 - pattern->map.dark;
  dark.setTo(128, pattern->map.valid == 0);
  out.push_back({"5-spot-map", Message(messages::kDrawnSpotMap).words(), dark});
  out.push_back({"6-spots", Message(messages::kDrawnSpots).words(), draw_spots(*pattern)});
  out.push_back({"7-code", Message(messages::kDrawnCode).words(), draw_code(pattern->code)});
  return out;
}

}  // namespace evet
