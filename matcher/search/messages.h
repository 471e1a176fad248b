// What is said of searches that cannot be made.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kStepsMustNotBeBelow = MessageText("steps_must_not_be_below", "steps must not be below 0");
inline constexpr auto kUnlikeMustBeAbove0 = MessageText("unlike_must_be_above_0", "unlike must be above 0");
inline constexpr auto kIsNotBetween1And1 = MessageText("is_not_between_1_and_1", "is not between -1 and 1");
inline constexpr auto kIsAskedForOfNo = MessageText("is_asked_for_of_no", "is asked for of no photo");
inline constexpr auto kGiveOnePatternOrMore = MessageText("give_one_pattern_or_more", "give one pattern or more");
inline constexpr auto kNumbersOfMeansSpreadsAnd = MessageText("numbers_of_means_spreads_and", "the numbers of means, spreads and weights disagree");
inline constexpr auto kWasFittedOtherMeasuresThan = MessageText("was_fitted_other_measures_than", "it was fitted to other measures than this program takes");
inline constexpr auto kFitAgainWithProgram = MessageText("fit_again_with_program", "fit it again with this program");
inline constexpr auto kWhatBestOfSeveralTries = MessageText("what_best_of_several_tries", "what the best of several tries is worth must not fall with it");
inline constexpr auto kModelHasWrongNumberOf = MessageText("model_has_wrong_number_of", "a model has the wrong number of inputs");
inline constexpr auto kIsNotFileOfMatching = MessageText("is_not_file_of_matching", "it is not a file of matching weights: {e}");
inline constexpr auto kScaleMustBeAbove0 = MessageText("scale_must_be_above_0", "its scale must be above 0, and both numbers finite");
inline constexpr auto kMustLieBetween0And = MessageText("must_lie_between_0_and", "it must lie between 0 and 1");
inline constexpr auto kThereCannotBeFewerThan = MessageText("there_cannot_be_fewer_than", "there cannot be fewer than none");
inline constexpr auto kExactBelowMustNotBe = MessageText("exact_below_must_not_be", "exact_below must not be below 0");
inline constexpr auto kBranchingMustBeAtLeast = MessageText("branching_must_be_at_least", "branching must be at least 2 and checks at least 1");
inline constexpr auto kDescriptorsDifferInLength = MessageText("descriptors_differ_in_length", "its descriptors differ in length");
inline constexpr auto kMakeAllPatternsWithOne = MessageText("make_all_patterns_with_one", "make all patterns with one version of the program");
inline constexpr auto kWasFittedOnAnotherGrid = MessageText("was_fitted_on_another_grid", "it was fitted on another grid");
inline constexpr auto kFitAgain = MessageText("fit_again", "fit it again");
inline constexpr auto kModeHasWrongNumberOf = MessageText("mode_has_wrong_number_of", "a mode has the wrong number of values");
inline constexpr auto kRestIsNotAbove0 = MessageText("rest_is_not_above_0", "the rest is not above 0");
inline constexpr auto kIsNotFileOfStrip = MessageText("is_not_file_of_strip", "it is not a file of strip errors: {e}");
inline constexpr auto kStepsAndReaches = MessageText("steps_and_reaches", "steps must be above 0 and reaches not below 0");
inline constexpr auto kWideReachesBelow = MessageText("wide_reaches_below", "wide reaches must not be below the usual ones");
inline constexpr auto kNoStretch = MessageText("no_stretch", "at least one stretch is needed");
inline constexpr auto kStartsBelow1 = MessageText("starts_below_1", "starts must be at least 1");
inline constexpr auto kShortlistBelow1 = MessageText("shortlist_below_1", "shortlist and keep must be at least 1");
inline constexpr auto kPriorOutside01 = MessageText("prior_outside_01", "the prior of a recapture must lie between 0 and 1");
inline constexpr auto kCostsBelow0 = MessageText("costs_below_0", "costs must not be below 0");
inline constexpr auto kNothingToRank = MessageText("nothing_to_rank", "none of its photos is usable");
inline constexpr auto kRankWithUsablePhoto = MessageText("rank_with_usable_photo", "rank captures with at least one usable photo");

// clang-format on
}  // namespace evet::messages
