// What is said of a request and of its answer: the design, the tests, warnings, refusals of a model card.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

// Why this design and this set of models.
inline constexpr auto kDesignAskedFor = MessageText("design_asked_for", "The {design} design was asked for.");
inline constexpr auto kGatheredIntoPeriods = MessageText("gathered_into_periods", "The occasions are gathered into primary periods with several occasions in them: closed within, open between.");
inline constexpr auto kFallIntoPeriods = MessageText("fall_into_periods", "The nights fall into {periods}: closed within periods, open between. Ask for the open design to take every night by itself.");
inline constexpr auto kTwoOccasionsClosed = MessageText("two_occasions_closed", "Two occasions cannot tell survival from recapture, so the population is taken for closed.");
inline constexpr auto kOneOccasionClosed = MessageText("one_occasion_closed", "One occasion cannot tell survival from recapture, so the population is taken for closed.");
inline constexpr auto kNoDatesClosed = MessageText("no_dates_closed", "No dates are given, so the population is taken for closed; ask for the open design if animals could come, go or die between the occasions.");
inline constexpr auto kShortEnoughClosed = MessageText("short_enough_closed", "The occasions lie within {span}, short enough to take the population for closed (up to {longest}).");
inline constexpr auto kSpanTooLong = MessageText("span_too_long", "The occasions span {span}: animals could come, go or die in that time.");
inline constexpr auto kRobustSet = MessageText("robust_set", "Survival between the periods, with animals always there, away at random, or away depending on the period before; capture the same throughout or by period; and each period alone beside them.");
inline constexpr auto kOpenSet = MessageText("open_set", "Survival and recapture, each constant or by occasion (and by each group that is named), with animals that only pass through or answer to capture; numbers and growth from the super-population.");
inline constexpr auto kOpenSetWithClosedForms = MessageText("open_set_with_closed_forms", "Survival and recapture, each constant or by occasion (and by each group that is named), with animals that only pass through or answer to capture; numbers and growth from the super-population; the closed forms of Jolly and Seber beside them.");
inline constexpr auto kTwoSampleSet = MessageText("two_sample_set", "Two occasions: the two-sample estimate, corrected for bias, with the plain ratio beside it.");
inline constexpr auto kClosedSet = MessageText("closed_set", "Every animal and occasion alike, occasions unlike, and animals that answer to being caught; beside them, not averaged: a lower bound, the jackknife and sample coverage for unequal catchability, and the two batch estimates.");
inline constexpr auto kClosedSetOfFour = MessageText("closed_set_of_four", "Every animal and occasion alike, occasions unlike, and animals that answer to being caught, and animals unlike, alone and together with unlike occasions; beside them, not averaged: a lower bound, the jackknife and sample coverage for unequal catchability, and the two batch estimates.");
inline constexpr auto kClosedSetOfFive = MessageText("closed_set_of_five", "Every animal and occasion alike, occasions unlike, and animals that answer to being caught, and animals unlike, alone and together with unlike occasions or with an answer to capture; beside them, not averaged: a lower bound, the jackknife and sample coverage for unequal catchability, and the two batch estimates.");
inline constexpr auto kThinByOccasion = MessageText("thin_by_occasion", "With so many occasions and so few captures, models with a chance for each occasion are left out; name them to fit them.");

