#include "matcher/search/likelihood.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "matcher/base/error.h"

namespace evet {
namespace {

TEST(BestOfTries, OneTryIsWorthWhatItSays) {
  for (const BestOfTries& best : {BestOfTries{}, BestOfTries{0.6, 4, 3}})
    for (const double llr : {-7.0, 0.0, 3.0, 12.0}) EXPECT_DOUBLE_EQ(best(llr, 1, -7.4, 13.8), llr);
}

TEST(BestOfTries, UnfittedItIsTheUnionBound) {
  EXPECT_NEAR(BestOfTries{}(5, 4, -7.4, 13.8), 5 - std::log(4), 1e-3) << "but for the caps";
}

TEST(BestOfTries, BeyondWhatTheFitSawItIsTheUnionBoundFromThere) {
  const BestOfTries best{0.6, 4, 3};
  EXPECT_NEAR(best(5, 6, -7.4, 13.8), best(5, 3, -7.4, 13.8) - std::log(2), 1e-3) << "but for the caps";
}

TEST(BestOfTries, KeepsTheOrderAndTheCaps) {
  const BestOfTries& best = shipped_matching_model().best_of;
  const double lowest = shipped_matching_model().lowest, highest = shipped_matching_model().highest;
  double before = -1e9;
  for (double llr = lowest + 0.1; llr < highest; llr += 0.1) {
    const double now = best(llr, 3, lowest, highest);
    EXPECT_GT(now, before) << "at " << llr;
    EXPECT_LE(now, highest);
    EXPECT_GT(best(llr, 6, lowest, highest), lowest - 2) << "where the catalogue's own map begins";
    before = now;
  }
}

TEST(ShippedMatchingModel, AMiddlingBestOfThreeSaysLessThanChanceAloneAndAHighOneNot) {
  const MatchingModel& model = shipped_matching_model();
  EXPECT_LT(model.llr_of_capture({1.0}, std::nullopt, 3), 1 - std::log(3));
  EXPECT_GT(model.llr_of_capture({12.0}, std::nullopt, 3), 12 - std::log(3));
}

TEST(ShippedMatchingModel, IsTheSameWrittenAndReadAgain) {
  const std::string text = to_json(shipped_matching_model());
  EXPECT_EQ(to_json(parse_matching_model(text, "weights")), text);
}

TEST(MatchingWeights, AFileThatLacksAPartOrTurnsTheOrderRoundIsRefusedByName) {
  const auto refused = [](const auto& change) {
    nlohmann::json weights = nlohmann::json::parse(to_json(shipped_matching_model()));
    change(weights);
    try {
      parse_matching_model(weights.dump(), "some.json");
      return false;
    } catch (const Error& error) {
      return std::string(error.what()).find("some.json") != std::string::npos;
    }
  };
  EXPECT_FALSE(refused([](auto&) {}));
  EXPECT_TRUE(refused([](auto& w) { w.erase("best_of"); }));
  EXPECT_TRUE(refused([](auto& w) { w["best_of"]["scale"] = -1; }));
  EXPECT_TRUE(refused([](auto& w) { w["best_of"]["most"] = 0; }));
  EXPECT_TRUE(refused([](auto& w) { w["pair"]["mean"].erase(0); }));
}

}  // namespace
}  // namespace evet
