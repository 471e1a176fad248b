#include "models/ask/assumption_tests.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "models/ask/messages.h"
#include "models/ask/registry.h"
#include "models/base/figure_text.h"
#include "models/choice/information.h"
#include "models/closed/closure_test.h"
#include "models/closed/seen_once.h"

namespace evet::models {
namespace {

// A factor that is measured on few degrees of freedom lies above 1 half of the time when nothing is amiss:
// widened at once, every interval would be too wide. Common practice, no source.
constexpr double kWidenedBelow = 0.1;

double share(double part, const std::vector<double>& row) {
  double all = 0;
  for (const double count : row) all += count;
  return all > 0 ? part / all : 0;
}

Message says(const Component& part, bool missed) {
  if (part.pooled.p_value() >= 0.05) return messages::kNothingAgainstAssumption;
  const double upper = share(part.upper.front(), part.upper), lower = share(part.lower.front(), part.lower);
  if (missed) return upper > lower ? messages::kTrapHappy : messages::kTrapShy;
  return upper < lower ? messages::kNewSeenLess : messages::kNewSeenMore;
}

AssumptionTest sum_of(const std::string& code, const Message& name,
                      const std::vector<const std::vector<Component>*>& parts, const Message& fails) {
  ChiSquare sum;
  for (const auto* components : parts)
    for (const Component& part : *components) {
      sum.chi_square += part.pooled.chi_square;
      sum.degrees_of_freedom += part.pooled.degrees_of_freedom;
    }
  AssumptionTest test{name.words(), sum.chi_square, sum.degrees_of_freedom, sum.p_value(), {}, code, true};
  test.says = {sum.degrees_of_freedom == 0 ? Message(messages::kTooThinToTest)
               : test.p_value < 0.05       ? fails
                                           : Message(messages::kNothingAgainstIt)};
  return test;
}

bool within(const PartChoice& smaller, const PartChoice& larger) {
  if (smaller.each_combination && !larger.each_combination) return false;
  if (smaller.after_capture && !larger.after_capture) return false;
  for (const std::string& name : smaller.varies_by)
    if (!larger.by(name)) return false;
  for (const std::string& name : smaller.linear_in)
    if (std::find(larger.linear_in.begin(), larger.linear_in.end(), name) == larger.linear_in.end())
      return false;
  return true;
}

bool is_case_of(const ModelChoice& smaller, const ModelChoice& larger) {
  if (smaller.name != larger.name) {
    const ModelEntry* entry = find_model(smaller.name);
    return entry &&
           std::find(entry->case_of.begin(), entry->case_of.end(), larger.name) != entry->case_of.end();
  }
  if (smaller.ends_certain != larger.ends_certain) return false;
  const auto rank = [](const std::string& emigration) {
    return emigration == "none" ? 0 : emigration == "random" ? 1 : 2;
  };
  if (rank(smaller.emigration) > rank(larger.emigration)) return false;
  if (rank(smaller.emigration) == 2 && smaller.emigration != larger.emigration) return false;
  // A different rate named is a different way to say it.
  for (const char* rate : {"growth rate", "recruitment", "seniority"})
    if (smaller.parts.contains(rate) != larger.parts.contains(rate)) return false;
  std::size_t equal = 0;
  const auto part = [](const ModelChoice& choice, const std::string& name) {
    const auto at = choice.parts.find(name);
    return at == choice.parts.end() ? PartChoice{} : at->second;
  };
  std::vector<std::string> names;
  for (const auto* choice : {&smaller, &larger})
    for (const auto& [name, one] : choice->parts)
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  for (const std::string& name : names) {
    if (!within(part(smaller, name), part(larger, name))) return false;
    equal += within(part(larger, name), part(smaller, name)) ? 1 : 0;
  }
  // One step at a time: the models differ in one respect.
  const std::size_t steps = names.size() - equal + (smaller.emigration != larger.emigration ? 1 : 0);
  return steps == 1;
}

// On the edge of its range the statistic of a mixture leans to small values.
bool at_the_edge(const std::string& larger) {
  return larger.ends_with("mixture") || larger == "beta-binomial" || larger == "robust";
}

}  // namespace

std::vector<AssumptionTest> closed_tests(const CaptureHistories& histories) {
  if (histories.occasion_count() < 3) return {};
  const ClosureTest closure = closure_test(histories);
  AssumptionTest test{
      Message(messages::kTestClosure).words(), closure.z, 0, closure.p_value, {}, "closure", true};
  test.says = {closure.animals == 0     ? messages::kNotTestable
               : closure.p_value < 0.05 ? messages::kNotClosed
                                        : messages::kNothingAgainstClosure};
  std::vector<AssumptionTest> tests = {test};
  const SeenOnce once = seen_once_test(histories);
  if (!once.tested) return tests;
  const Message many(messages::kManySeenOnce,
                     {{"seen", with_decimals(once.seen, 0)}, {"expected", with_decimals(once.expected, 0)}});
  tests.push_back({Message(messages::kTestSeenOnce).words(),
                   once.z,
                   0,
                   once.p_value,
                   {once.p_value < 0.05 ? many : Message(messages::kNotManySeenOnce)},
                   "seen_once",
                   true});
  return tests;
}

std::vector<AssumptionTest> open_tests(const FitTest& fit) {
  std::vector<AssumptionTest> tests;
  for (const auto* components : {&fit.missed, &fit.newly_marked})
    for (const Component& part : *components)
      if (part.pooled.degrees_of_freedom > 0)
        tests.push_back({part.name,
                         part.pooled.chi_square,
                         part.pooled.degrees_of_freedom,
                         part.pooled.p_value(),
                         {says(part, components == &fit.missed)},
                         components == &fit.missed ? "caught_or_missed" : "newly_marked",
                         false});
  tests.push_back(sum_of("all_caught_or_missed", messages::kTestCaughtOrMissedAll, {&fit.missed},
                         messages::kAnswerToCapture));
  tests.push_back(sum_of("all_newly_marked", messages::kTestNewlyMarkedAll, {&fit.newly_marked},
                         messages::kNewlyCaughtDiffer));
  tests.push_back(
      sum_of("fit", messages::kTestFitOfOpen, {&fit.missed, &fit.newly_marked}, messages::kVaryMoreWidened));
  return tests;
}

Overdispersion measured_overdispersion(const FitTest& fit, const MArray& releases, bool newly_marked_only,
                                       std::uint64_t seed) {
  Overdispersion measured;
  ChiSquare total = fit.total;
  if (newly_marked_only) {
    total = {};
    for (const Component& part : fit.newly_marked) {
      total.chi_square += part.pooled.chi_square;
      total.degrees_of_freedom += part.pooled.degrees_of_freedom;
    }
  }
  if (total.degrees_of_freedom > 0) {
    measured.pooled = total.chi_square / total.degrees_of_freedom;
    measured.used = total.p_value() < kWidenedBelow ? std::max(1.0, measured.pooled) : 1;
  }
  // Fits by occasion grow with the cube of the occasions; the number of draws shrinks to match.
  const int occasions = releases.occasions();
  const int draws = std::clamp(20000 / (occasions * occasions * occasions), 0, 50);
  if (draws >= 10 && !std::isnan(measured.pooled) && !newly_marked_only)
    measured.bootstrap = bootstrap_overdispersion(releases, draws, seed);
  if (std::isnan(measured.pooled)) {
    measured.says = {messages::kTooThinForOverdispersion};
  } else if (measured.pooled > 1 && measured.used == 1) {
    measured.says = {messages::kVaryByChance};
  } else if (measured.pooled <= 1) {
    measured.says = {messages::kVaryNoMore};
  } else {
    measured.says = {Message(messages::kErrorsWidened, {{"factor", with_decimals(measured.used, 2)}})};
    if (measured.used > 3) measured.says.push_back(messages::kModelIsWrong);
  }
  return measured;
}

std::vector<NestedTest> nested_tests(const std::vector<FittedRow>& rows, double overdispersion) {
  std::vector<NestedTest> tests;
  for (const FittedRow& small : rows)
    for (const FittedRow& large : rows) {
      if (!small.model || !large.model || &small == &large || small.row.family != large.row.family) continue;
      if (small.row.parameters >= large.row.parameters || !is_case_of(small.choice, large.choice)) continue;
      if (!small.model->fit.converged || !large.model->fit.converged) continue;
      const RatioTest test =
          likelihood_ratio_test(small.row.log_likelihood, small.row.parameters, large.row.log_likelihood,
                                large.row.parameters, overdispersion);
      const bool named = small.choice.parts.empty();
      NestedTest nested{named ? small.row.name : small.row.description,
                        named ? large.row.name : large.row.description,
                        test.chi_square,
                        test.degrees_of_freedom,
                        test.p_value,
                        {}};
      nested.says = {test.p_value < 0.05 ? messages::kLargerFitsBetter : messages::kSmallerNotRejected};
      if (at_the_edge(large.choice.name) && test.p_value >= 0.05 && test.p_value < 0.2)
        nested.says.push_back(messages::kSmallerAtEdge);
      tests.push_back(nested);
    }
  return tests;
}

}  // namespace evet::models