// Tests of assumptions.
inline constexpr auto kNotTestable = MessageText("not_testable", "No animal was caught twice or more, so closure cannot be tested.");
inline constexpr auto kNotClosed = MessageText("not_closed", "Captures of an animal lie too close together: animals came or went during the survey (or answered to capture).");
inline constexpr auto kNothingAgainstClosure = MessageText("nothing_against_closure", "Nothing against a closed population; the test finds only strong coming and going.");
inline constexpr auto kManySeenOnce = MessageText("many_seen_once", "{seen} animals were seen once only, where those seen again lead one to expect {expected}: recaptures may have been taken for new animals, or some animals are hard to catch again or only pass through. Look again at animals seen once; where identities are misread, the numbers are too high.");
inline constexpr auto kNotManySeenOnce = MessageText("not_many_seen_once", "No more animals were seen once than those seen again lead one to expect.");
inline constexpr auto kAnswerToCapture = MessageText("answer_to_capture", "Whether an animal was just caught changes when it is caught next: animals answer to capture or stay away for a time. Look at the rows with recapture of its own just after a capture; with several nights a period, the robust design tells animals that stay away.");
inline constexpr auto kNewlyCaughtDiffer = MessageText("newly_caught_differ", "Newly caught animals differ from known ones in being seen again: some only pass through, animals differ in catchability, or recaptures were taken for new animals. Look at the rows with survival of its own after the first capture: there survival is that of the animals that stay.");
inline constexpr auto kVaryMoreWidened = MessageText("vary_more_widened", "The data vary more than the model allows; standard errors are widened for it.");
inline constexpr auto kNothingAgainstAssumption = MessageText("nothing_against_assumption", "Nothing against the assumption.");
inline constexpr auto kNothingAgainstIt = MessageText("nothing_against_it", "Nothing against it.");
inline constexpr auto kTooThinToTest = MessageText("too_thin_to_test", "The data are too thin to test it.");
inline constexpr auto kTrapHappy = MessageText("trap_happy", "Animals just caught were caught again sooner than those just missed: trap-happy animals, or animals staying away for a time.");
inline constexpr auto kTrapShy = MessageText("trap_shy", "Animals just caught were caught again later than those just missed: trap-shy animals.");
inline constexpr auto kNewSeenLess = MessageText("new_seen_less", "Newly caught animals were seen again less often than known ones: some only pass through, or animals differ in catchability.");
inline constexpr auto kNewSeenMore = MessageText("new_seen_more", "Newly caught animals were seen again more often than known ones: known animals leave, die or avoid the traps more.");
inline constexpr auto kTooThinForOverdispersion = MessageText("too_thin_for_overdispersion", "The data are too thin to measure overdispersion; standard errors are not widened.");
inline constexpr auto kVaryByChance = MessageText("vary_by_chance", "The data vary more than the model expects, but no more than chance gives one survey in ten; standard errors stand as they are.");
inline constexpr auto kVaryNoMore = MessageText("vary_no_more", "The data vary no more than the model allows; standard errors stand as they are.");
inline constexpr auto kErrorsWidened = MessageText("errors_widened", "Standard errors are widened by the square root of {factor}.");
inline constexpr auto kModelIsWrong = MessageText("model_is_wrong", "More than three points to a model that is wrong rather than to scatter.");
inline constexpr auto kOverdispersionGiven = MessageText("overdispersion_given", "The overdispersion was given, not measured.");
inline constexpr auto kLargerFitsBetter = MessageText("larger_fits_better", "The larger model fits better than chance allows.");
inline constexpr auto kSmallerNotRejected = MessageText("smaller_not_rejected", "The smaller model is not rejected.");
inline constexpr auto kSmallerAtEdge = MessageText("smaller_at_edge", "(The smaller lies at the edge of the larger: the p-value is too large.)");

