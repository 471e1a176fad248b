// What is said of histories, cards and counts that cannot be used.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

// Lists and spans of time.
inline constexpr auto kAnd = MessageText("and", "{first} and {last}");
inline constexpr auto kOr = MessageText("or", "{first} or {last}");
inline constexpr auto kDays = MessageText("days", "{n} day", "{n} days");
inline constexpr auto kPeriodsOf = MessageText("periods_of", "{n} period of {sizes} nights (up to {within} apart within a period)", "{n} periods of {sizes} nights (up to {within} apart within a period, {between} or more between)");

// Refusals, alone and gathered.
inline constexpr auto kRefusal = MessageText("refusal", "{item}: {wrong}; {right}");
inline constexpr auto kTheseLines = MessageText("these_lines", "\n{lines}");
inline constexpr auto kMoreComplaints = MessageText("more_complaints", "... and {more} more");
inline constexpr auto kNothingTaken = MessageText("nothing_taken", "nothing was taken");
inline constexpr auto kIsValue = MessageText("is_value", "it is {value}");
inline constexpr auto kGiveBetween0And1 = MessageText("give_between_0_and_1", "give a number between 0 and 1");

// Histories as values.
inline constexpr auto kHasEntries = MessageText("has_entries", "it has {entries} entries");
inline constexpr auto kGiveOneForEach = MessageText("give_one_for_each", "give one for each of the {count} {what}");
inline constexpr auto kAnimalsTimesOccasions = MessageText("animals_times_occasions", "animals times occasions");
inline constexpr auto kOccasions = MessageText("occasions", "occasions");
inline constexpr auto kAnimals = MessageText("animals", "animals");
inline constexpr auto kStandsTwice = MessageText("stands_twice", "it stands there twice");
inline constexpr auto kGiveEachOccasionAName = MessageText("give_each_occasion_a_name", "give each occasion its own name");
inline constexpr auto kGiveEachAnimalAName = MessageText("give_each_animal_a_name", "give each animal its own name");
inline constexpr auto kDateNotRead = MessageText("date_not_read", "it is not a date");
inline constexpr auto kWriteDateLike = MessageText("write_date_like", "write it as YYYY-MM-DD, for example 2026-04-12");
inline constexpr auto kThereAreNone = MessageText("there_are_none", "there are none");
inline constexpr auto kGiveAnOccasion = MessageText("give_an_occasion", "give at least one occasion");
inline constexpr auto kGiveAHistory = MessageText("give_a_history", "give at least one");
inline constexpr auto kDateBeforeLast = MessageText("date_before_last", "its date lies before that of the occasion before it");
inline constexpr auto kPutInTimeOrder = MessageText("put_in_time_order", "put the occasions in time order");
inline constexpr auto kPeriodOutOfOrder = MessageText("period_out_of_order", "its primary period is out of order");
inline constexpr auto kNumberPeriods = MessageText("number_periods", "number the periods 0, 1, 2, ... in time order");
inline constexpr auto kPeriodNotFirst = MessageText("period_not_first", "its primary period is not the first");
inline constexpr auto kStartWith0 = MessageText("start_with_0", "start with 0");
inline constexpr auto kCellIs = MessageText("cell_is", "the cell is {cell}");
inline constexpr auto kWrite1And0 = MessageText("write_1_and_0", "write 1 for caught and 0 for not caught");
inline constexpr auto kWasNeverCaught = MessageText("was_never_caught", "it was never caught");
inline constexpr auto kLeaveOutUncaught = MessageText("leave_out_uncaught", "leave out animals that were not caught");
inline constexpr auto kNotSoManySigns = MessageText("not_so_many_signs", "it is not {count} signs of 0 or 1");
inline constexpr auto kOneSignAnOccasion = MessageText("one_sign_an_occasion", "write one sign for each occasion");

