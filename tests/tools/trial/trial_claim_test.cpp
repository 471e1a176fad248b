#include "tools/trial/trial_claim.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace evet::trial {
namespace {

using testing::HasSubstr;

TEST(UpperTail, OfEqualChancesIsTheBinomials) {
  // At least 3 of 5 with chance 0.3: 0.16308 (any table of the binomial distribution).
  EXPECT_NEAR(upper_tail(std::vector<double>(5, 0.3), 3), 0.16308, 1e-9);
  EXPECT_NEAR(upper_tail(std::vector<double>(5, 0.3), 5), std::pow(0.3, 5), 1e-12);
}

TEST(UpperTail, OfUnequalChancesAgreesWithEnumeration) {
  const std::vector<double> p = {0.9, 0.2, 0.05, 0.5, 0.33};
  for (int least = 0; least <= 6; ++least) {
    double sum = 0;
    for (unsigned bits = 0; bits < 32; ++bits) {
      double weight = 1;
      int events = 0;
      for (size_t i = 0; i < p.size(); ++i) {
        const bool event = (bits >> i & 1U) != 0;
        weight *= event ? p[i] : 1 - p[i], events += event;
      }
      if (events >= least) sum += weight;
    }
    EXPECT_NEAR(upper_tail(p, least), sum, 1e-12) << least;
  }
}

// Three over three animals is a rate of 1: written in full, never as "1e+02 %".
TEST(Claims, RatesAreWrittenWithoutAnExponent) {
  for (const int animals : {1, 3, 4, 10, 200, 5000}) {
    Trial trial;
    trial.gallery_individuals = animals;
    for (int i = 0; i < animals; ++i) {
      Search s;
      s.acquired = s.mated = true, s.individual = std::to_string(i);
      trial.searches.push_back(s);
    }
    std::string all;
    for (const std::string& claim : claims(trial, {})) all += claim + "\n";
    EXPECT_THAT(all, testing::Not(testing::ContainsRegex("[0-9]e[+-]"))) << all;
  }
}

Trial advised(int animals, int wrong, double probability) {
  Trial trial;
  trial.gallery_individuals = animals;
  for (int i = 0; i < animals; ++i) {
    Search s;
    s.individual = s.capture = std::to_string(i);
    s.mated = true, s.advice = Advice::same, s.best_probability = probability, s.best_odds = 4;
    s.mate_rank = i < wrong ? 2 : 1;
    s.best_individual = i < wrong ? "somebody else" : s.individual;
    trial.searches.push_back(s);
  }
  return trial;
}

TEST(Promises, HoldWhenAsManyAreWrongAsWasSaid) {
  const std::vector<Promise> kept = promises(advised(200, 2, 0.99));
  EXPECT_TRUE(kept[0].holds);
  EXPECT_EQ(kept[0].given, 200);
  EXPECT_EQ(kept[0].wrong, 2);
  EXPECT_NEAR(kept[0].expected_wrong, 2, 1e-9);
  EXPECT_TRUE(kept[1].holds) << "nothing was called new";
}

TEST(Promises, AreBrokenByFarMoreWrongThanWasSaid) {
  EXPECT_FALSE(promises(advised(200, 12, 0.99))[0].holds);
}

TEST(Claims, SayThreeOverNAndWhatCannotBeMeasured) {
  const Trial trial = advised(50, 0, 0.999);
  std::string all;
  for (const std::string& sentence : claims(trial, score(trial))) all += sentence + "\n";
  EXPECT_THAT(all, HasSubstr("no rate under 6.0 % can be claimed from 50 animals"));
  EXPECT_THAT(all, HasSubstr("would need 100 searches"));
}

TEST(Suspects, NameTheCaptureAndWhomItLooksLikeOnce) {
  Trial trial = advised(5, 1, 0.9);
  trial.searches.push_back(trial.searches[0]);
  trial.searches.back().mated = false;
  const std::vector<Suspect> found = suspects(trial);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].candidate, "somebody else");
  EXPECT_TRUE(found[0].mated);
}

}  // namespace
}  // namespace evet::trial