// Warnings.
inline constexpr auto kNothingToEstimateFrom = MessageText("nothing_to_estimate_from", "No animal was caught: there is nothing to estimate from.");
inline constexpr auto kSurveyAgain = MessageText("survey_again", "There is one occasion: survey again to estimate numbers.");
inline constexpr auto kFiguresStopBefore = MessageText("figures_stop_before", "The figures stop before {occasion}, of which {n} capture is not settled: they use {used} of {all} occasions. Settle what is open to take in the rest.", "The figures stop before {occasion}, of which {n} captures are not settled: they use {used} of {all} occasions. Settle what is open to take in the rest.");
inline constexpr auto kNoneOnTwoOccasions = MessageText("none_on_two_occasions", "No animal was caught on two occasions: the data say nothing about survival or numbers.");
inline constexpr auto kFewerThanTwenty = MessageText("fewer_than_twenty", "Fewer than twenty recaptures in all: every estimate here is rough.");
inline constexpr auto kNoneSeenAgain = MessageText("none_seen_again", "No animal let go on these occasions was seen again: {occasions}. Survival from there on cannot be told by occasion.");
inline constexpr auto kUnevenIntervals = MessageText("uneven_intervals", "The time between occasions runs from {shortest} to {longest} days, and survival and growth are per interval, long or short, as asked: read them by occasion, not as one constant figure.");
inline constexpr auto kNothingCaughtOn = MessageText("nothing_caught_on", "Nothing was caught on occasion {occasions}.");
inline constexpr auto kFewerThanFiveOn = MessageText("fewer_than_five_on", "Fewer than five animals were caught on occasion {occasions}.");
inline constexpr auto kTestFails = MessageText("test_fails", "Test of {test} (p {p}): {says}");
inline constexpr auto kModelsDisagree = MessageText("models_disagree", "Models that the data cannot choose between give from {lowest} to {highest} for {quantity}: quote the range with the average.");
inline constexpr auto kNotToldApartIn = MessageText("not_told_apart_in", "Cannot be told apart in the model \"{model}\": {parameters}.");
inline constexpr auto kAtEndOfRangeIn = MessageText("at_end_of_range_in", "At the end of the possible range in the model \"{model}\": {parameters}.");
inline constexpr auto kRaisedToSeen = MessageText("raised_to_seen", "The method gives fewer animals than were seen: the number seen is given instead.");
inline constexpr auto kAlikeOrByInterval = MessageText("alike_or_by_interval", "The {quantity} without a date is that of models in which it is the same throughout, which hold most of the weight; those with dates are of models in which each may differ. Quote the first, and the others where a single one is asked for.");
inline constexpr auto kLeftOutOfAverage = MessageText("left_out_of_average", "Models with {percent} % of the weight give no finite estimate of {parameter} and are left out of it.");
inline constexpr auto kNoUpperLimit = MessageText("no_upper_limit", "Models without a finite estimate would hold {percent} % of the weight: the data set no upper limit.");
inline constexpr auto kMistrustUpperLimit = MessageText("mistrust_upper_limit", "Models without a finite estimate would hold {percent} % of the weight: do not trust the upper limit.");
inline constexpr auto kAllAreaWithinReach = MessageText("all_area_within_reach", "All of the area was within reach of the sampled animals, and no more than it.");

// Why a row is not averaged, or a figure not given.
inline constexpr auto kTooFewData = MessageText("too_few_data", "the data are too few for so many parameters");
inline constexpr auto kNumberNotTold = MessageText("number_not_told", "the data cannot tell its number apart from the rest of it");
inline constexpr auto kAddsNothingTo = MessageText("adds_nothing_to", "it adds nothing to: {model}");
inline constexpr auto kNoModelGivesIt = MessageText("no_model_gives_it", "no model of the table gives it a finite estimate");
inline constexpr auto kOnlyLeftOutGiveIt = MessageText("only_left_out_give_it", "only models that are left out of the average give it: {why}");
inline constexpr auto kMostHaveNone = MessageText("most_have_none", "the models that hold most of the weight have no figure of its kind");
inline constexpr auto kToldByFew = MessageText("told_by_few", "{why} (models that can tell it hold {percent} % of the weight)");
inline constexpr auto kBestHaveNone = MessageText("best_have_none", "the models that fit best have no finite estimate");
inline constexpr auto kNoAnimalCaught = MessageText("no_animal_caught", "no animal was caught");
inline constexpr auto kNoneCouldBeCaughtAgain = MessageText("none_could_be_caught_again", "there is one occasion, so no animal could be caught again");
inline constexpr auto kFirstNotSettled = MessageText("first_not_settled", "captures of the first occasion are not settled");

// Refusals.
inline constexpr auto kNoSuchModel = MessageText("no_such_model", "it is not known");
inline constexpr auto kNameOfRegistry = MessageText("name_of_registry", "name one of the registry");
inline constexpr auto kUseOneOf = MessageText("use_one_of", "use {models}");
inline constexpr auto kNotKnownForAny = MessageText("not_known_for_any", "it is not known for any design");
inline constexpr auto kNotKnownForDesign = MessageText("not_known_for_design", "it is not known for a {design} population");
inline constexpr auto kNamedTwice = MessageText("named_twice", "the request and the card both name some");
inline constexpr auto kNameInOnePlace = MessageText("name_in_one_place", "name them in one place");
inline constexpr auto kUseADesign = MessageText("use_a_design", "use auto, closed, open or robust");
inline constexpr auto kGiveDays = MessageText("give_days", "give a number of days, or 0");
inline constexpr auto kNoDates = MessageText("no_dates", "the occasions have no dates");
inline constexpr auto kGiveDatesOrPeriods = MessageText("give_dates_or_periods", "give dates, or periods");
inline constexpr auto kGiveSquareMetres = MessageText("give_square_metres", "give square metres above 0, or leave it out");
inline constexpr auto kNoColumnOfNumbers = MessageText("no_column_of_numbers", "the histories hold no such column of numbers");
inline constexpr auto kNoCovariates = MessageText("no_covariates", "they have no covariates at all");
inline constexpr auto kGroupsAsWell = MessageText("groups_as_well", "the model has groups or covariates as well");
inline constexpr auto kNameOneOrOther = MessageText("name_one_or_other", "name one or the other; fit groups apart for both");