// Histories as CSV.
inline constexpr auto kTextEmpty = MessageText("text_empty", "the text is empty");
inline constexpr auto kGiveHeader = MessageText("give_header", "give a header with 'animal' and the occasions");
inline constexpr auto kTooManyColumns = MessageText("too_many_columns", "there are {columns} columns");
inline constexpr auto kGiveAtMost = MessageText("give_at_most", "give at most {most}; one row an animal, one column an occasion");
inline constexpr auto kColumnNameUnprintable = MessageText("column_name_unprintable", "a column's name holds a sign that cannot be printed");
inline constexpr auto kWriteWithout = MessageText("write_without", "write it without");
inline constexpr auto kColumnStandsTwice = MessageText("column_stands_twice", "column '{column}' stands there twice");
inline constexpr auto kGiveEachColumnAName = MessageText("give_each_column_a_name", "give each column its own name");
inline constexpr auto kNoAnimalColumn = MessageText("no_animal_column", "there is no column 'animal'");
inline constexpr auto kAddAnimalColumn = MessageText("add_animal_column", "add one that names each animal");
inline constexpr auto kNoOccasionColumn = MessageText("no_occasion_column", "there is no occasion column");
inline constexpr auto kHeadAnOccasion = MessageText("head_an_occasion", "head a column with a date such as 2026-04-12, or with 1, 2, ...");
inline constexpr auto kHasCells = MessageText("has_cells", "it has {cells} cells");
inline constexpr auto kHeaderHas = MessageText("header_has", "the header has {cells}");
inline constexpr auto kHeadedDifferently = MessageText("headed_differently", "occasions '{first}' and '{second}' are headed in different ways");
inline constexpr auto kHeadAllAlike = MessageText("head_all_alike", "head all with dates, all with numbers, or all with period.occasion");
inline constexpr auto kOccasionAfter = MessageText("occasion_after", "occasion '{occasion}' stands after '{before}'");
inline constexpr auto kRowTwice = MessageText("row_twice", "row #{row} stands there twice");
inline constexpr auto kKeepOne = MessageText("keep_one", "keep one");
inline constexpr auto kCellIsNoDate = MessageText("cell_is_no_date", "'{cell}' is not a date");
inline constexpr auto kWriteAsYmd = MessageText("write_as_ymd", "write it as YYYY-MM-DD");
inline constexpr auto kCellIsNoNumber = MessageText("cell_is_no_number", "'{cell}' is not a number");
inline constexpr auto kGiveForEachOccasion = MessageText("give_for_each_occasion", "give #{row} for each occasion");
inline constexpr auto kCellIsNoPeriod = MessageText("cell_is_no_period", "period '{cell}' is no number of a period");
inline constexpr auto kWriteWholeFrom0 = MessageText("write_whole_from_0", "write a whole number from 0");
inline constexpr auto kUnsettledIsNoCount = MessageText("unsettled_is_no_count", "#unsettled is no number of captures");
inline constexpr auto kWrite0OrWhole = MessageText("write_0_or_whole", "write 0 or a whole number");
inline constexpr auto kPeriodAfter = MessageText("period_after", "period {period} comes after period {before}");
inline constexpr auto kAnimalNameUnprintable = MessageText("animal_name_unprintable", "the animal's name holds a sign that cannot be printed");
inline constexpr auto kAnimalWithoutName = MessageText("animal_without_name", "the animal has no name");
inline constexpr auto kFillInAnimal = MessageText("fill_in_animal", "fill in column 'animal'");
inline constexpr auto kColumnHolds = MessageText("column_holds", "column '{column}' holds '{cell}'");
inline constexpr auto kWrite1Or0 = MessageText("write_1_or_0", "write 1 for caught, 0 for not caught");
inline constexpr auto kAnimalNeverCaught = MessageText("animal_never_caught", "animal '{animal}' was never caught");
inline constexpr auto kLeaveItOut = MessageText("leave_it_out", "leave it out");
inline constexpr auto kWrite1IfLost = MessageText("write_1_if_lost", "write 1 if it was not released, else 0");
inline constexpr auto kWriteNumberLike = MessageText("write_number_like", "write a number with a point, as 60.5, or leave the cell empty");

