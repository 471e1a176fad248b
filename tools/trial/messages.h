// What is said of trials that cannot be made.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kHasNoIdentityPersonConfirmed = MessageText("has_no_identity_person_confirmed", "it has no identity that a person confirmed or a sheet knew, so there is nothing to try the program on");
inline constexpr auto kSettleCapturesWithEvetReview = MessageText("settle_captures_with_evet_review", "settle captures with 'evet review', or give identities known by other means in the sheet's column 'individual'");
inline constexpr auto kAllIsConfirmedIsOne = MessageText("all_is_confirmed_is_one", "all that is confirmed is one individual, and one can be mistaken for nobody");
inline constexpr auto kConfirmAtLeastTwoOne = MessageText("confirm_at_least_two_one", "confirm at least two, one of them on two nights");

// group_words.cpp
inline constexpr auto kGroupSite = MessageText("group_site", "site");
inline constexpr auto kGroupSeason = MessageText("group_season", "season");
inline constexpr auto kGroupObserver = MessageText("group_observer", "observer");
inline constexpr auto kGroupSex = MessageText("group_sex", "sex");
inline constexpr auto kGroupQuality = MessageText("group_quality", "quality");
inline constexpr auto kGroupYearsApart = MessageText("group_years_apart", "years apart");
inline constexpr auto kGroupNotGiven = MessageText("group_not_given", "not given");
inline constexpr auto kGroupAPhotoWithoutRemarks = MessageText("group_a_photo_without_remarks", "a photo without remarks");
inline constexpr auto kGroupRemarksOnEveryPhoto = MessageText("group_remarks_on_every_photo", "remarks on every photo");
inline constexpr auto kGroupNoUsablePhoto = MessageText("group_no_usable_photo", "no usable photo");
inline constexpr auto kGroupSameYear = MessageText("group_same_year", "same year");
inline constexpr auto kGroupOneYear = MessageText("group_one_year", "1 year");
inline constexpr auto kGroupTwoYears = MessageText("group_two_years", "2 years");
inline constexpr auto kGroupThreeYears = MessageText("group_three_years", "3 years or more");
inline constexpr auto kGroupFemale = MessageText("group_female", "female");
inline constexpr auto kGroupMale = MessageText("group_male", "male");
inline constexpr auto kGroupUnknown = MessageText("group_unknown", "unknown");

// trial_claim.cpp
inline constexpr auto kClaimSearches = MessageText("claim_searches", "{mated} searches of {mates} animals that are in the catalogue, {non_mated} searches of {strangers} animals that were left out of it, against {individuals} individuals with {photos} photos.");
inline constexpr auto kClaimNobodyTwice = MessageText("claim_nobody_twice", "No animal was caught on two evenings with a usable photo: nothing can be said of how well an animal is found again.");
inline constexpr auto kClaimOfMissing = MessageText("claim_of_missing", "Of missing an animal: no rate under {share} can be claimed from {animals} animals, however few were missed (3/n).");
inline constexpr auto kClaimOfTaking = MessageText("claim_of_taking", "Of taking a newcomer for a known animal: no rate under {share} can be claimed from {animals} animals (3/n).");
inline constexpr auto kClaimOfFalsePositives = MessageText("claim_of_false_positives", "A false-positive rate of {share} would need {needed} searches without a mate; there are {searches}. The figure given for it is at no false positive.");
inline constexpr auto kClaimOfSize = MessageText("claim_of_size", "The figures hold for a catalogue of about {individuals} individuals: false positives grow with it, FPIR = 1 - (1 - FMR)^N.");