// A model card.
inline constexpr auto kNothingFitted = MessageText("nothing_fitted", "nothing was fitted");
inline constexpr auto kEntryOfModels = MessageText("entry_of_models", "models, entry {entry}");
inline constexpr auto kIsNoObject = MessageText("is_no_object", "it is not an object");
inline constexpr auto kWriteCard = MessageText("write_card", "write {example}");
inline constexpr auto kDesignNotKnown = MessageText("design_not_known", "{value} is not known");
inline constexpr auto kGiveLevel = MessageText("give_level", "give a number between 0 and 1, for example 0.95");
inline constexpr auto kGiveSeed = MessageText("give_seed", "give a whole number from 0");
inline constexpr auto kGiveOverdispersion = MessageText("give_overdispersion", "give a number from 1, or \"measured\"");
inline constexpr auto kGiveDraws = MessageText("give_draws", "give a whole number of draws from 0 to 10000");
inline constexpr auto kListEmpty = MessageText("list_empty", "the list is empty");
inline constexpr auto kIsNoList = MessageText("is_no_list", "it is not a list");
inline constexpr auto kListModels = MessageText("list_models", "list names or models, or leave it out for a set that suits the data");
inline constexpr auto kNoFieldOfCard = MessageText("no_field_of_card", "it is not a field of a card");
inline constexpr auto kUseFieldsOfCard = MessageText("use_fields_of_card", "use design, models, level, seed, overdispersion, survival_per or bootstrap");
inline constexpr auto kNamesNoModel = MessageText("names_no_model", "it names no model");
inline constexpr auto kNameModelLike = MessageText("name_model_like", "write a name, or {example}");
inline constexpr auto kNamedModelNotKnown = MessageText("named_model_not_known", "model '{model}' is not known");
inline constexpr auto kSeveralRates = MessageText("several_rates", "it states more than one of growth rate, recruitment and seniority");
inline constexpr auto kStateOneRate = MessageText("state_one_rate", "state one, the others follow from it");
inline constexpr auto kWriteTrueOrFalse = MessageText("write_true_or_false", "write true or false");
inline constexpr auto kNoPartOfModel = MessageText("no_part_of_model", "it is not a part of model '{model}'");
inline constexpr auto kNoFurtherFields = MessageText("no_further_fields", "this model takes no further fields");
inline constexpr auto kWritePartLike = MessageText("write_part_like", "write \"constant\", or {example}");
inline constexpr auto kUsePartFields = MessageText("use_part_fields", "use varies_by, each_combination, linear_in or after_capture");
inline constexpr auto kNotAfterCapture = MessageText("not_after_capture", "only the conditional and the survival model have it, and the survival of the super-population");
inline constexpr auto kModelTakesNoTerms = MessageText("model_takes_no_terms", "model '{model}' takes no terms");
inline constexpr auto kNeedsOccasionAndGroup = MessageText("needs_occasion_and_group", "it needs the occasion and a group");
inline constexpr auto kNameBothLike = MessageText("name_both_like", "name both in varies_by, for example [\"occasion\", \"sex\"]");
inline constexpr auto kNotByPeriod = MessageText("not_by_period", "model '{model}' cannot vary by 'period'");
inline constexpr auto kUseOccasion = MessageText("use_occasion", "use occasion");
inline constexpr auto kGiveNamesLike = MessageText("give_names_like", "give a list of names, for example [\"occasion\"]");
inline constexpr auto kIsNoName = MessageText("is_no_name", "{value} is not a name");
inline constexpr auto kQuoteNames = MessageText("quote_names", "put names in quotation marks");
inline constexpr auto kNameStandsTwice = MessageText("name_stands_twice", "'{name}' stands there twice");
inline constexpr auto kNameItOnce = MessageText("name_it_once", "name it once");
inline constexpr auto kForAnotherDesign = MessageText("for_another_design", "it is for a {design} design, the card says {asked}");
inline constexpr auto kChangeOneOfThem = MessageText("change_one_of_them", "change one of them");
inline constexpr auto kAveragedLimits = MessageText("averaged_limits", "Averaged limits allow for not knowing which model holds: where the simplest one does, they hold the truth more often than they say.");
inline constexpr auto kNotToldFromPassing = MessageText("not_told_from_passing", "all animals let go on the first occasion were new, and those that only passed through cannot be told from those that died");
inline constexpr auto kCannotVaryBy = MessageText("cannot_vary_by", "it cannot vary by {by}");
inline constexpr auto kUsePlaceOrOccasion = MessageText("use_place_or_occasion", "use place or occasion");
inline constexpr auto kUsePlaceOrConstant = MessageText("use_place_or_constant", "use place, or leave it constant");
inline constexpr auto kIsLinearIn = MessageText("is_linear_in", "it is linear in {covariate}");
inline constexpr auto kLeaveLinearOut = MessageText("leave_linear_out", "leave linear_in out");