// Shared by models that are fitted apart.
inline constexpr auto kNothingCanBeDrawn = MessageText("nothing_can_be_drawn", "nothing can be drawn from it");
inline constexpr auto kNotDrawnFrom = MessageText("not_drawn_from", "it is not one that is drawn from");
inline constexpr auto kUseFullLikelihood = MessageText("use_full_likelihood", "use a closed model with full likelihood");
inline constexpr auto kNoFiniteEstimate = MessageText("no_finite_estimate", "it has no finite estimate");
inline constexpr auto kEachRecognised = MessageText("each_recognised", "No animal lost its identity: each recapture was recognised as one.");
inline constexpr auto kLinearInAnimals = MessageText("linear_in_animals", "it is linear in {covariate} of the animals");
inline constexpr auto kGiveEachPlaceAName = MessageText("give_each_place_a_name", "give each place its own name");
inline constexpr auto kThereAre = MessageText("there_are", "there are {count}");
inline constexpr auto kAtMost = MessageText("at_most", "give at most {most}");
inline constexpr auto kPlaceNotOfCapture = MessageText("place_not_of_capture", "its place does not fit its capture");
inline constexpr auto kGiveEachCaptureAPlace = MessageText("give_each_capture_a_place", "give each capture one of the places, and nothing else");

// What an estimate is of, and when.
inline constexpr auto kFromTo = MessageText("from_to", "{first} to {last}");
inline constexpr auto kFromOn = MessageText("from_on", "{first} on");
inline constexpr auto kQuantityNumber = MessageText("quantity_number", "N");
inline constexpr auto kQuantityNumberEver = MessageText("quantity_number_ever", "N ever");
inline constexpr auto kQuantityBirths = MessageText("quantity_births", "births");
inline constexpr auto kQuantityEntry = MessageText("quantity_entry", "entry");
inline constexpr auto kQuantitySurvival = MessageText("quantity_survival", "survival");
inline constexpr auto kQuantityRecapture = MessageText("quantity_recapture", "recapture");
inline constexpr auto kQuantityCapture = MessageText("quantity_capture", "capture");
inline constexpr auto kQuantityGrowthRate = MessageText("quantity_growth_rate", "growth rate");
inline constexpr auto kQuantityMeanGrowth = MessageText("quantity_mean_growth", "mean growth");
inline constexpr auto kQuantityPassing = MessageText("quantity_passing", "passing through");
inline constexpr auto kQuantityMoving = MessageText("quantity_moving", "moving");
inline constexpr auto kQuantityDensity = MessageText("quantity_density", "density");
inline constexpr auto kQuantityYearlyTrend = MessageText("quantity_yearly_trend", "yearly trend");
inline constexpr auto kQuantitySpreadBetweenYears = MessageText("quantity_spread_between_years", "spread between years");
inline constexpr auto kQuantityRecruitment = MessageText("quantity_recruitment", "recruitment");
inline constexpr auto kQuantitySeniority = MessageText("quantity_seniority", "seniority");
inline constexpr auto kQuantityLeaving = MessageText("quantity_leaving", "leaving");
inline constexpr auto kQuantityStayingAway = MessageText("quantity_staying_away", "staying away");
inline constexpr auto kQuantityOther = MessageText("quantity_other", "other");
inline constexpr auto kQuantityAt = MessageText("quantity_at", "{quantity} {index}");
inline constexpr auto kQuantityOf = MessageText("quantity_of", "{quantity}: {levels}");
inline constexpr auto kSlopeOn = MessageText("slope_on", "{quantity}: slope on {about}");
inline constexpr auto kShiftFor = MessageText("shift_for", "{quantity}: shift for {about}");
inline constexpr auto kMovingFromTo = MessageText("moving_from_to", "moving from {from} to {to}");
inline constexpr auto kQuantityWhen = MessageText("quantity_when", "{quantity}, {time}");

