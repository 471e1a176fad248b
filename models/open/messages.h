// What open models say: assumptions, warnings, refusals, why a figure is not given.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

// Assumptions.
inline constexpr auto kCaughtAlikeAsSaid = MessageText("caught_alike_as_said", "Every animal present on an occasion, marked or not, had the same chance of capture, as far as the model does not say otherwise.");
inline constexpr auto kCaughtAlike = MessageText("caught_alike", "Every animal present on an occasion, marked or not, had the same chance of capture.");
inline constexpr auto kAreaStayed = MessageText("area_stayed", "The area sampled stayed the same, so that growth is growth of the population and not of the effort.");
inline constexpr auto kSurvivedAlikeAndKnown = MessageText("survived_alike_and_known", "Every animal present had the same chance of surviving to the next occasion; no animal lost its identity.");
inline constexpr auto kMarkedSurvivedAlike = MessageText("marked_survived_alike", "Every marked animal had the same chance of surviving to the next occasion.");
inline constexpr auto kLeavingAndComingIn = MessageText("leaving_and_coming_in", "No animal lost its identity; leaving for good counts as death, coming in counts as birth.");
inline constexpr auto kRecaughtAlikeAsSaid = MessageText("recaught_alike_as_said", "Every marked animal alive on an occasion had the same chance of recapture, as far as the model does not say otherwise.");
inline constexpr auto kResidentsAfterFirst = MessageText("residents_after_first", "After their first interval all marked animals were residents, with the same chance of surviving to the next occasion.");
inline constexpr auto kMarkedLivedOnAlike = MessageText("marked_lived_on_alike", "Every marked animal alive just after an occasion had the same chance of surviving to the next.");
inline constexpr auto kMarkedLivedOnLikewise = MessageText("marked_lived_on_likewise", "Every marked animal alive just after an occasion had the same chance of surviving to the next, likewise.");
inline constexpr auto kLeftForGood = MessageText("left_for_good", "Leaving for good counts as death; an animal that left did not come back.");
inline constexpr auto kShortOccasions = MessageText("short_occasions", "No animal lost its identity, and occasions were short against the time between them.");
inline constexpr auto kPassersOnOneOccasion = MessageText("passers_on_one_occasion", "Animals that only passed through were there on one occasion; all others had the same chance of surviving to the next.");
inline constexpr auto kSurvivedLikewise = MessageText("survived_likewise", "Every animal present had the same chance of surviving to the next occasion, likewise.");
inline constexpr auto kLeavingIsDeath = MessageText("leaving_is_death", "Leaving for good counts as death; no animal lost its identity.");
inline constexpr auto kAllCaughtAtEnds = MessageText("all_caught_at_ends", "Every animal present on the first and on the last occasion was caught there.");

// Warnings.
inline constexpr auto kLossesUpsetGrowth = MessageText("losses_upset_growth", "Animals were lost on capture: growth here is from those left after an occasion to those there at the next.");
inline constexpr auto kReadAsOneAndNought = MessageText("read_as_one_and_nought", "A survival above one or births below nought come from sampling error: read them as one and nought.");

// Why a figure is not given.
inline constexpr auto kFirstNotTold = MessageText("first_not_told", "with capture by occasion, the first chance of capture cannot be told, and so neither can this");
inline constexpr auto kLastNotTold = MessageText("last_not_told", "with survival and capture by occasion, the last of each cannot be told, and so neither can this");
inline constexpr auto kBelowNought = MessageText("below_nought", "it comes out below nought: the data are too few for this model");
inline constexpr auto kTooFewAround = MessageText("too_few_around", "too few recaptures around this occasion");