// Estimators without a likelihood, in words.
inline constexpr auto kEstimatorTwoSamplesCorrected = MessageText("estimator_two_samples_corrected", "two samples, ratio estimate corrected for bias");
inline constexpr auto kEstimatorTwoSamples = MessageText("estimator_two_samples", "two samples, ratio estimate");
inline constexpr auto kEstimatorTwoSamplesReplaced = MessageText("estimator_two_samples_replaced", "two samples, the second with replacement");
inline constexpr auto kEstimatorLowerBoundCorrected = MessageText("estimator_lower_bound_corrected", "unequal catchability, lower bound corrected for bias");
inline constexpr auto kEstimatorJackknife = MessageText("estimator_jackknife", "unequal catchability, jackknife of the order that the data ask for");
inline constexpr auto kEstimatorSampleCoverage = MessageText("estimator_sample_coverage", "unequal catchability, by the share of the population's catchability covered");
inline constexpr auto kEstimatorSeveralSamplesMean = MessageText("estimator_several_samples_mean", "several samples, weighted mean of two-sample estimates");
inline constexpr auto kEstimatorSeveralSamplesRegression = MessageText("estimator_several_samples_regression", "several samples, regression through the origin");
inline constexpr auto kEstimatorSeveralSamplesBinomial = MessageText("estimator_several_samples_binomial", "several samples, recaptures binomial given the marked");
inline constexpr auto kEstimatorLowerBound = MessageText("estimator_lower_bound", "unequal catchability, lower bound");
inline constexpr auto kEstimatorLowerBoundOccasions = MessageText("estimator_lower_bound_occasions", "unequal catchability, lower bound for a set number of occasions");
inline constexpr auto kEstimatorSampleCoverageOccasions = MessageText("estimator_sample_coverage_occasions", "unequal catchability and unequal occasions, by sample coverage");
inline constexpr auto kEstimatorClosedFormOpen = MessageText("estimator_closed_form_open", "numbers, survival and births by occasion in closed form");
inline constexpr auto kEstimatorEachPeriodAlone = MessageText("estimator_each_period_alone", "each primary period alone, the same chance of capture on all its occasions");

// assumption_tests.cpp
inline constexpr auto kTestClosure = MessageText("test_closure", "closure");
inline constexpr auto kTestSeenOnce = MessageText("test_seen_once", "animals seen once");
inline constexpr auto kTestCaughtOrMissedAll = MessageText("test_caught_or_missed_all", "caught or missed, all occasions");
inline constexpr auto kTestNewlyMarkedAll = MessageText("test_newly_marked_all", "newly marked or marked before, all occasions");
inline constexpr auto kTestFitOfOpen = MessageText("test_fit_of_open", "fit of the open model, all components");

// What a density is of. JSON has the English as its name: it stays.
inline constexpr auto kDensityPer100 = MessageText("density_per_100", "density per 100 m2");

// clang-format on
}  // namespace evet::messages