// trial_page.cpp
inline constexpr auto kTileIntervalOf = MessageText("tile_interval_of", "{low}\u2013{high} %, of {all}");
inline constexpr auto kTileFoundFirst = MessageText("tile_found_first", "found first");
inline constexpr auto kTileMissedAt = MessageText("tile_missed_at", "missed at FPIR {share} %");
inline constexpr auto kTileMissedAtNone = MessageText("tile_missed_at_none", "missed at no false positive");
inline constexpr auto kTileBits = MessageText("tile_bits", "bits, Cllr");
inline constexpr auto kTileOfItCalibration = MessageText("tile_of_it_calibration", "{bits} of it calibration");
inline constexpr auto kTileFailedToAcquire = MessageText("tile_failed_to_acquire", "failed to acquire");
inline constexpr auto kFiguresCaption = MessageText("figures_caption", "Figures with 95 % intervals, by resampling individuals whole");
inline constexpr auto kPageFigure = MessageText("page_figure", "Figure");
inline constexpr auto kPageValue = MessageText("page_value", "Value");
inline constexpr auto kPageInterval = MessageText("page_interval", "Interval, %");
inline constexpr auto kPageCounted = MessageText("page_counted", "Counted");
inline constexpr auto kPageFailureToAcquire = MessageText("page_failure_to_acquire", "Failure to acquire, of all captures");
inline constexpr auto kPageRankK = MessageText("page_rank_k", "Rank-{k} identification rate");
inline constexpr auto kPageRankOneOfAll = MessageText("page_rank_one_of_all", "Rank-1, failures to acquire as misses");
inline constexpr auto kPageAdvisedSame = MessageText("page_advised_same", "Advised \u2018same\u2019");
inline constexpr auto kPageAdvisedSameRight = MessageText("page_advised_same_right", "Advised \u2018same\u2019 and right");
inline constexpr auto kPageAdvisedNew = MessageText("page_advised_new", "Advised \u2018new\u2019");
inline constexpr auto kPageAdvisedNewRight = MessageText("page_advised_new_right", "Advised \u2018new\u2019 and right");
inline constexpr auto kPageAdvisedLook = MessageText("page_advised_look", "Advised \u2018look\u2019");
inline constexpr auto kReliabilityCaption = MessageText("reliability_caption", "The best candidate\u2019s probability, and how often it was the animal");
inline constexpr auto kPageStated = MessageText("page_stated", "Stated, on average");
inline constexpr auto kPageRight = MessageText("page_right", "Right");
inline constexpr auto kWhatCllrIs = MessageText("what_cllr_is", "Cllr is 0 bits for likelihood ratios that are always right and sure, 1 for ratios that say nothing. Its discrimination part is what no recalibration could take away (Br\u00fcmmer & du Preez 2006).");
inline constexpr auto kCostPart = MessageText("cost_part", "Part");
inline constexpr auto kCostBits = MessageText("cost_bits", "Bits");
inline constexpr auto kCostInterval = MessageText("cost_interval", "Interval");
inline constexpr auto kCostDiscrimination = MessageText("cost_discrimination", "Discrimination");
inline constexpr auto kCostCalibration = MessageText("cost_calibration", "Calibration");
inline constexpr auto kCostTitle = MessageText("cost_title", "What the likelihood ratios are worth");
inline constexpr auto kCostFromPairs = MessageText("cost_from_pairs", "From {same} same and {different} different pairs.");
inline constexpr auto kGroupsLead = MessageText("groups_lead", "One threshold for all groups. A group marked \u2018few\u2019 has fewer than {few} animals: too few to compare it with another.");
inline constexpr auto kGroupsBy = MessageText("groups_by", "By {what}");
inline constexpr auto kGroupsAnimals = MessageText("groups_animals", "Animals");
inline constexpr auto kGroupsRankOne = MessageText("groups_rank_one", "Rank-1");
inline constexpr auto kGroupsMissed = MessageText("groups_missed", "Missed (FNIR)");
inline constexpr auto kGroupsFalse = MessageText("groups_false", "False (FPIR)");
inline constexpr auto kGroupsFailed = MessageText("groups_failed", "Failed");
inline constexpr auto kGroupsTitle = MessageText("groups_title", "By group");
inline constexpr auto kTrialDoesNotHold = MessageText("trial_does_not_hold", "It does not: the probabilities are too bold here. Look at more captures by eye.");
inline constexpr auto kSuspectsLead = MessageText("suspects_lead", "Strong candidates that are not the animal by the verdicts. Perhaps two individuals are one, or a verdict is mistaken; then these count as errors that are none.");
inline constexpr auto kSuspectIs = MessageText("suspect_is", "Is");
inline constexpr auto kSuspectLooksLike = MessageText("suspect_looks_like", "But looks like");
inline constexpr auto kSuspectProbability = MessageText("suspect_probability", "Probability");
inline constexpr auto kSuspectItsOwn = MessageText("suspect_its_own", "Its own in the catalogue");
inline constexpr auto kSuspectsTitle = MessageText("suspects_title", "Worth a look");
inline constexpr auto kCurvesTitle = MessageText("curves_title", "Curves");
inline constexpr auto kTrialOver = MessageText("trial_over", "Trial");
inline constexpr auto kTrialAbout = MessageText("trial_about", "How well its animals are found again");
inline constexpr auto kTrialAtAGlance = MessageText("trial_at_a_glance", "At a glance");
inline constexpr auto kTrialFigures = MessageText("trial_figures", "Figures");
inline constexpr auto kTermsAfterIso = MessageText("terms_after_iso", "Terms after ISO/IEC 19795-1: rank-k identification rate, false-negative (FNIR) and false-positive (FPIR) identification rate, failure to acquire. The threshold of an FNIR is set by the searches without a mate; its interval has the threshold set anew in every resample. Photographs of one pond say little of another.");

