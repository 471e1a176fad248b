// What a report of estimates says in plain words, in its tables and on its drawings.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

// The answer in a sentence or two.
inline constexpr auto kNoAnswer = MessageText("no_answer", "There is no answer.");
inline constexpr auto kNoFigureToQuote = MessageText("no_figure_to_quote", "The data give no figure to quote: {why}.");
inline constexpr auto kAboutAnimals = MessageText("about_animals", "About {value} animals, likely {limits}.");
inline constexpr auto kAtLeastAnimals = MessageText("at_least_animals", "At least {least} animals; the data set no upper limit.");
inline constexpr auto kAboutEver = MessageText("about_ever", "About {value} animals were there at some time, likely {limits}.");
inline constexpr auto kAtLeastEver = MessageText("at_least_ever", "At least {least} animals were there at some time; the data set no upper limit.");
inline constexpr auto kAboutThen = MessageText("about_then", "About {value} animals were there on {when}, likely {limits}.");
inline constexpr auto kAtLeastThen = MessageText("at_least_then", "At least {least} animals were there on {when}; the data set no upper limit.");
inline constexpr auto kAboutLevel = MessageText("about_level", "about {value} {level}, likely {limits}");
inline constexpr auto kAtLeastLevel = MessageText("at_least_level", "at least {least} {level}; the data set no upper limit");
inline constexpr auto kByGroup = MessageText("by_group", "By {group}: {levels}.");
inline constexpr auto kLimits = MessageText("limits", "{lower} to {upper}");
inline constexpr auto kLimitsOpen = MessageText("limits_open", "{lower} or more, without an upper limit");
inline constexpr auto kOccasionNumber = MessageText("occasion_number", "occasion {number}");
inline constexpr auto kOf100Animals = MessageText("of_100_animals", "Of 100 animals about {value} live on and stay {per}, likely {lower} to {upper}.");
inline constexpr auto kFromPeriodToNext = MessageText("from_period_to_next", "from one period to the next");
inline constexpr auto kFromOccasionToNext = MessageText("from_occasion_to_next", "from one occasion to the next");
inline constexpr auto kPerUnit = MessageText("per_unit", "per {unit}");
inline constexpr auto kPeriodToPeriod = MessageText("period_to_period", "from period to period");
inline constexpr auto kOccasionToOccasion = MessageText("occasion_to_occasion", "from occasion to occasion");
inline constexpr auto kYearToYear = MessageText("year_to_year", "From year to year numbers changed by a factor of {value}, likely {lower} to {upper} with the ups and downs between years in it.");
inline constexpr auto kYearToYearEither = MessageText("year_to_year_either", "From year to year numbers changed by a factor of {value}, likely {lower} to {upper} with the ups and downs between years in it: the data do not tell growth from decline.");
inline constexpr auto kWholeStudy = MessageText("whole_study", "Over the whole study numbers changed by a factor of {value} {per}, likely {lower} to {upper}.");
inline constexpr auto kWholeStudyEither = MessageText("whole_study_either", "Over the whole study numbers changed by a factor of {value} {per}, likely {lower} to {upper}: the data do not tell growth from decline.");

// The report as text.
inline constexpr auto kNoInterval = MessageText("no_interval", "no interval");
inline constexpr auto kIntervalSpan = MessageText("interval_span", "{lower} to {upper}");
inline constexpr auto kColumnModel = MessageText("column_model", "model");
inline constexpr auto kColumnParameters = MessageText("column_parameters", "parameters");
inline constexpr auto kColumnDifference = MessageText("column_difference", "difference");
inline constexpr auto kColumnWeight = MessageText("column_weight", "weight");
inline constexpr auto kColumnInterval = MessageText("column_interval", "{level} % interval");
inline constexpr auto kColumnEstimate = MessageText("column_estimate", "estimate");
inline constexpr auto kColumnKind = MessageText("column_kind", "kind of interval");
inline constexpr auto kColumnOfQuantity = MessageText("column_of_quantity", "quantity");
inline constexpr auto kColumnEstimator = MessageText("column_estimator", "estimator");
inline constexpr auto kNotAveragedFor = MessageText("not_averaged_for", "{model}: not averaged, for {why}.");
inline constexpr auto kModelsOf = MessageText("models_of", "Models ({family})");
inline constexpr auto kTheSameThroughout = MessageText("the_same_throughout", "{quantity}, the same throughout");
inline constexpr auto kWhyNotGiven = MessageText("why_not_given", "{quantity}: {why}.");
inline constexpr auto kAnswerTitle = MessageText("answer_title", "Answer");
inline constexpr auto kMindTitle = MessageText("mind_title", "Mind");
inline constexpr auto kBesideModels = MessageText("beside_models", "Beside the models");
inline constexpr auto kTestsTitle = MessageText("tests_title", "Tests of assumptions");
inline constexpr auto kNestedTitle = MessageText("nested_title", "Smaller models against larger ones");
inline constexpr auto kHoldsIfTitle = MessageText("holds_if_title", "This holds if");
inline constexpr auto kPerTime = MessageText("per_time", "Survival and growth are per {unit}, for the occasions lie from {shortest} to {longest} days apart.");
inline constexpr auto kComesToAYear = MessageText("comes_to_a_year", "A constant {quantity} of {value} per {unit}, kept up all year, comes to {year} a year ({lower} to {upper}).");
inline constexpr auto kDataAndDesign = MessageText("data_and_design", "{animals}, {captures}, {occasions}; {design} design");
inline constexpr auto kTestResult = MessageText("test_result", "{test}: {result}, p {p}. {says}");
inline constexpr auto kTestWords = MessageText("test_words", "{test}: {says}");
inline constexpr auto kChiSquare = MessageText("chi_square", "chi-square {statistic}, {freedom} d.f.");
inline constexpr auto kNormalStatistic = MessageText("normal_statistic", "z = {statistic}");
inline constexpr auto kOverdispersionLine = MessageText("overdispersion_line", "Overdispersion: pooled {pooled}, by bootstrap {bootstrap}, used {used}. {says}");
inline constexpr auto kNestedResult = MessageText("nested_result", "\"{smaller}\" in \"{larger}\": {result}, p {p}. {says}");
inline constexpr auto kAnimalsCounted = MessageText("animals_counted", "{count} animal", "{count} animals");
inline constexpr auto kCapturesCounted = MessageText("captures_counted", "{count} capture", "{count} captures");
inline constexpr auto kOccasionsCounted = MessageText("occasions_counted", "{count} occasion", "{count} occasions");

