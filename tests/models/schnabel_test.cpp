// Batch estimators against Gerking's (1953) redear sunfish as worked by Krebs (1999) and Ricker (1975).
#include "models/closed/schnabel.h"

#include <gtest/gtest.h>

#include <cmath>

#include "check_values.h"
#include "models/base/input_error.h"

namespace evet::models {
namespace {

using nlohmann::json;
using testing::agrees;

TEST(Schnabel, PublishedAndHandCheckedSamples) {
  for (const char* id : {"batch.sunfish", "batch.tiny"}) {
    const json entry = testing::check_entry("02_multi_occasion_batch", id);
    const json& expected = entry.at("expected");
    const json& data = entry.at("data");
    const BatchCounts counts{data.at("C"), data.at("R"), data.at("M")};
    const auto limits = [](const Estimate& estimate, std::size_t which) {
      return std::vector<double>{estimate.intervals.at(which).lower, estimate.intervals.at(which).upper};
    };
    const Estimate sn = schnabel(counts);
    for (const char* sum : {"sum_C", "sum_R", "sum_CM", "sum_CM2", "sum_RM", "sum_R2_over_C"})
      agrees(entry, expected, sum, sn.details.at(sum));
    agrees(entry, expected, "schnabel", sn.value);
    agrees(entry, expected, "schnabel_plus_one", sn.details.at("plus_one"));
    agrees(entry, expected, "schnabel_var_inverse", sn.details.at("var_inverse"));
    agrees(entry, expected, "schnabel_se_inverse", sn.details.at("se_inverse"));
    agrees(entry, expected, "schnabel_ci95_poisson_exact", limits(sn, 0));
    agrees(entry, expected, "schnabel_ci95_t_inverse", limits(sn, 1));
    agrees(entry, expected, "schnabel_ci95_z_inverse", limits(sn, 2));
    const Estimate se = schumacher_eschmeyer(counts);
    agrees(entry, expected, "schumacher_eschmeyer", se.value);
    agrees(entry, expected, "schumacher_residual_variance", se.details.at("residual_variance"));
    agrees(entry, expected, "schumacher_se_inverse", se.details.at("se_inverse"));
    agrees(entry, expected, "schumacher_ci95_t_inverse", limits(se, 0));
    const Estimate ml = binomial_batch(counts);
    agrees(entry, expected, "binomial_mle", ml.value);
    agrees(entry, expected, "binomial_mle_se", ml.standard_error);
  }
}

TEST(Schnabel, CountsFromHistoriesKnowOfLosses) {
  CaptureHistories histories = histories_from_counts({{"110", 1}, {"011", 1}, {"001", 1}});
  BatchCounts counts = batch_counts(histories);
  EXPECT_EQ(counts.caught, (std::vector<double>{1, 2, 2}));
  EXPECT_EQ(counts.recaptured, (std::vector<double>{0, 1, 1}));
  EXPECT_EQ(counts.at_large, (std::vector<double>{0, 1, 2}));
  histories.lost = {0, 0, 1};  // the row "110" comes last in the order of its signs
  EXPECT_EQ(batch_counts(histories).at_large, (std::vector<double>{0, 1, 1}));
}

TEST(Schnabel, WithoutRecapturesNothingBoundsTheNumber) {
  const BatchCounts counts{{10, 12, 9}, {0, 0, 0}, {0, 10, 22}};
  for (const Estimate& estimate : {schnabel(counts), schumacher_eschmeyer(counts), binomial_batch(counts)}) {
    EXPECT_TRUE(std::isinf(estimate.value));
    EXPECT_TRUE(std::isinf(estimate.intervals.at(0).upper));
    EXPECT_GE(estimate.intervals.at(0).lower, 31);
    EXPECT_FALSE(estimate.undefined.empty());
    EXPECT_FALSE(estimate.warnings.empty());
  }
  EXPECT_THROW(schnabel({{10, 12}, {0, 13}, {0, 10}}), InputError);
  EXPECT_THROW(schnabel({{10, 12}, {0}, {0, 10}}), InputError);
}

}  // namespace
}  // namespace evet::models