// Kinds of interval.
inline constexpr auto kIntervalNoInformation = MessageText("interval_no_information", "no information");
inline constexpr auto kIntervalLogNormal = MessageText("interval_log_normal", "log-normal");
inline constexpr auto kIntervalNormal = MessageText("interval_normal", "normal");
inline constexpr auto kIntervalAveragedTails = MessageText("interval_averaged_tails", "model-averaged tail areas");
inline constexpr auto kIntervalParametricBootstrap = MessageText("interval_parametric_bootstrap", "parametric bootstrap");
inline constexpr auto kIntervalNormalOnLogit = MessageText("interval_normal_on_logit", "normal on the logit scale");
inline constexpr auto kIntervalNormalOnLog = MessageText("interval_normal_on_log", "normal on the log scale");
inline constexpr auto kIntervalExactAllAlike = MessageText("interval_exact_all_alike", "exact, all animals alike");
inline constexpr auto kIntervalExactPoisson = MessageText("interval_exact_poisson", "exact Poisson");
inline constexpr auto kIntervalTOnInverse = MessageText("interval_t_on_inverse", "t on 1/N");
inline constexpr auto kIntervalNormalOnInverse = MessageText("interval_normal_on_inverse", "normal on 1/N");
inline constexpr auto kIntervalExactHypergeometric = MessageText("interval_exact_hypergeometric", "exact hypergeometric");
inline constexpr auto kIntervalWholeRange = MessageText("interval_whole_range", "whole range, at its end");
inline constexpr auto kIntervalProfileLikelihood = MessageText("interval_profile_likelihood", "profile likelihood");
inline constexpr auto kIntervalTOnLogDraws = MessageText("interval_t_on_log_draws", "Student's t on the logarithm, over the draws");
inline constexpr auto kIntervalTOnLogitDraws = MessageText("interval_t_on_logit_draws", "Student's t on the logit scale, over the draws");
inline constexpr auto kIntervalTDraws = MessageText("interval_t_draws", "Student's t, over the draws");
inline constexpr auto kIntervalOverDraws = MessageText("interval_over_draws", "over the draws");
inline constexpr auto kIntervalTOnLog = MessageText("interval_t_on_log", "Student's t on the logarithm");
inline constexpr auto kIntervalWeightedSquares = MessageText("interval_weighted_squares", "where the weighted squares meet chi-square");

// Figures that are no numbers.
inline constexpr auto kNoFigure = MessageText("no_figure", "none");
inline constexpr auto kNoLimit = MessageText("no_limit", "no limit");
inline constexpr auto kNoLowerLimit = MessageText("no_lower_limit", "no lower limit");
inline constexpr auto kInfiniteValue = MessageText("infinite_value", "infinite");

