#include "tools/review/spot_ties.h"

#include <cmath>
#include <opencv2/imgproc.hpp>
#include <vector>

namespace evet::review {
namespace {

constexpr int kNodeRows = 64, kNodeCols = 20;  // as fine as the maps that were aligned

double rounded(double value) {
  return std::round(value * 10000) / 10000;
}

nlohmann::json spot_json(const Spot& spot) {
  return {{"u", rounded(spot.u)}, {"v", rounded(spot.v)}, {"area", rounded(spot.area)}};
}

cv::Point2d turned_if(bool turned, const cv::Point2d& at) {
  return turned ? cv::Point2d(1 - at.x, -at.y) : at;
}

cv::Point2d back(const Alignment& alignment, const cv::Point2d& to) {
  cv::Point2d at = to;
  for (int i = 0; i < 12; ++i) at += to - alignment.at(at.x, at.y);
  return at;
}

}  // namespace

Comparison lay(const Pattern& capture, const Pattern& candidate) {
  const PreparedPair pair = prepare_for(capture, candidate);
  return compare(pair.query, candidate, pair.hits, Order::unknown);
}

cv::Mat2f candidate_from_capture(const Comparison& laid, int rows, int cols) {
  cv::Mat2f nodes(kNodeRows, kNodeCols), out;
  for (int r = 0; r < kNodeRows; ++r)
    for (int c = 0; c < kNodeCols; ++c) {
      const cv::Point2d here((r + 0.5) / kNodeRows, (c + 0.5) / kNodeCols * 2 - 1);
      const cv::Point2d there = back(laid.alignment, turned_if(laid.turned, here));
      // As a shift from where it would lie undeformed, so that the rim goes on as the body does.
      nodes(r, c) = {static_cast<float>(there.x - turned_if(laid.turned, here).x),
                     static_cast<float>(there.y - turned_if(laid.turned, here).y)};
    }
  cv::resize(nodes, out, {cols, rows}, 0, 0, cv::INTER_LINEAR);
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < cols; ++c) {
      const cv::Point2d here = turned_if(laid.turned, {(r + 0.5) / rows, (c + 0.5) / cols * 2 - 1});
      out(r, c) += cv::Vec2f(static_cast<float>(here.x), static_cast<float>(here.y));
    }
  return out;
}

nlohmann::json ties_json(const Pattern& capture, const Pattern& candidate, const Comparison& laid) {
  std::vector<Spot> moving = capture.spots;
  if (laid.turned)
    for (Spot& spot : moving) spot.u = 1 - spot.u, spot.v = -spot.v;
  const auto laid_spot = [&](std::size_t i) {
    const Spot& spot = candidate.spots[i];
    nlohmann::json json = spot_json(spot);
    const cv::Point2d at = turned_if(laid.turned, laid.alignment.at(spot.u, spot.v));
    json["u_laid"] = rounded(at.x), json["v_laid"] = rounded(at.y);
    return json;
  };
  std::vector<bool> tied(capture.spots.size()), tied_candidate(candidate.spots.size());
  nlohmann::json matched = nlohmann::json::array(), only_capture = nlohmann::json::array(),
                 only_candidate = nlohmann::json::array();
  for (const SpotPair& pair : spot_pairs(candidate.spots, moving, laid.alignment)) {
    tied[pair.moving] = tied_candidate[pair.fixed] = true;
    matched.push_back(
        {{"capture", spot_json(capture.spots[pair.moving])}, {"candidate", laid_spot(pair.fixed)}});
  }
  for (std::size_t i = 0; i < tied.size(); ++i)
    if (!tied[i]) only_capture.push_back(spot_json(capture.spots[i]));
  for (std::size_t i = 0; i < tied_candidate.size(); ++i)
    if (!tied_candidate[i]) only_candidate.push_back(laid_spot(i));
  return {{"matched", matched},
          {"only_capture", only_capture},
          {"only_candidate", only_candidate},
          {"overlap", rounded(laid.alignment.overlap)}};
}

}  // namespace evet::review
