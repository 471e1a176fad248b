#include "tools/review/spot_ties.h"

#include <cmath>
#include <vector>

namespace evet::review {
namespace {

double rounded(double value) {
  return std::round(value * 10000) / 10000;
}

nlohmann::json spot_json(const Spot& spot) {
  return {{"u", rounded(spot.u)}, {"v", rounded(spot.v)}, {"area", rounded(spot.area)}};
}

// Where a point of the moving strip comes to lie on the fixed one: the alignment the other way, by
// fixed-point iteration, which is enough for a smooth map near the identity.
cv::Point2d back(const Alignment& alignment, double u, double v) {
  cv::Point2d at(u, v);
  for (int i = 0; i < 12; ++i) {
    const cv::Point2d to = alignment.at(at.x, at.y);
    at += cv::Point2d(u, v) - to;
  }
  return at;
}

}  // namespace

Comparison lay(const Pattern& fixed, const Pattern& moving) {
  const PreparedPair pair = prepare_for(moving, fixed);
  return compare(pair.query, fixed, pair.hits, Order::unknown);
}

nlohmann::json ties_json(const Pattern& capture, const Pattern& candidate, const Comparison& laid) {
  std::vector<Spot> moving = candidate.spots;
  if (laid.turned)
    for (Spot& spot : moving) spot.u = 1 - spot.u, spot.v = -spot.v;
  const auto laid_spot = [&](std::size_t i) {
    nlohmann::json json = spot_json(candidate.spots[i]);
    const cv::Point2d at = back(laid.alignment, moving[i].u, moving[i].v);
    json["u_laid"] = rounded(at.x), json["v_laid"] = rounded(at.y);
    return json;
  };
  std::vector<bool> tied(capture.spots.size()), tied_moving(moving.size());
  nlohmann::json matched = nlohmann::json::array(), only_capture = nlohmann::json::array(),
                 only_candidate = nlohmann::json::array();
  for (const SpotPair& pair : spot_pairs(capture.spots, moving, laid.alignment)) {
    tied[pair.fixed] = tied_moving[pair.moving] = true;
    matched.push_back(
        {{"capture", spot_json(capture.spots[pair.fixed])}, {"candidate", laid_spot(pair.moving)}});
  }
  for (std::size_t i = 0; i < tied.size(); ++i)
    if (!tied[i]) only_capture.push_back(spot_json(capture.spots[i]));
  for (std::size_t i = 0; i < tied_moving.size(); ++i)
    if (!tied_moving[i]) only_candidate.push_back(laid_spot(i));
  return {{"matched", matched},
          {"only_capture", only_capture},
          {"only_candidate", only_candidate},
          {"overlap", rounded(laid.alignment.overlap)}};
}

}  // namespace evet::review
