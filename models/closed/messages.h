// What closed models and estimators say: assumptions, warnings, refusals, why a figure is not given.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

// Assumptions.
inline constexpr auto kNoneCameOrWent = MessageText("none_came_or_went", "No animal entered, left, was born or died between the first and the last occasion.");
inline constexpr auto kCaughtIndependently = MessageText("caught_independently", "Animals were caught independently of each other.");
inline constexpr auto kOwnChance = MessageText("own_chance", "Each animal had its own chance of capture, the same on every occasion, caught before or not.");
inline constexpr auto kChancesAsBeta = MessageText("chances_as_beta", "These chances were spread over the animals as a beta distribution.");
inline constexpr auto kLowerBoundOnly = MessageText("lower_bound_only", "Each animal had its own chance of capture, caught before or not; the figure is a lower bound for the number.");
inline constexpr auto kChancesAsModelSays = MessageText("chances_as_model_says", "Chances of capture differed only as the model says: {model}.");
inline constexpr auto kOneChanceForAll = MessageText("one_chance_for_all", "Every animal had the same chance of capture on every occasion, caught before or not.");
inline constexpr auto kOneChanceInGroup = MessageText("one_chance_in_group", "Within a group every animal had the same chance of capture on every occasion.");
inline constexpr auto kNightsActedAlike = MessageText("nights_acted_alike", "Good and bad nights acted alike (on the logit scale) on both groups.");
inline constexpr auto kShiftedInBothGroups = MessageText("shifted_in_both_groups", "Having been caught shifted the chance of capture by the same amount (on the logit scale) in both groups.");
inline constexpr auto kTwoGroupsNoFurther = MessageText("two_groups_no_further", "Animals fell into two groups that differed in how easily they were caught, and no further.");
inline constexpr auto kOneChanceAnOccasion = MessageText("one_chance_an_occasion", "On any one occasion every animal had the same chance of capture, caught before or not.");
inline constexpr auto kOneChanceForNew = MessageText("one_chance_for_new", "On any one occasion all animals not yet caught had the same chance of capture.");
inline constexpr auto kShiftedAlike = MessageText("shifted_alike", "Having been caught shifted that chance by the same amount (on the logit scale) on every occasion.");
inline constexpr auto kNewCaughtAlike = MessageText("new_caught_alike", "Every animal not yet caught had the same chance of capture on every occasion.");
inline constexpr auto kKnownCaughtAlike = MessageText("known_caught_alike", "Once caught, every animal had another, equal chance of being caught again.");
inline constexpr auto kNoneButTakenOut = MessageText("none_but_taken_out", "No animal entered or left between the passes, except those taken out.");
inline constexpr auto kOneChanceAPass = MessageText("one_chance_a_pass", "Every animal still there had the same chance of capture on every pass.");
inline constexpr auto kAnimalsAndOccasionsDiffered = MessageText("animals_and_occasions_differed", "Animals differed in catchability and occasions differed in how good they were, caught before or not.");
inline constexpr auto kNoneWhileSampling = MessageText("none_while_sampling", "No animal entered, left, was born or died while sampling went on.");
inline constexpr auto kMarkedCaughtAlike = MessageText("marked_caught_alike", "On each occasion every animal, marked or not, had the same chance of capture.");
inline constexpr auto kNoneBetweenTheTwo = MessageText("none_between_the_two", "No animal entered, left, was born or died between the two occasions.");
inline constexpr auto kAlikeOnOneOfTwo = MessageText("alike_on_one_of_two", "Every animal had the same chance of capture on at least one of the two occasions.");
inline constexpr auto kCatchingChangesNothing = MessageText("catching_changes_nothing", "Being caught once did not change the chance of being caught again.");
inline constexpr auto kDrawnWithReplacement = MessageText("drawn_with_replacement", "The second sample was drawn with replacement: an animal could be counted twice.");

