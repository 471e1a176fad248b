// Movement between places, held to a twin that walks every path an animal may have taken, to the survival model
// where there is one place, and to a known truth.
#include "models/open/movement.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <sstream>

#include "models/base/input_error.h"
#include "models/base/random.h"
#include "models/estimate.h"
#include "models/histories_csv.h"
#include "models/open/survival.h"
#include "tests/models/gradient_check.h"

namespace evet::models {
namespace {

using Grid = std::vector<std::vector<double>>;

struct Truth {
  std::vector<double> survival, recapture;  // by place
  Grid moving;                              // staying on the diagonal
};

// 40 released in each place on each occasion but the last.
CaptureHistories drawn(Random& random, const Truth& truth, std::size_t occasions, int each = 40) {
  const std::size_t n = truth.survival.size();
  CaptureHistories h;
  for (std::size_t j = 0; j < occasions; ++j) h.occasions.push_back(std::to_string(j + 1));
  for (std::size_t s = 0; s < n; ++s) h.places.push_back(std::string(1, static_cast<char>('A' + s)));
  for (std::size_t first = 0; first + 1 < occasions; ++first)
    for (std::size_t place = 0; place < n; ++place)
      for (int i = 0; i < each; ++i) {
        std::vector<std::uint8_t> where(occasions, 0);
        std::size_t at = place;
        where[first] = static_cast<std::uint8_t>(at + 1);
        for (std::size_t j = first + 1; j < occasions && random.chance(truth.survival[at]); ++j) {
          double left = random.uniform();
          std::size_t to = 0;
          while (to + 1 < n && (left -= truth.moving[at][to]) >= 0) ++to;
          at = to;
          if (random.chance(truth.recapture[at])) where[j] = static_cast<std::uint8_t>(at + 1);
        }
        h.animals.push_back(std::to_string(h.animals.size() + 1));
        for (const std::uint8_t one : where) {
          h.caught.push_back(one > 0 ? 1 : 0);
          h.place.push_back(one);
        }
      }
  h.check();
  return h;
}

// Chance of what was seen from `j` on, of an animal alive in `at` on occasion j - 1: every path in turn.
double chance_of_rest(const CaptureHistories& h, std::size_t animal, std::size_t j, std::size_t at,
                      std::size_t last, const Truth& truth) {
  if (j == h.occasion_count()) return 1;
  const bool caught = h.was_caught(animal, j);
  double chance = j > last ? 1 - truth.survival[at] : 0;
  for (std::size_t to = 0; to < truth.survival.size(); ++to) {
    if (caught && h.place_of(animal, j) != to) continue;
    const double seen = caught ? truth.recapture[to] : 1 - truth.recapture[to];
    chance +=
        truth.survival[at] * truth.moving[at][to] * seen * chance_of_rest(h, animal, j + 1, to, last, truth);
  }
  return chance;
}

double log_likelihood_by_paths(const CaptureHistories& h, const Truth& truth) {
  double sum = 0;
  for (std::size_t a = 0; a < h.animal_count(); ++a) {
    std::size_t first = h.occasion_count(), last = 0;
    for (std::size_t j = 0; j < h.occasion_count(); ++j)
      if (h.was_caught(a, j)) {
        first = std::min(first, j);
        last = j;
      }
    sum += std::log(chance_of_rest(h, a, first + 1, h.place_of(a, first), last, truth));
  }
  return sum;
}

const Truth kThree{{0.7, 0.6, 0.8}, {0.5, 0.3, 0.6}, {{0.7, 0.2, 0.1}, {0.1, 0.6, 0.3}, {0.25, 0.05, 0.7}}};
const Truth kTwo{{0.75, 0.75}, {0.5, 0.4}, {{0.8, 0.2}, {0.1, 0.9}}};

const Estimate* found(const std::vector<Estimate>& estimates, const std::string& name) {
  for (const Estimate& estimate : estimates)
    if (estimate.parameter == name) return &estimate;
  return nullptr;
}

CaptureHistories six_springs_at_two_ponds() {
  Random random(8);
  CaptureHistories h = drawn(random, kTwo, 6);
  for (int j = 0; j < 6; ++j) h.dates.push_back(std::to_string(2031 + j) + "-04-10");
  return h;
}

TEST(Movement, LikelihoodIsTheSumOverEveryPath) {
  Random random(4);
  const CaptureHistories h = drawn(random, kThree, 5, 6);
  const double ours = movement_log_likelihood(place_releases(h, false), Grid(4, kThree.survival),
                                              Grid(4, kThree.recapture), kThree.moving);
  EXPECT_NEAR(ours, log_likelihood_by_paths(h, kThree), 1e-9);
}

TEST(Movement, LossesEndAHistory) {
  Random random(5);
  CaptureHistories h = drawn(random, kTwo, 4, 5);
  h.lost.assign(h.animal_count(), 1);
  const PlaceReleases lost = place_releases(h, false);
  EXPECT_EQ(lost.recaptures(), place_releases(drawn(random = Random(5), kTwo, 4, 5), false).recaptures());
  double released = 0;
  for (const auto& occasion : lost.released)
    for (const double count : occasion) released += count;
  EXPECT_EQ(released, lost.recaptures()) << "an animal that was not let go again is no release";
}

TEST(Movement, WithoutMovesEachPlaceIsASurvivalModelOfItsOwn) {
  Random random(6);
  const CaptureHistories h = drawn(random, {{0.7, 0.7}, {0.4, 0.4}, {{1, 0}, {0, 1}}}, 6);
  MovementChoice choice;
  const FittedModel moving = fit_movement(place_releases(h, false), choice);
  const FittedModel survival = fit_survival(h, {}, {});
  EXPECT_NEAR(moving.log_likelihood, survival.log_likelihood, 1e-4);
  EXPECT_NEAR(found(moving.estimates, "survival")->value, survival.estimates[0].value, 1e-4);
  const Estimate* none = found(moving.estimates, "moving from A to B");
  ASSERT_TRUE(none);
  EXPECT_EQ(none->value, 0);
  EXPECT_EQ(none->intervals.front().lower, 0);
  EXPECT_GT(none->intervals.front().upper, 0.001) << "nobody was seen to move, and few could have been";
  EXPECT_LT(none->intervals.front().upper, 0.2);
}

TEST(Movement, GradientsAreThoseOfDifferences) {
  Random random(7);
  const PlaceReleases releases = place_releases(drawn(random, kThree, 5, 10), false);
  for (const bool by_place : {false, true})
    for (const bool by_occasion : {false, true}) {
      MovementChoice choice{{by_place, by_occasion}, {by_place, false}, by_place};
      testing::expect_gradient_of_differences(fit_movement(releases, choice), 0.3);
    }
}

TEST(Movement, TruthLiesInItsIntervals) {
  int held = 0, all = 0;
  for (int set = 0; set < 60; ++set) {
    Random random(9000 + static_cast<std::uint64_t>(set));
    MovementChoice choice;
    choice.recapture.by_place = true;
    const FittedModel model = fit_movement(place_releases(drawn(random, kTwo, 6), false), choice);
    for (const auto& [name, truth] : {std::pair{"moving from A to B", 0.2},
                                      {"moving from B to A", 0.1},
                                      {"survival", 0.75},
                                      {"recapture: B", 0.4}}) {
      const Interval interval = found(model.estimates, name)->intervals.front();
      held += interval.lower <= truth && truth <= interval.upper ? 1 : 0;
      ++all;
    }
  }
  // 240 intervals of 95 %: fewer than 216 or more than 239 would come once in a thousand times or less.
  EXPECT_GE(held, 216);
  EXPECT_LE(held, 239);
  EXPECT_EQ(all, 240);
}

TEST(Movement, TheAnswerTellsItWhereSeveralPondsWereSampled) {
  CaptureHistories h = six_springs_at_two_ponds();
  EstimateRequest request;
  request.plots = false;
  const EstimateReport report = estimate(h, request);
  ASSERT_EQ(report.design, "open");
  const Estimate* moving = found(report.answer, "moving from A to B");
  ASSERT_TRUE(moving);
  EXPECT_NEAR(moving->value, 0.2, 0.08);
  h.places.clear();
  h.place.clear();
  for (const Estimate& one : estimate(h, request).answer) EXPECT_NE(one.what.quantity, Quantity::moving);
}

// Models with one chance for both directions hold part of the weight, and say nothing of either.
TEST(Movement, EachDirectionRestsOnModelsThatTellItFromTheOther) {
  CaptureHistories h = six_springs_at_two_ponds();
  EstimateRequest request;
  request.plots = false;
  request.models = {"movement"};
  const EstimateReport report = estimate(h, request);
  double alike = 0, value = 0, apart = 0;
  for (const ModelRow& row : report.table) {
    if (found(row.estimates, "moving to any other place")) {
      alike += row.weight;
      continue;
    }
    apart += row.weight;
    value += row.weight * found(row.estimates, "moving from B to A")->value;
  }
  EXPECT_GT(alike, 0.05) << "nothing is shown if the data tell the directions apart";
  ASSERT_GT(apart, 0);
  EXPECT_NEAR(found(report.answer, "moving from B to A")->value, value / apart, 1e-9);
}

TEST(Movement, OneChanceForAllPairsIsGivenWhereNoModelTellsThemApart) {
  CaptureHistories h = six_springs_at_two_ponds();
  EstimateRequest request;
  request.plots = false;
  request.card =
      nlohmann::json::parse(R"({"design": "open", "models": [{"model": "movement", "moving": "constant"}]})");
  const EstimateReport report = estimate(h, request);
  EXPECT_NEAR(found(report.answer, "moving from A to B")->value,
              found(report.answer, "moving from B to A")->value, 1e-12);
}

// Movement is told by place and occasion alone: a group, or a length, is refused with what would be right.
TEST(Movement, WhatItCannotVaryByIsRefused) {
  CaptureHistories h = six_springs_at_two_ponds();
  for (std::size_t i = 0; i < h.animal_count(); ++i) {
    h.groups["sex"].push_back(i % 2 == 0 ? "female" : "male");
    h.covariates["svl_mm"].push_back(70);
  }
  const std::vector<std::array<const char*, 3>> wrong = {
      {R"({"survival": {"varies_by": ["sex"]}})", "cannot vary by sex", "use place or occasion"},
      {R"({"recapture": {"varies_by": ["sex"]}})", "cannot vary by sex", "use place or occasion"},
      {R"({"moving": {"varies_by": ["sex"]}})", "cannot vary by sex", "use place or occasion"},
      {R"({"moving": {"varies_by": ["occasion"]}})", "cannot vary by occasion",
       "use place, or leave it constant"},
      {R"({"survival": {"linear_in": ["svl_mm"]}})", "linear in svl_mm", "leave linear_in out"}};
  for (const auto& [parts, what, right] : wrong) {
    EstimateRequest request;
    request.plots = false;
    nlohmann::json model = nlohmann::json::parse(parts);
    model["model"] = "movement";
    request.card = {{"design", "open"}, {"models", {model}}};
    try {
      estimate(h, request);
      ADD_FAILURE() << parts;
    } catch (const InputError& error) {
      EXPECT_NE(std::string(error.what()).find(what), std::string::npos) << error.what();
      EXPECT_NE(std::string(error.what()).find(right), std::string::npos) << error.what();
    }
  }
}

TEST(Movement, PlacesGoThroughTheCsvAndBack) {
  Random random(10);
  const CaptureHistories h = drawn(random, kThree, 4, 3);
  std::ostringstream out;
  write_histories_csv(h, out);
  std::istringstream in(out.str());
  const CaptureHistories back = read_histories_csv(in);
  EXPECT_EQ(back.places, h.places);
  EXPECT_EQ(back.place, h.place);
  EXPECT_EQ(back.caught, h.caught);
}

TEST(Movement, ACellThatIsNoPlaceIsNamed) {
  for (const char* text :
       {"animal,1,2\na,X,1\nb,0,Y\n", "animal,1,2\na,x,0\nb,0,x\n", "animal,1,2\na,yes,no\nb,no,yes\n"}) {
    std::istringstream in(text);
    EXPECT_THROW(read_histories_csv(in), InputError) << text;
  }
}

TEST(Movement, WrongPlacesAreRefused) {
  Random random(11);
  CaptureHistories h = drawn(random, kTwo, 4, 3);
  EXPECT_THROW(fit_movement(place_releases(histories_from_counts({{"101", 3}}), false), {}), InputError);
  CaptureHistories one = h;
  one.place[0] = 0;
  EXPECT_THROW(one.check(), InputError) << "a capture without a place";
  one = h;
  one.place[0] = 3;
  EXPECT_THROW(one.check(), InputError) << "a place that is not named";
  EstimateRequest request;
  request.card =
      nlohmann::json::parse(R"({"models": [{"model": "movement", "moving": {"varies_by": ["occasion"]}}]})");
  EXPECT_THROW(estimate(h, request), InputError);
  request.card =
      nlohmann::json::parse(R"({"models": [{"model": "movement", "survival": {"varies_by": ["sex"]}}]})");
  EXPECT_THROW(estimate(h, request), InputError);
}

}  // namespace
}  // namespace evet::models
