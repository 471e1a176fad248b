// What an estimate is of, its name, and which estimate answers for which question.
#include "models/base/parameter.h"

#include <gtest/gtest.h>

namespace evet::models {
namespace {

TEST(Parameter, NamesSayQuantityTimeGroupAndKind) {
  EXPECT_EQ((Parameter{Quantity::number}).name(), "N");
  EXPECT_EQ((Parameter{Quantity::number_ever}).name(), "N ever");
  EXPECT_EQ((Parameter{Quantity::survival, 3, {{"sex", "male"}}}).name(), "survival 3: male");
  EXPECT_EQ((Parameter{Quantity::survival, {}, {{"sex", "male"}, {"stage", "adult"}}}).name(),
            "survival: male adult");
  EXPECT_EQ((Parameter{Quantity::number, {}, {{"sex", "male"}}}).name(), "N: sex male");
  EXPECT_EQ((Parameter{Quantity::entry, 0}).name(), "entry 0");
  EXPECT_EQ((Parameter{Quantity::survival, {}, {}, Parameter::Kind::slope, "svl_mm"}).name(),
            "survival: slope on svl_mm");
  EXPECT_EQ((Parameter{Quantity::recapture, {}, {}, Parameter::Kind::shift, "sex male"}).name(),
            "recapture: shift for sex male");
  EXPECT_EQ((Parameter{Quantity::capture, 2, {}, Parameter::Kind::value, {}, "p"}).name(), "p 2");
}

TEST(Parameter, WhatIsToldOfAllAnswersForEachButCountsDoNot) {
  const Parameter constant{Quantity::survival}, third{Quantity::survival, 3},
      male{Quantity::survival, {}, {{"sex", "male"}}}, male_third{Quantity::survival, 3, {{"sex", "male"}}},
      female{Quantity::survival, {}, {{"sex", "female"}}};
  EXPECT_TRUE(answers(constant, male_third));
  EXPECT_TRUE(answers(third, male_third));
  EXPECT_TRUE(answers(male, male_third));
  EXPECT_FALSE(answers(female, male_third));
  EXPECT_FALSE(answers(male, constant)) << "one group is not all";
  EXPECT_FALSE(answers(third, constant));
  EXPECT_FALSE(answers({Quantity::recapture}, third));
  EXPECT_FALSE(answers({Quantity::survival, {}, {}, Parameter::Kind::slope, "svl_mm"}, constant));
  EXPECT_TRUE(answers({Quantity::number}, {Quantity::number}));
  EXPECT_FALSE(answers({Quantity::number}, {Quantity::number, {}, {{"sex", "male"}}}));
  EXPECT_FALSE(answers({Quantity::number, 2}, {Quantity::number}));
}

}  // namespace
}  // namespace evet::models