// Warnings.
inline constexpr auto kNumbersCanDiffer = MessageText("numbers_can_differ", "With unequal catchability, models that fit equally well can give different numbers (Link 2003, Biometrics 59:1123-1130).");
inline constexpr auto kNoneExactlyTwice = MessageText("none_exactly_twice", "No animal was caught exactly twice: this bound does not exist; use the bias-corrected one.");
inline constexpr auto kNoneTwice = MessageText("none_twice", "No animal was caught twice: the data set no upper bound on the number.");
inline constexpr auto kLossesUpsetBound = MessageText("losses_upset_bound", "Animals were lost on capture, which this bound does not allow for.");
inline constexpr auto kLossesUpsetJackknife = MessageText("losses_upset_jackknife", "Animals were lost on capture, which the jackknife does not allow for.");
inline constexpr auto kLossesUpsetCoverage = MessageText("losses_upset_coverage", "Animals were lost on capture, which sample coverage does not allow for.");
inline constexpr auto kLimitOfMethod = MessageText("limit_of_method", "No animal was caught twice: this figure is the limit of the method, not an estimate of the number.");
inline constexpr auto kEveryAnimalSeen = MessageText("every_animal_seen", "The best estimate is that every animal was seen; the standard error means nothing there, look at the interval.");
inline constexpr auto kFirstCapturesStayed = MessageText("first_captures_stayed", "There is no finite estimate: first captures did not fall off as marking went on.");
inline constexpr auto kFewerThanTenRough = MessageText("fewer_than_ten_rough", "Fewer than ten recaptures in all: every estimate here is rough, and most are too low.");
inline constexpr auto kSeldomCaught = MessageText("seldom_caught", "Each animal was caught on fewer than a tenth of the occasions: more occasions or traps would help most.");
inline constexpr auto kLessThanHalfCovered = MessageText("less_than_half_covered", "Less than half of the catchable population was covered: this estimate is rough.");
inline constexpr auto kNoMarkedAgain = MessageText("no_marked_again", "No marked animal was caught again: the data set no upper bound on the number.");
inline constexpr auto kFewerThanTenWide = MessageText("fewer_than_ten_wide", "Fewer than ten recaptures in all: the limits are wide and the estimate can be far off.");
inline constexpr auto kFewerThanSeven = MessageText("fewer_than_seven", "Fewer than seven marked animals were caught again: the estimate can be far off, most often too low.");
inline constexpr auto kNothingOnSecond = MessageText("nothing_on_second", "Nothing was caught on the second occasion: the data say nothing about the number.");

// Why a figure is not given.
inline constexpr auto kNoErrorNoneTwiceExactly = MessageText("no_error_none_twice_exactly", "the standard error is undefined, for no animal was caught exactly twice");
inline constexpr auto kNoErrorNoneTwice = MessageText("no_error_none_twice", "the standard error is undefined, for no animal was caught twice");
inline constexpr auto kNoErrorNoneMarked = MessageText("no_error_none_marked", "the standard error is undefined, for no marked animal was caught again");
inline constexpr auto kBetterTheLarger = MessageText("better_the_larger", "the data fit better the larger the number, so there is no finite estimate under this model");
inline constexpr auto kNumberNotToldApart = MessageText("number_not_told_apart", "the data cannot tell the number apart from the other parameters of this model");
inline constexpr auto kErrorNeedsThree = MessageText("error_needs_three", "the standard error needs at least three samples");
inline constexpr auto kNoneWhileMarked = MessageText("none_while_marked", "no sample was taken while marked animals were at large");
inline constexpr auto kOneSampleEmpty = MessageText("one_sample_empty", "one of the two samples holds no animal");