// What a refusal is about.
inline constexpr auto kItemPlacesOfCaptures = MessageText("item_places_of_captures", "the places of captures");
inline constexpr auto kItemCaptureTable = MessageText("item_capture_table", "the capture table");
inline constexpr auto kItemDates = MessageText("item_dates", "the dates");
inline constexpr auto kItemPrimaryPeriods = MessageText("item_primary_periods", "the primary periods");
inline constexpr auto kItemUnsettledCaptures = MessageText("item_unsettled_captures", "the unsettled captures");
inline constexpr auto kItemLossesOnCapture = MessageText("item_losses_on_capture", "the losses on capture");
inline constexpr auto kItemPlaceNamed = MessageText("item_place_named", "place '{name}'");
inline constexpr auto kItemAnimalNamed = MessageText("item_animal_named", "animal '{name}'");
inline constexpr auto kItemBatchCounts = MessageText("item_batch_counts", "batch counts");
inline constexpr auto kItemBootstrapOfModelNamed = MessageText("item_bootstrap_of_model_named", "bootstrap of model '{name}'");
inline constexpr auto kItemCaptureFrequencies = MessageText("item_capture_frequencies", "capture frequencies");
inline constexpr auto kItemCaptureHistories = MessageText("item_capture_histories", "capture histories");
inline constexpr auto kItemCellOf = MessageText("item_cell_of", "animal '{animal}', occasion '{occasion}'");
inline constexpr auto kItemConfidenceLevel = MessageText("item_confidence_level", "confidence level");
inline constexpr auto kItemCovariateNamed = MessageText("item_covariate_named", "covariate '{name}'");
inline constexpr auto kItemDateNamed = MessageText("item_date_named", "date '{name}'");
inline constexpr auto kItemDesignNamed = MessageText("item_design_named", "design '{name}'");
inline constexpr auto kItemGroupByOccasion = MessageText("item_group_by_occasion", "group by occasion");
inline constexpr auto kItemGroupNamed = MessageText("item_group_named", "group '{name}'");
inline constexpr auto kItemGrowth = MessageText("item_growth", "growth");
inline constexpr auto kItemHistoryNamed = MessageText("item_history_named", "history '{name}'");
inline constexpr auto kItemJackknife = MessageText("item_jackknife", "jackknife");
inline constexpr auto kItemJollySeberEstimates = MessageText("item_jolly_seber_estimates", "Jolly-Seber estimates");
inline constexpr auto kItemLine = MessageText("item_line", "line {n}");
inline constexpr auto kItemModelCard = MessageText("item_model_card", "model card");
inline constexpr auto kItemModelNamed = MessageText("item_model_named", "model '{name}'");
inline constexpr auto kItemModels = MessageText("item_models", "models");
inline constexpr auto kItemMovement = MessageText("item_movement", "movement");
inline constexpr auto kItemNights = MessageText("item_nights", "nights");
inline constexpr auto kItemOccasionCovariateNamed = MessageText("item_occasion_covariate_named", "occasion covariate '{name}'");
inline constexpr auto kItemOccasionNamed = MessageText("item_occasion_named", "occasion '{name}'");
inline constexpr auto kItemOccasions = MessageText("item_occasions", "occasions");
inline constexpr auto kItemOpenPopulation = MessageText("item_open_population", "open population");
inline constexpr auto kItemPartOfMovement = MessageText("item_part_of_movement", "movement, {part}");
inline constexpr auto kItemPeriodGap = MessageText("item_period_gap", "period gap");
inline constexpr auto kItemPlaces = MessageText("item_places", "places");
inline constexpr auto kItemRelease = MessageText("item_release", "release {n}");
inline constexpr auto kItemReleaseTable = MessageText("item_release_table", "release table");
inline constexpr auto kItemRemovalCatches = MessageText("item_removal_catches", "removal catches");
inline constexpr auto kItemResponseToCapture = MessageText("item_response_to_capture", "response to capture");
inline constexpr auto kItemRobustDesign = MessageText("item_robust_design", "robust design");
inline constexpr auto kItemSample = MessageText("item_sample", "sample {n}");
inline constexpr auto kItemSampleCoverage = MessageText("item_sample_coverage", "sample coverage");
inline constexpr auto kItemSuperPopulation = MessageText("item_super_population", "super-population");
inline constexpr auto kItemSurvivalAfterTheFirstCapture = MessageText("item_survival_after_the_first_capture", "survival after the first capture");
inline constexpr auto kItemTheHistories = MessageText("item_the_histories", "the histories");
inline constexpr auto kItemTwoSampleCounts = MessageText("item_two_sample_counts", "two-sample counts");
inline constexpr auto kItemTwoSampleEstimate = MessageText("item_two_sample_estimate", "two-sample estimate");

// clang-format on
}  // namespace evet::messages
