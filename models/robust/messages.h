// What the robust design says.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kClosedWithinPeriods = MessageText("closed_within_periods", "Within a primary period no animal came or went.");
inline constexpr auto kCaughtAlikeInPeriod = MessageText("caught_alike_in_period", "Every animal present had the same chance of capture, as far as the model does not say otherwise.");
inline constexpr auto kSurvivedPresentOrAway = MessageText("survived_present_or_away", "Every animal had the same chance of surviving to the next period, present or away; no animal lost its identity.");
inline constexpr auto kNoneAway = MessageText("none_away", "No animal was away in one period and back in a later one.");
inline constexpr auto kOneChanceInPeriod = MessageText("one_chance_in_period", "Within a primary period every animal had the same chance of capture on every occasion.");
inline constexpr auto kNothingInPeriod = MessageText("nothing_in_period", "Nothing was caught in this period.");
inline constexpr auto kNothingInOnePeriod = MessageText("nothing_in_one_period", "nothing was caught in one of the periods");
inline constexpr auto kNoneTwiceInPeriod = MessageText("none_twice_in_period", "no animal was caught twice within this period");
inline constexpr auto kNoPeriods = MessageText("no_periods", "the occasions are not gathered into two or more primary periods");
inline constexpr auto kHeadByPeriod = MessageText("head_by_period", "head the columns 1.1, 1.2, 2.1, ... or add a row #period");
inline constexpr auto kMakeClasses = MessageText("make_classes", "an animal that was never caught has none: make classes of it a group");
inline constexpr auto kByPeriodAndLinear = MessageText("by_period_and_linear", "capture is by period and linear in a covariate of nights");
inline constexpr auto kSayOneOfTwo = MessageText("say_one_of_two", "say one of the two");

// The model in words.
inline constexpr auto kRobustModel = MessageText("robust_model", "survival {survival}, capture {capture}, {away}");
inline constexpr auto kNoEmigration = MessageText("no_emigration", "no temporary emigration");
inline constexpr auto kRandomEmigration = MessageText("random_emigration", "random temporary emigration");
inline constexpr auto kRandomEmigrationByPeriod = MessageText("random_emigration_by_period", "random temporary emigration by period");
inline constexpr auto kMarkovEmigration = MessageText("markov_emigration", "temporary emigration depending on the period before");

// What an estimate is of, where the quantity alone does not say it. JSON has the English as its name: it stays.
inline constexpr auto kAbsent = MessageText("absent", "absent");

// clang-format on
}  // namespace evet::messages
