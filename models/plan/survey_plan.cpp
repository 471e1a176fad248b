#include "models/plan/survey_plan.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <functional>
#include <sstream>
#include <thread>

#include "models/base/figure_text.h"
#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/base/random.h"
#include "models/closed/full_likelihood.h"
#include "models/plan/messages.h"
#include "models/simulate/simulate.h"

namespace evet::models {
namespace {

void check_range(const std::string& field, double value, double low, double high) {
  if (value >= low && value <= high) return;
  const auto text = [](double number) {
    std::ostringstream out;
    out << number;
    return out.str();
  };
  throw InputError(field, {messages::kOutsideRange, {{"value", text(value)}}},
                   {messages::kGiveFromTo, {{"low", text(low)}, {"high", text(high)}}});
}

struct Drawn {
  double estimate = kUndefined;
  double captures = 0, seen = 0;
  bool holds = false;
};

// One survey: its random numbers are its own, so that no order of work can change it.
Drawn draw(const PlanRequest& request, int nights, double chance, std::uint64_t seed) {
  Random random(seed);
  ClosedTruth truth;
  truth.animals = static_cast<int>(std::lround(request.animals));
  truth.p.assign(static_cast<std::size_t>(nights), chance);
  if (request.spread > 0)
    for (int i = 0; i < truth.animals; ++i) truth.catchability.push_back(request.spread * random.normal());
  const CaptureHistories histories = simulate_closed(truth, [&] { return random.uniform(); });
  Drawn drawn;
  drawn.seen = static_cast<double>(histories.animal_count());
  for (const auto one : histories.caught) drawn.captures += one;
  if (histories.animal_count() == 0) return drawn;
  ModelOptions options;
  options.level = request.level, options.seed = seed, options.profile = false;
  const ClosedCounts counts = closed_counts(histories);
  const FittedModel fitted =
      request.spread > 0 ? fit_mixture(counts, options) : fit_constant(counts, options);
  const Estimate& n = fitted.estimates.front();
  if (!std::isfinite(n.value) || n.value > 1000 * request.animals || !(n.standard_error >= 0) ||
      !std::isfinite(n.standard_error))
    return drawn;
  drawn.estimate = n.value;
  drawn.holds = !n.intervals.empty() && n.intervals.front().lower <= truth.animals &&
                n.intervals.front().upper >= truth.animals;
  return drawn;
}

PlanRow summary_of(const PlanRequest& request, int nights, int traps, const std::vector<Drawn>& drawn) {
  PlanRow row;
  row.nights = nights, row.traps = traps;
  row.chance = chance_with(request.chance, request.traps_now, traps);
  const double animals = std::lround(request.animals), all = static_cast<double>(drawn.size());
  double with_estimate = 0, squares = 0;
  for (const Drawn& one : drawn) {
    row.captures += one.captures / all, row.seen += one.seen / animals / all;
    if (!std::isfinite(one.estimate)) continue;
    const double error = one.estimate / animals - 1;
    ++with_estimate, squares += error * error, row.relative_bias += error;
    row.coverage += one.holds ? 1 : 0;
  }
  row.no_estimate = 1 - with_estimate / all;
  const bool any = with_estimate > 0;
  row.relative_error = any ? std::sqrt(squares / with_estimate) : kUndefined;
  row.relative_bias = any ? row.relative_bias / with_estimate : kUndefined;
  row.coverage = any ? row.coverage / with_estimate : kUndefined;
  if (request.spread == 0)
    row.large_sample =
        large_sample_se(animals, std::vector<double>(static_cast<std::size_t>(nights), row.chance)) / animals;
  row.reaches = any && row.relative_error <= request.wanted && row.no_estimate <= 0.05;
  return row;
}

void in_parallel(std::size_t n, int threads, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  const auto take = [&] {
    for (std::size_t i; (i = next++) < n;) work(i);
  };
  std::vector<std::jthread> others;
  for (int t = 1; t < threads; ++t) others.emplace_back(take);
  take();
}

Message says(const SurveyPlan& plan, const PlanRequest& request) {
  const auto percent = [](double share) { return std::to_string(std::lround(100 * share)) + " %"; };
  if (!plan.enough) return {messages::kNoneComesWithin, {{"wanted", percent(request.wanted)}}};
  const PlanRow& row = plan.rows[*plan.enough];
  const std::vector<Message::Argument> figures = {{"nights", std::to_string(row.nights)},
                                                  {"traps", std::to_string(row.traps)},
                                                  {"error", percent(row.relative_error)}};
  return {request.traps.empty() ? messages::kNightsAreEnough : messages::kNightsOfTrapsAreEnough, figures};
}

}  // namespace

double chance_with(double chance, int traps_now, int traps) {
  return traps == traps_now ? chance : 1 - std::pow(1 - chance, static_cast<double>(traps) / traps_now);
}

void PlanRequest::check() const {
  check_range("animals", animals, 5, 10'000);
  check_range("chance", chance, 0.001, 0.999);
  check_range("traps_now", traps_now, 1, 100'000);
  check_range("spread", spread, 0, 5);
  check_range("wanted", wanted, 0.01, 2);
  check_range("draws", draws, 20, 10'000);
  check_range("level", level, 0.5, 0.999);
  if (nights.empty())
    throw InputError(messages::kItemNights, messages::kNoNightsNamed, messages::kGiveNights);
  for (const int one : nights) check_range("nights", one, 2, 60);
  for (const int one : traps) check_range("traps", one, 1, 100'000);
}

SurveyPlan plan_survey(const PlanRequest& request, int threads) {
  request.check();
  std::vector<int> traps = request.traps, nights = request.nights;
  if (traps.empty()) traps = {request.traps_now};
  for (std::vector<int>* list : {&traps, &nights}) {
    std::sort(list->begin(), list->end());
    list->erase(std::unique(list->begin(), list->end()), list->end());
  }
  const auto draws = static_cast<std::size_t>(request.draws);
  std::vector<std::vector<Drawn>> all(traps.size() * nights.size(), std::vector<Drawn>(draws));
  in_parallel(all.size() * draws, threads, [&](std::size_t i) {
    const std::size_t row = i / draws, which = i % draws;
    const double chance = chance_with(request.chance, request.traps_now, traps[row / nights.size()]);
    all[row][which] = draw(request, nights[row % nights.size()], chance,
                           request.seed * 1'000'003 + row * 10'007 + which + 1);
  });
  SurveyPlan plan;
  for (std::size_t row = 0; row < all.size(); ++row)
    plan.rows.push_back(
        summary_of(request, nights[row % nights.size()], traps[row / nights.size()], all[row]));
  const auto cost = [&](std::size_t i) {
    return std::pair(plan.rows[i].nights * plan.rows[i].traps, plan.rows[i].nights);
  };
  for (std::size_t i = 0; i < plan.rows.size(); ++i)
    if (plan.rows[i].reaches && (!plan.enough || cost(i) < cost(*plan.enough))) plan.enough = i;
  plan.says = says(plan, request);
  plan.assumptions = {messages::kAsManyAsAssumed,
                      request.spread > 0 ? messages::kDifferAsAssumed : messages::kAllAlikeEveryNight,
                      messages::kRecognisedWithoutMistake, messages::kTrapsCatchAlone};
  plan.source = request.spread > 0
                    ? "Estimated under Mh of two groups: Pledger (2000), Biometrics 56:434-442"
                    : "Estimated under M0: Otis et al. (1978), Wildl. Monogr. 62; Darroch (1958), "
                      "Biometrika 45:343-359";
  return plan;
}

}  // namespace evet::models
