// Data sets drawn again from their seeds, and the bootstrap against the large-sample error.
#include "models/simulate/simulate.h"

#include <gtest/gtest.h>

#include <cmath>

#include "check_values.h"
#include "models/base/input_error.h"
#include "models/base/random.h"
#include "models/choice/bootstrap.h"
#include "models/closed/full_likelihood.h"

namespace evet::models {
namespace {

using nlohmann::json;

std::map<std::string, int> counts_by_history(const CaptureHistories& histories) {
  std::map<std::string, int> counts;
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    std::string history;
    for (std::size_t j = 0; j < histories.occasion_count(); ++j)
      history += histories.was_caught(i, j) ? '1' : '0';
    ++counts[history];
  }
  return counts;
}

TEST(Simulate, RealisedDataSetsAreDrawnAgainExactly) {
  const auto same = [](const json& entry, const CaptureHistories& drawn) {
    EXPECT_EQ(counts_by_history(drawn),
              (entry.at("data").at("history_counts").get<std::map<std::string, int>>()))
        << entry.at("id");
  };
  const json closed = testing::check_entry("10_simulation_truths", "realised.closed");
  PortableRandom first(closed.at("data").at("seed"));
  same(closed, simulate_closed({closed.at("data").at("N"), closed.at("data").at("p")},
                               [&] { return first.uniform(); }));
  const json open = testing::check_entry("10_simulation_truths", "realised.open");
  PortableRandom second(open.at("data").at("seed"));
  same(open,
       simulate_open({open.at("data").at("entrants"), open.at("data").at("phi"), open.at("data").at("p")},
                     [&] { return second.uniform(); }));
  const json robust = testing::check_entry("06_robust_design", "robust.realised");
  PortableRandom third(robust.at("data").at("seed"));
  RobustTruth truth;
  truth.entrants = {robust.at("data").at("N_first").get<int>()};
  for (const int more : robust.at("data").at("entrants")) truth.entrants.push_back(more);
  truth.secondary = robust.at("data").at("secondary");
  truth.survival = robust.at("data").at("phi");
  truth.leaving = robust.at("data").at("gamma_out");
  truth.staying_away = robust.at("data").at("gamma_stay");
  truth.p = robust.at("data").at("p");
  same(robust, simulate_robust(truth, [&] { return third.uniform(); }));
}

TEST(Bootstrap, AgreesWithTheLargeSampleErrorAndRepeats) {
  Random random(5);
  const CaptureHistories histories =
      simulate_closed({200, {0.3, 0.3, 0.3, 0.3, 0.3}}, [&] { return random.uniform(); });
  const FittedModel model = fit_constant(closed_counts(histories));
  const Bootstrap once = bootstrap_population(model, 5, 400, 9);
  EXPECT_EQ(once.usable, 400);
  EXPECT_NEAR(once.standard_error / model.estimates[0].standard_error, 1, 0.2);
  EXPECT_LT(once.percentile.lower, model.estimates[0].value);
  EXPECT_GT(once.percentile.upper, model.estimates[0].value);
  EXPECT_EQ(once.percentile.upper, bootstrap_population(model, 5, 400, 9).percentile.upper);
  for (const FullModel& full : full_models()) {
    const FittedModel fitted = full.fit(closed_counts(histories), {.profile = false});
    if (!std::isfinite(fitted.estimates[0].value)) continue;
    const Bootstrap few = bootstrap_population(fitted, 5, 20, 9);
    EXPECT_GT(few.usable, 10) << full.name;
    EXPECT_GT(few.mean, 150) << full.name;
  }
  EXPECT_THROW(bootstrap_population(fit_removal({20, 10, 5}), 3, 10, 9), InputError);
}

TEST(Bootstrap, ReplicatesWithoutAnEstimateWidenTheInterval) {
  int call = 0;
  const Bootstrap result = bootstrap([&](Random&) { return ++call % 10 == 0 ? kInfinity : call; }, 100, 1);
  EXPECT_EQ(result.usable, 90);
  EXPECT_TRUE(std::isinf(result.percentile.upper));
}

}  // namespace
}  // namespace evet::models
