// Spot maps drawn from a seed, and what photographing an animal again does to them: for property tests.
#pragma once
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <random>

#include "matcher/pattern/make_pattern.h"
#include "matcher/pattern/placement.h"

namespace evet::synthetic {

// Ellipses of random place, size and turn; `spots` of them.
inline SpotMap spotted(unsigned seed, int spots = 28) {
  std::mt19937 rng(seed);
  const auto uniform = [&](double a, double b) { return std::uniform_real_distribution<>(a, b)(rng); };
  SpotMap map{cv::Mat1b(kMapRows, kMapCols, uchar{0}), cv::Mat1b(kMapRows, kMapCols, uchar{255})};
  for (int i = 0; i < spots; ++i) {
    const cv::Size axes(static_cast<int>(uniform(2, 9)), static_cast<int>(uniform(2, 9)));
    const cv::Point centre(static_cast<int>(uniform(0, kMapCols)), static_cast<int>(uniform(0, kMapRows)));
    cv::ellipse(map.dark, centre, axes, uniform(0, 180), 0, 360, cv::Scalar(255), cv::FILLED, cv::LINE_AA);
  }
  return map;
}

inline SpotMap copy(const SpotMap& map) {  // of the pixels: a plain copy of a cv::Mat shares them
  return {map.dark.clone(), map.valid.clone()};
}

// The map read at placement plus a smooth random displacement of about `bend` (shares of the length).
inline SpotMap warped(const SpotMap& map, const Placement& placement, double bend, unsigned seed) {
  std::mt19937 rng(seed);
  std::normal_distribution<float> normal(0.F, static_cast<float>(bend));
  cv::Mat2f coarse(6, 4), flow;
  for (cv::Vec2f& f : coarse) f = {normal(rng), normal(rng)};
  cv::resize(coarse, flow, map.dark.size(), 0, 0, cv::INTER_CUBIC);
  cv::Mat2f from(map.dark.size());
  for (int r = 0; r < kMapRows; ++r)
    for (int c = 0; c < kMapCols; ++c) {
      const double u = placement.u((r + 0.5) / kMapRows), v = placement.v((c + 0.5) / kMapCols * 2 - 1);
      from(r, c) = {static_cast<float>((v + 1) / 2 * kMapCols - 0.5) + flow(r, c)[1] * kMapRows,
                    static_cast<float>(u * kMapRows - 0.5) + flow(r, c)[0] * kMapRows};
    }
  SpotMap out;
  cv::remap(map.dark, out.dark, from, {}, cv::INTER_LINEAR, cv::BORDER_CONSTANT, 0);
  cv::remap(map.valid, out.valid, from, {}, cv::INTER_NEAREST, cv::BORDER_CONSTANT, 0);
  out.dark.setTo(0, out.valid == 0);
  return out;
}

inline SpotMap covered(const SpotMap& whole, const cv::Rect& where) {
  SpotMap map = copy(whole);
  const cv::Rect inside = where & cv::Rect(0, 0, kMapCols, kMapRows);
  map.valid(inside).setTo(0);
  map.dark(inside).setTo(0);
  return map;
}

// Every spot a rim wider, and `dots` new small ones on clean ground.
inline SpotMap grown(const SpotMap& young, int dots, unsigned seed) {
  SpotMap map = copy(young);
  std::mt19937 rng(seed);
  cv::dilate(map.dark, map.dark, cv::getStructuringElement(cv::MORPH_ELLIPSE, {3, 3}));
  for (int placed = 0, tries = 0; placed < dots && tries < 1000; ++tries) {
    const cv::Point at(static_cast<int>(rng() % (kMapCols - 8)) + 4,
                       static_cast<int>(rng() % (kMapRows - 8)) + 4);
    if (cv::countNonZero(map.dark({at.x - 4, at.y - 4, 8, 8})) > 0) continue;
    cv::circle(map.dark, at, 2, cv::Scalar(255), cv::FILLED);
    ++placed;
  }
  map.dark.setTo(0, map.valid == 0);
  return map;
}

}  // namespace evet::synthetic