// trial_plots.cpp
inline constexpr auto kPlotRankK = MessageText("plot_rank_k", "Rank-k identification rate");
inline constexpr auto kPlotRankKSays = MessageText("plot_rank_k_says", "How often the animal was among the first k candidates, with 95 % intervals; of searches whose animal was in the catalogue.");
inline constexpr auto kPlotRankKAcross = MessageText("plot_rank_k_across", "rank k");
inline constexpr auto kPlotRankKUp = MessageText("plot_rank_k_up", "searches found within rank k");
inline constexpr auto kPlotDet = MessageText("plot_det", "DET curve");
inline constexpr auto kPlotErrors = MessageText("plot_errors", "Misses against false positives");
inline constexpr auto kPlotDetSays = MessageText("plot_det_says", "False-negative against false-positive identification rate on normal-deviate axes. What was never seen lies on the edge, with a hollow dot.");
inline constexpr auto kPlotErrorsSays = MessageText("plot_errors_says", "False-negative identification rate against false-positive identification rate, with 95 % intervals. A rate of which no error was seen lies on the edge, with a hollow dot.");
inline constexpr auto kPlotFpir = MessageText("plot_fpir", "false-positive identification rate (FPIR)");
inline constexpr auto kPlotFnir = MessageText("plot_fnir", "false-negative identification rate (FNIR)");
inline constexpr auto kPlotReliability = MessageText("plot_reliability", "Reliability");
inline constexpr auto kPlotReliabilitySays = MessageText("plot_reliability_says", "How often the best candidate was the animal, against the probability stated for it, with 95 % intervals. On the dashed line the stated probabilities are right.");
inline constexpr auto kPlotStated = MessageText("plot_stated", "stated probability of the best candidate");
inline constexpr auto kPlotRight = MessageText("plot_right", "share that was right");

// trial_print.cpp
inline constexpr auto kTrialLowToHigh = MessageText("trial_low_to_high", "{low} to {high}");
inline constexpr auto kTrialFigure = MessageText("trial_figure", "figure");
inline constexpr auto kTrialValue = MessageText("trial_value", "value");
inline constexpr auto kTrialInterval = MessageText("trial_interval", "95 % interval");
inline constexpr auto kTrialCounted = MessageText("trial_counted", "counted");
inline constexpr auto kNotMeasured = MessageText("not_measured", "not measured");
inline constexpr auto kTrialFailureToAcquire = MessageText("trial_failure_to_acquire", "failure to acquire, of all captures");
inline constexpr auto kTrialRankK = MessageText("trial_rank_k", "rank-{k} identification rate");
inline constexpr auto kTrialRankOneOfAll = MessageText("trial_rank_one_of_all", "rank-1, failures to acquire as misses");
inline constexpr auto kTrialFnirAt = MessageText("trial_fnir_at", "FNIR at FPIR {share} %");
inline constexpr auto kTrialFnirAtNone = MessageText("trial_fnir_at_none", "FNIR at no false positive (for {share} %)");
inline constexpr auto kTrialPairs = MessageText("trial_pairs", "{same} same, {different} different");
inline constexpr auto kTrialCllr = MessageText("trial_cllr", "Cllr, bits");
inline constexpr auto kTrialDiscrimination = MessageText("trial_discrimination", "its discrimination part");
inline constexpr auto kTrialCalibration = MessageText("trial_calibration", "its calibration part");
inline constexpr auto kTrialAdvisedSame = MessageText("trial_advised_same", "advised 'same'");
inline constexpr auto kTrialAdvisedNew = MessageText("trial_advised_new", "advised 'new'");
inline constexpr auto kTrialOfTheseRight = MessageText("trial_of_these_right", "of these right");
inline constexpr auto kTrialAdvisedLook = MessageText("trial_advised_look", "advised 'look'");
inline constexpr auto kTrialStated = MessageText("trial_stated", "stated probability");
inline constexpr auto kTrialRight = MessageText("trial_right", "right");
inline constexpr auto kTrialReliability = MessageText("trial_reliability", "Reliability: the best candidate's probability, and how often it was the animal");
inline constexpr auto kTrialBy = MessageText("trial_by", "by {what}");
inline constexpr auto kTrialAnimals = MessageText("trial_animals", "animals");
inline constexpr auto kTrialSearched = MessageText("trial_searched", "searched");
inline constexpr auto kTrialRankOne = MessageText("trial_rank_one", "rank-1");
inline constexpr auto kTrialMissed = MessageText("trial_missed", "missed (FNIR)");
inline constexpr auto kTrialFalse = MessageText("trial_false", "false (FPIR)");
inline constexpr auto kTrialFew = MessageText("trial_few", "few");
inline constexpr auto kTrialSearchedMeans = MessageText("trial_searched_means", "Searched: with the animal in the catalogue + without it. One threshold for all groups. 'few': under {few} animals, too few to compare with another group.");
inline constexpr auto kTrialOf = MessageText("trial_of", "Trial of {catalogue}");
inline constexpr auto kTrialClaims = MessageText("trial_claims", "How large a claim these data can bear");
inline constexpr auto kTrialPromises = MessageText("trial_promises", "Does the advice keep its own word?");
inline constexpr auto kTrialHolds = MessageText("trial_holds", "It does, as far as these data can tell.");
inline constexpr auto kTrialDoesNotHoldRefit = MessageText("trial_does_not_hold_refit", "It does not: the probabilities are too bold here. Look at more captures by eye, and see whether --refit helps.");
inline constexpr auto kTrialWorthALookAt = MessageText("trial_worth_a_look_at", "Worth a look: strong candidates that are not the animal by the verdicts");
inline constexpr auto kTrialCapture = MessageText("trial_capture", "capture");
inline constexpr auto kTrialIs = MessageText("trial_is", "is");
inline constexpr auto kTrialLooksLike = MessageText("trial_looks_like", "but looks like");
inline constexpr auto kTrialProbability = MessageText("trial_probability", "probability");
inline constexpr auto kTrialItsOwn = MessageText("trial_its_own", "its own in the catalogue");
inline constexpr auto kTrialItsOwnYes = MessageText("trial_its_own_yes", "yes");
inline constexpr auto kTrialItsOwnLeftOut = MessageText("trial_its_own_left_out", "left out");
inline constexpr auto kTrialPerhapsOne = MessageText("trial_perhaps_one", "Perhaps two individuals are one, or a verdict is mistaken; then these count as errors that are none.");

