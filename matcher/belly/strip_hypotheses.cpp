#include "matcher/belly/strip_hypotheses.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "matcher/belly/medial_line.h"

namespace evet {
namespace {

constexpr float kBellyFrom = 0.5f;
constexpr double kExplainsAll = 0.9;  // of outline match and agreement: no other way need be tried
constexpr double kMostFolded = 0.05;  // a map that turns more of the skin inside out is no map
constexpr double kLeastSlope = 0.25;  // of u over the medial line, below which it tells no course
// How far u may be from 0 or 1 at an end of the outline: inside the picture, and where the picture ends.
constexpr double kEndInside = 0.15, kEndCutOff = 0.5;
constexpr double kMostShift = 0.6;     // of v, half-widths
constexpr float kRibbonError = 0.03f;  // of u along a medial line

// Where each cell of the grid lies on the ribbon: its u from one end to the other, and v across.
struct OnRibbon {
  cv::Mat2f uv;  // NaN far from the ribbon
  cv::Mat1b belly;
};

OnRibbon place_cells(const BodyCoordinates& k, const Ribbon& ribbon) {
  OnRibbon out{cv::Mat2f(k.p_belly.size(), cv::Vec2f(NAN, NAN)), k.p_belly >= kBellyFrom};
  for (int y = 0; y < out.uv.rows; ++y)
    for (int x = 0; x < out.uv.cols; ++x)
      if (k.p_belly(y, x) > 0.2f) {
        const RibbonPlace at = place_on(ribbon, {x + 0.5, y + 0.5});
        if (at.across < 1.3 && at.along > -0.3 && at.along < 1.3)
          out.uv(y, x) = {static_cast<float>(at.along), static_cast<float>(v_of(at))};
      }
  return out;
}

// u and v of the coordinates as straight functions of place on the ribbon: u = from + slope * along,
// v = shift + sign * v on the ribbon.
struct Course {
  double from = 0, slope = 1, shift = 0;
  bool is_straight = false;  // the coordinates run evenly enough along the ribbon to be read so
};

double median(std::vector<double>& values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

Course course_of(const BodyCoordinates& k, const OnRibbon& cells) {
  constexpr int kBins = 16;
  std::array<std::vector<double>, kBins> u_in;
  for (int y = 0; y < k.uv.rows; ++y)
    for (int x = 0; x < k.uv.cols; ++x) {
      const float along = cells.uv(y, x)[0];
      if (!cells.belly(y, x) || !(along >= 0 && along < 1)) continue;
      u_in[static_cast<size_t>(along * kBins)].push_back(k.uv(y, x)[0]);
    }
  std::vector<std::pair<double, double>> medians;  // along, u
  for (int b = 0; b < kBins; ++b)
    if (u_in[static_cast<size_t>(b)].size() >= 4)
      medians.emplace_back((b + 0.5) / kBins, median(u_in[static_cast<size_t>(b)]));
  Course course;
  if (medians.size() < kBins / 2) return course;
  // Theil-Sen: the median of all slopes is not moved by a third of wrong ones (Sen 1968, J. Am. Stat. Ass.).
  std::vector<double> slopes, starts, residuals;
  for (size_t i = 0; i < medians.size(); ++i)
    for (size_t j = i + 1; j < medians.size(); ++j)
      slopes.push_back((medians[j].second - medians[i].second) / (medians[j].first - medians[i].first));
  const double slope = median(slopes);
  for (const auto& [along, u] : medians) starts.push_back(u - slope * along);
  const double start = median(starts);
  for (const auto& [along, u] : medians) residuals.push_back(std::abs(u - start - slope * along));
  course.is_straight = std::abs(slope) > kLeastSlope && median(residuals) < 0.08;
  course.from = start, course.slope = slope;
  return course;
}

bool at_edge_of_picture(const BodyCoordinates& k, const cv::Point2d& grid, cv::Size photo) {
  constexpr double kNear = 2.5;  // cells
  const cv::Vec2d p = k.photo_from_grid * cv::Vec3d(grid.x, grid.y, 1);
  const double near = kNear * std::hypot(k.photo_from_grid(0, 0), k.photo_from_grid(1, 0));
  return p[0] < near || p[1] < near || p[0] > photo.width - near || p[1] > photo.height - near;
}

// An outline that ends within the picture ends near throat fold and vent: held to that, u cannot run away.
Course held_to_ends(Course course, bool first_cut_off, bool last_cut_off) {
  const auto held = [](double u, bool cut_off, bool low) {
    const double far = cut_off ? kEndCutOff : kEndInside;
    return low ? std::clamp(u, -kEndInside, far) : std::clamp(u, 1 - far, 1 + kEndInside);
  };
  const bool downwards = course.slope > 0;
  const double last = held(course.from + course.slope, last_cut_off, !downwards);
  course.from = held(course.from, first_cut_off, downwards);
  course.slope = last - course.from;
  return course;
}

// How far the skin is turned across: the median of what the coordinates say beyond the ribbon's own v.
double shift_of(const BodyCoordinates& k, const OnRibbon& cells, double sign) {
  std::vector<double> shifts;
  for (int y = 0; y < k.uv.rows; ++y)
    for (int x = 0; x < k.uv.cols; ++x) {
      const cv::Vec2f at = cells.uv(y, x);
      if (cells.belly(y, x) && at[0] > 0.1f && at[0] < 0.9f) shifts.push_back(k.uv(y, x)[1] - sign * at[1]);
    }
  return shifts.size() < 20 ? 0 : std::clamp(median(shifts), -kMostShift, kMostShift);
}

BodyCoordinates along_ribbon(const BodyCoordinates& k, const OnRibbon& cells, const Course& course) {
  BodyCoordinates out = k;
  out.uv = cv::Mat2f(k.uv.size(), cv::Vec2f(NAN, NAN));
  const double sign = course.slope < 0 ? -1 : 1;
  for (int y = 0; y < out.uv.rows; ++y)
    for (int x = 0; x < out.uv.cols; ++x) {
      const cv::Vec2f at = cells.uv(y, x);
      if (std::isfinite(at[0]))
        out.uv(y, x) = {static_cast<float>(course.from + course.slope * at[0]),
                        static_cast<float>(course.shift + sign * at[1])};
    }
  out.error = cv::Mat1f(k.uv.size(), kRibbonError);
  return out;
}

// Logistic model, fitted on photos of worlds that the network never saw, then shifted to the middle between
// those and worlds that it did (models/weights/belly.md).
double log_odds_of(const StripSupport& s, double steepness) {
  return -2.179 + 5.225 * s.outline_match() + 0.407 * s.field_agrees - 1.865 * s.bend_deg / 90 +
         2.045 * steepness / 10 - 3.998 * (s.length_over_extent - 1);
}

// Weights set by hand: the outline first, since it travels to animals never seen better than coordinates do.
double preference_of(const StripSupport& s, LaidAlong along) {
  const double bias = along == LaidAlong::coordinates               ? 0.0
                      : along == LaidAlong::outline_and_coordinates ? -0.5
                                                                    : -1.5;
  return 12 * (s.outline_match() - 0.75) + 3 * (s.field_agrees - 0.5) + bias;
}

void add(std::vector<StripHypothesis>& all, LaidAlong along, BodyCoordinates coordinates,
         const BodyCoordinates& network, cv::Size photo) {
  const auto fit = fit_strip(coordinates);
  if (!fit || fit->folded_share > kMostFolded) return;
  const StripSupport support = support_of(fit->photo_from_strip, network, photo);
  if (!support.possible()) return;
  all.push_back({along, std::move(coordinates), *fit, support, preference_of(support, along),
                 log_odds_of(support, network.steepness)});
}

}  // namespace

double p_laid_right(const StripHypothesis& laid) {
  return 1 / (1 + std::exp(-laid.log_odds));
}

std::vector<StripHypothesis> strip_hypotheses(const BodyCoordinates& k, cv::Size photo) {
  std::vector<StripHypothesis> all;
  if (k.p_belly.empty()) return all;
  add(all, LaidAlong::coordinates, k, k, photo);
  if (!all.empty() && all[0].support.outline_match() > kExplainsAll &&
      all[0].support.field_agrees > kExplainsAll)
    return all;
  if (const auto ribbon = medial_ribbon(k.p_belly >= kBellyFrom)) {
    const OnRibbon cells = place_cells(k, *ribbon);
    Course course = course_of(k, cells);
    const double sign = course.slope < 0 ? -1 : 1;
    if (course.is_straight) {
      course = held_to_ends(course, at_edge_of_picture(k, ribbon->midline.front(), photo),
                            at_edge_of_picture(k, ribbon->midline.back(), photo));
      course.shift = shift_of(k, cells, sign);
      add(all, LaidAlong::outline_and_coordinates, along_ribbon(k, cells, course), k, photo);
    }
    const Course plain{sign < 0 ? 1.0 : 0.0, sign, 0, true};
    add(all, LaidAlong::outline, along_ribbon(k, cells, plain), k, photo);
  }
  std::stable_sort(all.begin(), all.end(), [](const StripHypothesis& a, const StripHypothesis& b) {
    return a.preference > b.preference;
  });
  return all;
}

}  // namespace evet