// Refusals.
inline constexpr auto kGroupsOrUseSurvival = MessageText("groups_or_use_survival", "an animal that was never caught has none: make classes of it a group, or use the survival model");
inline constexpr auto kOccasionsAre = MessageText("occasions_are", "there are {occasions} occasions");
inline constexpr auto kGiveThree = MessageText("give_three", "give at least three");
inline constexpr auto kOneOccasionOnly = MessageText("one_occasion_only", "there is one occasion");
inline constexpr auto kGiveTwo = MessageText("give_two", "give at least two");
inline constexpr auto kPartsUnequal = MessageText("parts_unequal", "its parts are of unequal length");
inline constexpr auto kGiveReleaseTable = MessageText("give_release_table", "give k - 1 releases, k - 1 rows and k first captures");
inline constexpr auto kRowHasCells = MessageText("row_has_cells", "its row has {cells} cells");
inline constexpr auto kGiveKLess1 = MessageText("give_k_less_1", "give k - 1");
inline constexpr auto kFewerThanThree = MessageText("fewer_than_three", "there are fewer than three occasions");
inline constexpr auto kGiveThreeOrLeaveOut = MessageText("give_three_or_leave_out", "give at least three, or leave after_capture out");
inline constexpr auto kTwoOccasionsOnly = MessageText("two_occasions_only", "there are two occasions");
inline constexpr auto kGiveThreeForEnds = MessageText("give_three_for_ends", "give at least three to set the ends to 1");
inline constexpr auto kTermOfClosed = MessageText("term_of_closed", "it is a term of closed models");
inline constexpr auto kLeaveOutOfBoth = MessageText("leave_out_of_both", "leave it out of survival and recapture");
inline constexpr auto kUnitNotKnown = MessageText("unit_not_known", "'{unit}' is not known");
inline constexpr auto kUseAUnit = MessageText("use_a_unit", "use auto, interval, day, week, month or year");
inline constexpr auto kNoDatesForUnit = MessageText("no_dates_for_unit", "the occasions have no dates, so a {unit} cannot be told");
inline constexpr auto kGiveDatesOrInterval = MessageText("give_dates_or_interval", "give dates, or say survival_per interval");
inline constexpr auto kNoTwoPlaces = MessageText("no_two_places", "the captures do not tell two places or more");
inline constexpr auto kGiveSeveralPonds = MessageText("give_several_ponds", "give histories of several ponds, with the pond of each capture");
inline constexpr auto kEqualInAPlace = MessageText("equal_in_a_place", "Every animal in a place had the same chance of surviving, of moving to another and of being caught there, as far as the model does not say otherwise.");
inline constexpr auto kMovedAtTheEnd = MessageText("moved_at_the_end", "Animals moved at the end of an interval, and by where they were then, not by where they had been before.");
inline constexpr auto kLeavingAllPlaces = MessageText("leaving_all_places", "Leaving all of the places for good counts as death; no animal lost its identity.");

// The models in words.
inline constexpr auto kSurvivalModel = MessageText("survival_model", "survival {survival}; recapture {recapture}");
inline constexpr auto kGrowthModel = MessageText("growth_model", "survival {survival}, capture {capture}, {rate} {terms}");
inline constexpr auto kEntryModel = MessageText("entry_model", "survival {survival}, capture {capture}, entry by occasion");
inline constexpr auto kEntryModelPassing = MessageText("entry_model_passing", "survival {survival}, capture {capture}, entry by occasion, some passing through");
inline constexpr auto kMovementModel = MessageText("movement_model", "survival {survival}; recapture {recapture}; moving {moving}");
inline constexpr auto kByPlaceAndOccasion = MessageText("by_place_and_occasion", "by place and occasion");
inline constexpr auto kByPlace = MessageText("by_place", "by place");
inline constexpr auto kByOccasion = MessageText("by_occasion", "by occasion");
inline constexpr auto kSameBetweenPlaces = MessageText("same_between_places", "the same between any two places");
inline constexpr auto kOwnAfterFirstCapture = MessageText("own_after_first_capture", "{terms}, its own after the first capture");
inline constexpr auto kOwnJustAfterCapture = MessageText("own_just_after_capture", "{terms}, its own just after a capture");

// fit_components.cpp
inline constexpr auto kTestCaughtOrMissedAt = MessageText("test_caught_or_missed_at", "caught or missed at {occasion}");
inline constexpr auto kTestNewlyMarkedAt = MessageText("test_newly_marked_at", "newly marked or marked before at {occasion}");

// What estimates are of, where the quantity alone does not say it. JSON has their English as names: it stays.
inline constexpr auto kLastProduct = MessageText("last_product", "survival x recapture, last");
inline constexpr auto kMovingAnywhere = MessageText("moving_anywhere", "moving to any other place");
inline constexpr auto kSurvivalAfterFirst = MessageText("survival_after_first", "survival after the first capture");
inline constexpr auto kRecaptureJustAfter = MessageText("recapture_just_after", "recapture just after a capture");
inline constexpr auto kAfterFirstCapture = MessageText("after_first_capture", "the interval after the first capture");
inline constexpr auto kAfterACapture = MessageText("after_a_capture", "the occasion after a capture");

// clang-format on
}  // namespace evet::messages