// trial_refit.cpp
inline constexpr auto kTooFewForCalibration = MessageText("too_few_for_calibration", "only {n} animal is confirmed on two evenings; a calibration of its own needs at least {least}, or chance would choose it", "only {n} animals are confirmed on two evenings; a calibration of its own needs at least {least}, or chance would choose it");
inline constexpr auto kCalibrationDoesNotHelp = MessageText("calibration_does_not_help", "on individuals that it was not learned from it does not certainly help: the cost of the likelihood ratios goes from {before} to {after} bits, a gain of {gain} ({low} to {high})");

// trial_report.cpp
inline constexpr auto kSoManyOf = MessageText("so_many_of", "{count} of {all}");
inline constexpr auto kTheTruthIs = MessageText("the_truth_is", "The truth: {individuals} that a person confirmed or a sheet knew, {twice} of them caught on two evenings or more.");
inline constexpr auto kLeftOutByProgram = MessageText("left_out_by_program", "{n} placed by the program alone");
inline constexpr auto kLeftOutUnsettled = MessageText("left_out_unsettled", "{n} not settled");
inline constexpr auto kLeftOutDisputed = MessageText("left_out_disputed", "{n} in dispute");
inline constexpr auto kCapturesLeftOut = MessageText("captures_left_out", "Captures left out of it: {list}.");
inline constexpr auto kEachIsSearchedAlone = MessageText("each_is_searched_alone", "Each capture is searched alone, against everyone but the captures of its own evening and place, as on the evening it came in: once with its animal in the catalogue, once without.");
inline constexpr auto kNeverAdvised = MessageText("never_advised", "Never advised '{advice}'.");
inline constexpr auto kPromiseKept = MessageText("promise_kept", "Advised '{advice}' {times}, wrong {wrong}; by its own probabilities {expected} should be wrong.");
inline constexpr auto kPromiseNotKept = MessageText("promise_not_kept", "Advised '{advice}' {times}, wrong {wrong}; by its own probabilities {expected} should be wrong: so many more happen by chance once in {trials} trials.");
inline constexpr auto kNoCalibrationOfItsOwn = MessageText("no_calibration_of_its_own", "No calibration of its own: {why}.");
inline constexpr auto kCalibrationLearnedLess = MessageText("calibration_learned_less", "Calibration learned from {individuals}: ratios times {scale} less {shift}. Under cross-validation by individual, {folds} folds, the cost of the likelihood ratios goes from {before} to {after} bits, a gain of {gain} ({low} to {high}).");
inline constexpr auto kCalibrationLearnedPlus = MessageText("calibration_learned_plus", "Calibration learned from {individuals}: ratios times {scale} plus {shift}. Under cross-validation by individual, {folds} folds, the cost of the likelihood ratios goes from {before} to {after} bits, a gain of {gain} ({low} to {high}).");
inline constexpr auto kCalibrationIsAsShipped = MessageText("calibration_is_as_shipped", "Calibration as shipped.");
inline constexpr auto kCalibrationIsOwn = MessageText("calibration_is_own", "The catalogue's own calibration is in use (ratios times {scale}, {shift}). It was learned from pairs like these, so its figures here flatter it; the cross-validated ones are in its ledger entry.");

// clang-format on
}  // namespace evet::messages
