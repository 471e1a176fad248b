#include "models/estimate.h"

#include <gtest/gtest.h>

#include "models/base/input_error.h"

namespace evet::models {
namespace {

TEST(EstimateReport, TwoOccasionsGiveTheTwoSampleEstimate) {
  const EstimateReport report = estimate(histories_from_counts({{"10", 52}, {"01", 120}, {"11", 57}}));
  EXPECT_NEAR(report.answer.at(0).value, 336.5862069, 1e-6);
  const nlohmann::json json = to_json(report);
  EXPECT_EQ(json.at("models").at(0).at("model"), "chapman");
  EXPECT_FALSE(json.at("assumptions").empty());
}

TEST(EstimateReport, AnInfiniteBoundIsWrittenAsSuch) {
  const nlohmann::json json = to_json(estimate(histories_from_counts({{"10", 5}, {"01", 4}})));
  EXPECT_EQ(json.at("answer").at(0).at("intervals").at(0).at("upper"), "inf");
  EXPECT_FALSE(json.at("warnings").empty());
}

TEST(EstimateReport, UnknownNamesAreRefused) {
  const CaptureHistories histories = histories_from_counts({{"10", 5}, {"11", 4}});
  EXPECT_THROW(estimate(histories, {.design = "opened"}), InputError);
  EXPECT_THROW(estimate(histories, {.models = {"guess"}}), InputError);
  EXPECT_THROW(estimate(histories, {.level = 95}), InputError);
}

}  // namespace
}  // namespace evet::models
