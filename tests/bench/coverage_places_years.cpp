// Rows on movement between ponds, and on the trend of yearly numbers.
#include <cmath>

#include "coverage_tally.h"
#include "models/estimate.h"
#include "models/open/movement.h"
#include "models/trend/trend.h"

namespace evet::models {
namespace {

const Estimate* named(const std::vector<Estimate>& estimates, const std::string& name) {
  for (const Estimate& estimate : estimates)
    if (estimate.parameter == name) return &estimate;
  return nullptr;
}

struct Ponds {
  double survival = 0.75, up = 0.2, down = 0.1;  // leaving the first pond for the second, and back
  double recapture_first = 0.5, recapture_second = 0.4;
};

// 40 released in each of two ponds on each occasion but the last.
CaptureHistories drawn(const Ponds& ponds, Random& r, std::size_t occasions) {
  CaptureHistories h;
  for (std::size_t j = 0; j < occasions; ++j) {
    h.occasions.push_back(std::to_string(2031 + j) + "-04-10");
    h.dates.push_back(h.occasions.back());
  }
  h.places = {"Heron Pool", "Mill Ditch"};
  for (std::size_t first = 0; first + 1 < occasions; ++first)
    for (int i = 0; i < 80; ++i) {
      bool in_second = i % 2 == 1;
      std::vector<std::uint8_t> where(occasions, 0);
      where[first] = in_second ? 2 : 1;
      for (std::size_t j = first + 1; j < occasions && r.chance(ponds.survival); ++j) {
        if (r.chance(in_second ? ponds.down : ponds.up)) in_second = !in_second;
        if (r.chance(in_second ? ponds.recapture_second : ponds.recapture_first))
          where[j] = in_second ? 2 : 1;
      }
      h.animals.push_back(std::to_string(h.animals.size() + 1));
      for (const std::uint8_t one : where) {
        h.caught.push_back(one > 0 ? 1 : 0);
        h.place.push_back(one);
      }
    }
  return h;
}

Family trend_family(double spread, const std::string& truth) {
  return {"yearly trend", truth, "", [=](Random& r, Tally& tally) {
            std::vector<YearlyNumber> numbers;
            for (int year = 0; year < 8; ++year) {
              const double error = 0.15,
                           n = std::exp(5 - 0.1 * year + spread * r.normal() + error * r.normal());
              numbers.push_back({static_cast<double>(year), n, n * std::sqrt(std::expm1(error * error))});
            }
            const std::vector<Estimate> both = yearly_trend(numbers);
            tally.add("trend", both[0], std::exp(-0.1));
            tally.add("spread between years", both[1], spread);
          }};
}

}  // namespace

std::vector<Family> place_and_year_families() {
  const Ponds ponds;
  const std::string truth = "two ponds, 40 released in each, 6 springs, survival 0.75, moving 0.2 and 0.1";
  std::vector<Family> all;
  all.push_back(
      {"movement, by place", truth, "", [=](Random& r, Tally& tally) {
         MovementChoice choice;
         choice.recapture.by_place = true;
         const FittedModel model = fit_movement(place_releases(drawn(ponds, r, 6), false), choice);
         tally.add("moving up", *named(model.estimates, "moving from Heron Pool to Mill Ditch"), ponds.up);
         tally.add("moving down", *named(model.estimates, "moving from Mill Ditch to Heron Pool"),
                   ponds.down);
         tally.add("survival", *named(model.estimates, "survival"), ponds.survival);
         tally.add("recapture", *named(model.estimates, "recapture: Mill Ditch"), ponds.recapture_second);
       }});
  all.push_back({"answer, open, movement", truth, "",
                 [=](Random& r, Tally& tally) {
                   EstimateRequest request;
                   request.plots = false;
                   request.models = {"movement"};
                   for (const Estimate& estimate : estimate(drawn(ponds, r, 6), request).answer) {
                     if (estimate.what.quantity == Quantity::survival)
                       tally.add_answer(estimate.parameter, estimate, ponds.survival);
                     if (estimate.what.quantity == Quantity::moving)
                       tally.add_answer(
                           estimate.parameter, estimate,
                           estimate.what.groups.front().second == "Heron Pool" ? ponds.up : ponds.down);
                   }
                 },
                 "averaged limits carry the doubt about the model"});
  all.push_back(trend_family(0.3, "8 years, a tenth less each, spread 0.3, error 0.15"));
  all.push_back(trend_family(0.1, "8 years, a tenth less each, spread 0.1, error 0.15"));
  all.back().name = "yearly trend, little spread";
  all.back().wide = "the spread cannot be put below nought";
  return all;
}

}  // namespace evet::models
