// What an estimate is of, its name, and which estimate answers for which question.
#include "models/base/parameter.h"

#include <gtest/gtest.h>

#include "models/base/parameter_words.h"

namespace evet::models {
namespace {

constexpr MessageText kOwn("own", "p");

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
  EXPECT_EQ((Parameter{Quantity::capture, 2, {}, Parameter::Kind::value, {}, &kOwn}).name(), "p 2");
  EXPECT_EQ((Parameter{Quantity::survival, {}, {}, Parameter::Kind::shift, &kOwn}).name(),
            "survival: shift for p");
}

// A name is the same in every language; without a translation people read the same.
TEST(Parameter, WordsForPeopleAreTheNameInEnglish) {
  std::vector<Parameter> all = {{Quantity::survival, 3, {{"sex", "male"}, {"stage", "adult"}}},
                                {Quantity::number, {}, {{"sex", "male"}}},
                                {Quantity::moving, {}, {{"from", "north"}, {"to", "south"}}},
                                {Quantity::survival, {}, {}, Parameter::Kind::slope, "svl_mm"},
                                {Quantity::survival, {}, {}, Parameter::Kind::shift, &kOwn},
                                {Quantity::capture, 2, {}, Parameter::Kind::inner, {}, &kOwn}};
  for (int q = 0; q <= static_cast<int>(Quantity::spread_between_years); ++q)
    all.push_back({static_cast<Quantity>(q)});
  for (const Parameter& one : all) EXPECT_EQ(parameter_words(one), one.name());
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