// Drawings: titles, what they show, axes.
inline constexpr auto kPlotAbout = MessageText("plot_about", "Estimates with {level} intervals; an arrow marks an interval without end on the drawing.");
inline constexpr auto kPlotAboutModels = MessageText("plot_about_models", "Estimates of the number by each model with {level} intervals, the answer last; an arrow marks an interval without end on the drawing.");
inline constexpr auto kPlotOfLevel = MessageText("plot_of_level", "{title}: {levels}");
inline constexpr auto kPlotByGroup = MessageText("plot_by_group", "{title}, by group");
inline constexpr auto kPlotByModel = MessageText("plot_by_model", "Number of animals by model");
inline constexpr auto kPlotAnswer = MessageText("plot_answer", "answer");
inline constexpr auto kPlotProfile = MessageText("plot_profile", "Profile of {parameter}");
inline constexpr auto kPlotProfileAbout = MessageText("plot_profile_about", "Twice the fall of the log-likelihood from its summit against {parameter} in the model: {model}. Where the curve lies below the dashed line is the interval.");
inline constexpr auto kPlotLimit = MessageText("plot_limit", "{level} limit");
inline constexpr auto kAxisTwiceTheFall = MessageText("axis_twice_the_fall", "twice the fall");
inline constexpr auto kAxisAnimals = MessageText("axis_animals", "animals");
inline constexpr auto kAxisOccasion = MessageText("axis_occasion", "occasion");
inline constexpr auto kAxisResidual = MessageText("axis_residual", "residual");
inline constexpr auto kAxisTimesCaught = MessageText("axis_times_caught", "times caught");
inline constexpr auto kAxisLetGoNextCaught = MessageText("axis_let_go_next_caught", "let go - next caught");
inline constexpr auto kAxisChanceOfCapture = MessageText("axis_chance_of_capture", "chance of capture");
inline constexpr auto kAxisChanceOfRecapture = MessageText("axis_chance_of_recapture", "chance of recapture");
inline constexpr auto kAxisPer = MessageText("axis_per", "{quantity} per {unit}");
inline constexpr auto kResidualsAbout = MessageText("residuals_about", "{what} under the model: {model}. Beyond the dashed lines at -2 and 2 the bars are filled: more than chance allows.");
inline constexpr auto kResidualsByOccasion = MessageText("residuals_by_occasion", "Residuals by occasion");
inline constexpr auto kResidualsByTimes = MessageText("residuals_by_times", "Residuals by times caught");
inline constexpr auto kResidualsOfRecaptures = MessageText("residuals_of_recaptures", "Residuals of recaptures");
inline constexpr auto kCaughtLessExpected = MessageText("caught_less_expected", "Animals caught less those expected, over the root of those expected,");
inline constexpr auto kTimesLessExpected = MessageText("times_less_expected", "Animals caught so many times less those expected, over the root of those expected,");
inline constexpr auto kCellsLessExpected = MessageText("cells_less_expected", "Animals let go on one occasion and next caught on another, less those expected, over the root of those expected,");
inline constexpr auto kMarkedLessExpected = MessageText("marked_less_expected", "Marked animals caught on an occasion, less those expected, over the root of those expected,");
inline constexpr auto kPlotCapture = MessageText("plot_capture", "Chance of capture by occasion");
inline constexpr auto kPlotNumber = MessageText("plot_number", "Number of animals by occasion");
inline constexpr auto kPlotSurvival = MessageText("plot_survival", "Survival to the next occasion");
inline constexpr auto kPlotRecapture = MessageText("plot_recapture", "Chance of recapture by occasion");
inline constexpr auto kPlotGrowth = MessageText("plot_growth", "Growth rate to the next occasion");
inline constexpr auto kPlotMoving = MessageText("plot_moving", "Chance of moving to another place");
inline constexpr auto kPlotMovingAbout = MessageText("plot_moving_about", "The chance that an animal that survives an interval has moved by its end, with {level} intervals; an arrow marks an interval without end on the drawing.");
inline constexpr auto kAxisFromAndTo = MessageText("axis_from_and_to", "from and to");
inline constexpr auto kAxisChanceOfMoving = MessageText("axis_chance_of_moving", "chance of moving");
inline constexpr auto kAnyOtherPlace = MessageText("any_other_place", "any other");

// clang-format on
}  // namespace evet::messages
