#include "models/ask/densities.h"

#include <cmath>
#include <set>

#include "models/ask/messages.h"
#include "models/base/input_error.h"
#include "models/base/messages.h"

namespace evet::models {
namespace {

constexpr double kPerSquareMetres = 100;

// Of all ponds that the animals were caught in; 0 where one of them has none.
double area_of_all(const CaptureHistories& histories, const EstimateRequest& request) {
  if (request.area_m2 > 0) return request.area_m2;
  const auto ponds = histories.groups.find("pond");
  const std::vector<std::string>& named = ponds == histories.groups.end() ? histories.places : ponds->second;
  const std::set<std::string> names(named.begin(), named.end());
  double sum = 0;
  for (const std::string& name : names) {
    const auto area = request.areas_m2.find(name);
    if (area == request.areas_m2.end()) return 0;
    sum += area->second;
  }
  return sum;
}

double area_for(const Parameter& what, double of_all, const EstimateRequest& request) {
  for (const auto& [group, level] : what.groups)
    if (group == "pond") {
      const auto area = request.areas_m2.find(level);
      return area == request.areas_m2.end() ? 0 : area->second;
    }
  return of_all;
}

void check_area(const std::string& item, double area_m2, bool may_be_none) {
  if (std::isfinite(area_m2) && (area_m2 > 0 || (may_be_none && area_m2 == 0))) return;
  throw InputError(item, {messages::kIsValue, {{"value", std::to_string(area_m2)}}},
                   messages::kGiveSquareMetres);
}

}  // namespace

void check_areas(const EstimateRequest& request) {
  check_area("area", request.area_m2, true);
  for (const auto& [pond, area] : request.areas_m2) check_area("area of pond '" + pond + "'", area, false);
}

void add_densities(std::vector<Estimate>& answer, const CaptureHistories& histories,
                   const EstimateRequest& request) {
  const double of_all = area_of_all(histories, request);
  std::vector<Estimate> densities;
  for (const Estimate& number : answer) {
    if (number.what.quantity != Quantity::number || !number.undefined.empty()) continue;
    const double area_m2 = area_for(number.what, of_all, request);
    if (!(area_m2 > 0)) continue;
    const double per = area_m2 / kPerSquareMetres;
    Parameter what = number.what;
    what.quantity = Quantity::density;
    what.word = &messages::kDensityPer100;
    Estimate density = estimate_of(what);
    density.value = number.value / per;
    density.standard_error = number.standard_error / per;
    for (const Interval& one : number.intervals)
      density.intervals.push_back({one.lower / per, one.upper / per, one.level, one.method});
    density.assumptions = {messages::kAllAreaWithinReach};
    densities.push_back(density);
  }
  answer.insert(answer.end(), densities.begin(), densities.end());
}

}  // namespace evet::models