// Refusals.
inline constexpr auto kNotOneAnOccasion = MessageText("not_one_an_occasion", "their number is not that of the occasions");
inline constexpr auto kGiveFrequencies = MessageText("give_frequencies", "give f_1 ... f_t and n_1 ... n_t");
inline constexpr auto kSumsDiffer = MessageText("sums_differ", "sum of k f_k differs from the sum of n_j");
inline constexpr auto kBothCountCaptures = MessageText("both_count_captures", "both count the captures");
inline constexpr auto kOccasionsAndAnimals = MessageText("occasions_and_animals", "there are {occasions} occasions and {animals} animals");
inline constexpr auto kTwoAndOneNeeded = MessageText("two_and_one_needed", "at least two occasions and one animal are needed");
inline constexpr auto kCatchIs = MessageText("catch_is", "a catch is {caught}");
inline constexpr auto kGiveTakenOut = MessageText("give_taken_out", "give animals taken out on each pass");
inline constexpr auto kPassesAndAnimals = MessageText("passes_and_animals", "there are {passes} passes with {animals} animals in all");
inline constexpr auto kTwoPassesNeeded = MessageText("two_passes_needed", "at least two passes and one animal are needed");
inline constexpr auto kSoManyOccasions = MessageText("so_many_occasions", "there are {occasions} occasions");
inline constexpr auto kCoverageNeeds = MessageText("coverage_needs", "at least two, one animal, and a form from 1 to 3 are needed");
inline constexpr auto kRowsUnequal = MessageText("rows_unequal", "the three rows are of unequal length");
inline constexpr auto kOneEntryASample = MessageText("one_entry_a_sample", "give one entry a sample in each");
inline constexpr auto kCountsDoNotFit = MessageText("counts_do_not_fit", "its counts do not fit together");
inline constexpr auto kRecapturedArePart = MessageText("recaptured_are_part", "recaptured animals are part of the catch and of the marked at large");
inline constexpr auto kCountIs = MessageText("count_is", "a count is {count}");
inline constexpr auto kGiveWholeNumbers = MessageText("give_whole_numbers", "give whole numbers of animals");
inline constexpr auto kTooManyRecaptured = MessageText("too_many_recaptured", "more animals were recaptured than were marked or caught");
inline constexpr auto kRecapturedAreOfBoth = MessageText("recaptured_are_of_both", "the recaptured are part of the second sample and of the marked");
inline constexpr auto kGiveExactlyTwo = MessageText("give_exactly_two", "give exactly two");

// The models in words.
inline constexpr auto kModelHeterogeneous = MessageText("model_heterogeneous", "every animal its own chance of capture, spread as a beta distribution");
inline constexpr auto kModelConditional = MessageText("model_conditional", "given capture, chance of capture {terms}");
inline constexpr auto kModelConstant = MessageText("model_constant", "the same chance of capture for every animal on every occasion");
inline constexpr auto kModelMixture = MessageText("model_mixture", "two groups of animals, one easier to catch than the other");
inline constexpr auto kModelOccasion = MessageText("model_occasion", "a chance of capture for each occasion, the same for every animal");
inline constexpr auto kModelResponse = MessageText("model_response", "one chance of first capture and one of recapture: animals answer to being caught");
inline constexpr auto kModelRemoval = MessageText("model_removal", "animals taken out as they were caught, the same chance of capture on every pass");
inline constexpr auto kModelOccasionMixture = MessageText("model_occasion_mixture", "a chance of capture for each occasion, and two groups that differ by a constant on the logit scale");
inline constexpr auto kModelResponseMixture = MessageText("model_response_mixture", "two groups that differ in catchability, and a constant shift on the logit scale after first capture");
inline constexpr auto kModelOccasionResponse = MessageText("model_occasion_response", "a chance of capture for each occasion, shifted by a constant on the logit scale after first capture");

// What estimates are of, where the quantity alone does not say it. JSON has their English as names: it stays.
inline constexpr auto kChanceP = MessageText("chance_p", "p");
inline constexpr auto kChanceC = MessageText("chance_c", "c");
inline constexpr auto kChanceLow = MessageText("chance_low", "p low");
inline constexpr auto kChanceHigh = MessageText("chance_high", "p high");
inline constexpr auto kShareHarder = MessageText("share_harder", "share of the group harder to catch");
inline constexpr auto kGapBetween = MessageText("gap_between", "gap between the groups");
inline constexpr auto kResponseShift = MessageText("response_shift", "response");
inline constexpr auto kMeanChance = MessageText("mean_chance", "mean p");
inline constexpr auto kEvenness = MessageText("evenness", "evenness a + b");

// clang-format on
}  // namespace evet::messages
