// What is said of reports that cannot be made.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kHoldsNoCaptureYet = MessageText("holds_no_capture_yet", "it holds no capture yet");
inline constexpr auto kTakeNightInWithEvet = MessageText("take_night_in_with_evet", "take a night in with 'evet intake'");
inline constexpr auto kNothingWasWorkedThereThen = MessageText("nothing_was_worked_there_then", "nothing was worked there then, as far as the sheets say");
inline constexpr auto kNewestNightIs = MessageText("newest_night_is", "the newest night is {night}");
inline constexpr auto kSeveralPlacesWereWorkedThen = MessageText("several_places_were_worked_then", "several places were worked then");
inline constexpr auto kNameOneWithSite = MessageText("name_one_with_site", "name one with --site: {list}");
inline constexpr auto kIsNotProbability = MessageText("is_not_probability", "{p} is not a probability");
inline constexpr auto kRankNightAgain = MessageText("rank_night_again", "rank the night again");
inline constexpr auto kCapturesAreToldOfBut = MessageText("captures_are_told_of_but", "{told} captures are told of, but the sheet has {captures_on_sheet}");
inline constexpr auto kEachCaptureOfSheetBelongs = MessageText("each_capture_of_sheet_belongs", "each capture of the sheet belongs in exactly one list");

// captures.cpp
inline constexpr auto kReasonGiven = MessageText("reason_given", "Reason: {reason}");
inline constexpr auto kMindThis = MessageText("mind_this", "Mind:");
inline constexpr auto kAltOfStrip = MessageText("alt_of_strip", "Straightened belly, head up, of {whose}, photo {photo}, night of {night}");
inline constexpr auto kGrownSince = MessageText("grown_since", "({change} mm since)");
inline constexpr auto kMatchedSpotsHead = MessageText("matched_spots_head", "Matched spots");
inline constexpr auto kFirstCaught = MessageText("first_caught", "First caught");
inline constexpr auto kLastCaught = MessageText("last_caught", "Last caught");
inline constexpr auto kCaughtBefore = MessageText("caught_before", "Caught before");
inline constexpr auto kAnimalHead = MessageText("animal_head", "Animal");
inline constexpr auto kLengthHead = MessageText("length_head", "Length");
inline constexpr auto kTrapHead = MessageText("trap_head", "Trap");
inline constexpr auto kThisNight = MessageText("this_night", "This night");
inline constexpr auto kNightBefore = MessageText("night_before", "Before");
inline constexpr auto kInTrap = MessageText("in_trap", "trap {trap}");
inline constexpr auto kMatchedSpots = MessageText("matched_spots", "{n} matched spot", "{n} matched spots");
inline constexpr auto kCaptureTitled = MessageText("capture_titled", "Capture {name}");
inline constexpr auto kNoneOfTheseButNew = MessageText("none_of_these_but_new", "None of these but a new animal:");
inline constexpr auto kCaughtAgain = MessageText("caught_again", "Caught again");
inline constexpr auto kCaughtAgainLead = MessageText("caught_again_lead", "Each belly is laid straight with the head up: this night on the left, an earlier night on the right. Rings of one number mark the same spot. Hatched grey was not plainly seen.");
inline constexpr auto kNewToTheCatalogue = MessageText("new_to_the_catalogue", "New to the catalogue");
inline constexpr auto kNewToTheCatalogueLead = MessageText("new_to_the_catalogue_lead", "The figure is the probability that the animal is none of those already in the catalogue.");
inline constexpr auto kStillToBeLookedAt = MessageText("still_to_be_looked_at", "Still to be looked at");
inline constexpr auto kStillToBeLookedAtLead = MessageText("still_to_be_looked_at_lead", "Not settled: the photos alone leave a doubt that a person has to resolve. What a look gains most on comes first; candidates stand in order, the likeliest first.");
inline constexpr auto kNoPhotoOfThese = MessageText("no_photo_of_these", "No photo of {captures} could be used. These animals count as caught but not as recognised.");
inline constexpr auto kPhotosNotUsed = MessageText("photos_not_used", "Photos that could not be used");
inline constexpr auto kPhotoHead = MessageText("photo_head", "Photo");
inline constexpr auto kCaptureHead = MessageText("capture_head", "Capture");
inline constexpr auto kWhyAndWhatHelps = MessageText("why_and_what_helps", "Why, and what helps");
inline constexpr auto kRowsThatWereRefused = MessageText("rows_that_were_refused", "Rows of the sheet that were refused");
inline constexpr auto kWhereHead = MessageText("where_head", "Where");
inline constexpr auto kWrongAndRight = MessageText("wrong_and_right", "What is wrong, and what would be right");
inline constexpr auto kCouldNotBeUsed = MessageText("could_not_be_used", "Could not be used");
inline constexpr auto kCouldNotBeUsedLead = MessageText("could_not_be_used_lead", "Photos that fail are named, so that they can be taken again before release.");

// choose_night.cpp

// discovery_plot.cpp
inline constexpr auto kAltOfDiscovery = MessageText("alt_of_discovery", "Discovery curve: {animals} different animals after {captures}. The table below gives every night.");
inline constexpr auto kCapturesSoFar = MessageText("captures_so_far", "captures so far");
inline constexpr auto kDifferentAnimals = MessageText("different_animals", "different animals");
inline constexpr auto kEveryCaptureNew = MessageText("every_capture_new", "every capture a new animal");
inline constexpr auto kDiscoveryDot = MessageText("discovery_dot", "{night}: {captures} captures, {animals} animals");
inline constexpr auto kDiscoveryEnd = MessageText("discovery_end", "{animals} animals");

// estimates.cpp
inline constexpr auto kIntervalIsNone = MessageText("interval_is_none", "none");
inline constexpr auto kFigureToFigure = MessageText("figure_to_figure", "{lower} to {upper}");
inline constexpr auto kEstimatesCaption = MessageText("estimates_caption", "Estimates");
inline constexpr auto kIdentitiesTaken = MessageText("identities_taken", "Identities taken");
inline constexpr auto kEstimateHead = MessageText("estimate_head", "Estimate");
inline constexpr auto kStandardErrorHead = MessageText("standard_error_head", "Standard error");
inline constexpr auto kIntervalHead = MessageText("interval_head", "Interval");
inline constexpr auto kKindOfInterval = MessageText("kind_of_interval", "Kind of interval");
inline constexpr auto kAsIfCertain = MessageText("as_if_certain", "as if certain");
inline constexpr auto kWithTheirDoubt = MessageText("with_their_doubt", "with their doubt");
inline constexpr auto kMindList = MessageText("mind_list", "Mind");
inline constexpr auto kThisHoldsIf = MessageText("this_holds_if", "This holds if");
inline constexpr auto kMethodIs = MessageText("method_is", "Method: {source}");
inline constexpr auto kDiscoveryCurve = MessageText("discovery_curve", "Discovery curve");
inline constexpr auto kDiscoveryCurveSays = MessageText("discovery_curve_says", "Each dot is a night. The flatter the curve, the more of the pond\u2019s animals are known.");
inline constexpr auto kSameAsTable = MessageText("same_as_table", "The same as a table");
inline constexpr auto kDiscoveryCaption = MessageText("discovery_caption", "Captures and different animals so far");
inline constexpr auto kNightHead = MessageText("night_head", "Night");
inline constexpr auto kCapturesHead = MessageText("captures_head", "Captures");
inline constexpr auto kAnimalsHead = MessageText("animals_head", "Animals");
inline constexpr auto kNoEstimateWhy = MessageText("no_estimate_why", "No estimate: {why}");
inline constexpr auto kHowManyThereMayBe = MessageText("how_many_there_may_be", "How many there may be");

// fill_growth.cpp
inline constexpr auto kNoModelFitted = MessageText("no_model_fitted", "No model");
inline constexpr auto kModelAndWhat = MessageText("model_and_what", "{model}: {what}");
inline constexpr auto kAverageOverClosed = MessageText("average_over_closed", "Average over closed models, each by its Akaike weight");
inline constexpr auto kOneNightAlone = MessageText("one_night_alone", "One night alone gives no estimate: it takes animals caught on one night and looked for on another.");
inline constexpr auto kLargeNewtsAt = MessageText("large_newts_at", "Large newts at {place}, {first} to {last}");

// fill_head.cpp
inline constexpr auto kTreeRootOfLedger = MessageText("tree_root_of_ledger", "Tree root of the ledger (evet audit --grown-from)");
inline constexpr auto kPhotosExaminedBy = MessageText("photos_examined_by", "Photos examined by");
inline constexpr auto kHowCosts = MessageText("how_costs", "Costs");
inline constexpr auto kHowCalibration = MessageText("how_calibration", "Calibration");
inline constexpr auto kCalibrationOwn = MessageText("calibration_own", "this catalogue's own, of {date}, learned from {individuals}");
inline constexpr auto kCalibrationOfOtherWeights = MessageText("calibration_of_other_weights", "as shipped; this catalogue's own was learned with other weights of the matching model");
inline constexpr auto kCalibrationAsShipped = MessageText("calibration_as_shipped", "as shipped");

// fill_report.cpp
inline constexpr auto kOutcomeNew = MessageText("outcome_new", "{individual}, new");
inline constexpr auto kOutcomeAgain = MessageText("outcome_again", "{individual}, caught again");
inline constexpr auto kOutcomeClosed = MessageText("outcome_closed", "closed: {as}");
inline constexpr auto kOutcomeNotSettled = MessageText("outcome_not_settled", "not settled");
inline constexpr auto kOutcomeNoUsablePhoto = MessageText("outcome_no_usable_photo", "no usable photo");
inline constexpr auto kOutcomeInDispute = MessageText("outcome_in_dispute", "{outcome}; in dispute");
inline constexpr auto kCaptureInDispute = MessageText("capture_in_dispute", "In dispute: verdicts about this capture contradict each other.");

// fill_strips.cpp
inline constexpr auto kStripOf = MessageText("strip_of", "strip of {photo}");

// for_public.cpp
inline constexpr auto kAPerson = MessageText("a_person", "a person");
inline constexpr auto kWithheld = MessageText("withheld", "(withheld)");
inline constexpr auto kPhotoNumbered = MessageText("photo_numbered", "photo {number}");
inline constexpr auto kInTheOtherVersion = MessageText("in_the_other_version", "in the version for the authority");
inline constexpr auto kLargeNewtsHere = MessageText("large_newts_here", "Large newts at this place, in this year's nights up to this one");
inline constexpr auto kWhyStandsElsewhere = MessageText("why_stands_elsewhere", "why stands in the version for the authority.");

// frame.cpp
inline constexpr auto kTileAgain = MessageText("tile_again", "caught again");
inline constexpr auto kTileAgainSays = MessageText("tile_again_says", "matched to a known animal");
inline constexpr auto kTileNew = MessageText("tile_new", "new");
inline constexpr auto kTileNewSays = MessageText("tile_new_says", "not in the catalogue before");
inline constexpr auto kTileLook = MessageText("tile_look", "to look at");
inline constexpr auto kTileLookSays = MessageText("tile_look_says", "a person has yet to decide");
inline constexpr auto kTileUnusable = MessageText("tile_unusable", "unusable");
inline constexpr auto kTileUnusableSays = MessageText("tile_unusable_says", "no photo shows the belly well enough");
inline constexpr auto kSourceOfCalibration = MessageText("source_of_calibration", "Cost of likelihood ratios, by which the calibration is held to account: Br\u00fcmmer & du Preez (2006), Computer Speech & Language 20: 230\u2013275.");
inline constexpr auto kSourceOfWords = MessageText("source_of_words", "Words for probabilities: Mastrandrea et al. (2010), Guidance Note for Lead Authors of the IPCC Fifth Assessment Report on Consistent Treatment of Uncertainties.");
inline constexpr auto kSourceOfSets = MessageText("source_of_sets", "Estimates over several sets of identities: Rubin (1987), Multiple Imputation for Nonresponse in Surveys.");
inline constexpr auto kSourceOfCoarsePlaces = MessageText("source_of_coarse_places", "Coarse places: Chapman (2020), Current Best Practices for Generalizing Sensitive Species Occurrence Data, GBIF Secretariat, doi 10.15468/doc-5jp4-5g10.");
inline constexpr auto kSourceOfHashes = MessageText("source_of_hashes", "The ledger's hashes: SHA-256, FIPS 180-4, over canonical JSON, RFC 8785.");
inline constexpr auto kSourcesOfNumbers = MessageText("sources_of_numbers", "Numbers of animals: the source of each estimator stands under its figure.");
inline constexpr auto kNotPublished = MessageText("not_published", "not published");
inline constexpr auto kHeadSite = MessageText("head_site", "Site");
inline constexpr auto kHeadPond = MessageText("head_pond", "Pond");
inline constexpr auto kHeadCatalogue = MessageText("head_catalogue", "Catalogue");
inline constexpr auto kHeadPublishedPlace = MessageText("head_published_place", "Place as it may be published");
inline constexpr auto kHeadPlace = MessageText("head_place", "Place");
inline constexpr auto kOneObserver = MessageText("one_observer", "Observer");
inline constexpr auto kSeveralObservers = MessageText("several_observers", "Observers");
inline constexpr auto kLedgerHead = MessageText("ledger_head", "Ledger head");
inline constexpr auto kForTheAuthority = MessageText("for_the_authority", "For the licensing authority.");
inline constexpr auto kPublicVersion = MessageText("public_version", "Public version.");
inline constexpr auto kNamesTheExactPlace = MessageText("names_the_exact_place", "It names the exact place and the licence holder: not for publication.");
inline constexpr auto kPlaceIsToldCoarsely = MessageText("place_is_told_coarsely", "The place is told coarsely; names that could give it away, and those of people, are left out.");
inline constexpr auto kNightReport = MessageText("night_report", "Night report");
inline constexpr auto kAPondWithProtectedNewts = MessageText("a_pond_with_protected_newts", "A pond with protected newts");
inline constexpr auto kNightOf = MessageText("night_of", "Night of {night}");
inline constexpr auto kThereAreNoPhotos = MessageText("there_are_no_photos", "There are no photos.");
inline constexpr auto kOfPhotosNotUsed = MessageText("of_photos_not_used", "Of {photos}, {failed} could not be used.");
inline constexpr auto kAllPhotosUsed = MessageText("all_photos_used", "Its photo could be used.", "All {n} photos could be used.");
inline constexpr auto kSumIsCapturesOnSheet = MessageText("sum_is_captures_on_sheet", "{sum} = {captures} on the sheet{sheet}.");
inline constexpr auto kNothingCaughtThisNight = MessageText("nothing_caught_this_night", "Nothing was caught on this night.");
inline constexpr auto kRowsRefused = MessageText("rows_refused", "{n} row was of the sheet refused and left out.", "{n} rows were of the sheet refused and left out.");
inline constexpr auto kNightAtAGlance = MessageText("night_at_a_glance", "The night at a glance");
inline constexpr auto kCautionLicence = MessageText("caution_licence", "The licence and local rules come first. Photography of protected species is for licensed handlers only; nobody is ever asked to handle an animal for this.");
inline constexpr auto kCautionTimeInHand = MessageText("caution_time_in_hand", "Keep the time in hand as short as can be, with wet hands or clean gloves, in the shade. Photos taken through the floor of a clear tray serve as well.");
inline constexpr auto kCautionDisinfect = MessageText("caution_disinfect", "Disinfect kit, boots and trays between ponds: amphibian diseases travel with them.");
inline constexpr auto kCautionNotAlone = MessageText("caution_not_alone", "Work beside water at night is not done alone.");
inline constexpr auto kCautionPlaces = MessageText("caution_places", "Exact places of protected animals are not published. Pass on the public version of this report, which names none, and add none to it.");
inline constexpr auto kCautionWhoDecides = MessageText("caution_who_decides", "The program gives evidence. The licensed person decides.");
inline constexpr auto kCautions = MessageText("cautions", "Cautions");
inline constexpr auto kHowFiguresWereMade = MessageText("how_figures_were_made", "How the figures were made");
inline constexpr auto kHowIdentitiesFollow = MessageText("how_identities_follow", "Each photo was decoded, the belly found and straightened, and its pattern of dark spots compared with those of the animals in the catalogue. The likeness of two patterns is turned into a likelihood ratio learned from pairs known to be the same or different, and with the share of recaptures to be expected into a probability over all known animals and \u201cnew\u201d. Identities follow from the verdicts in the ledger; nothing in it is ever overwritten.");
inline constexpr auto kWordsForProbabilities = MessageText("words_for_probabilities", "Words for probabilities: virtually certain from 99 %, very likely from 90 %, likely from 66 %, about as likely as not from 33 %, unlikely from 10 %, very unlikely from 1 %, exceptionally unlikely below (Mastrandrea et al. 2010).");
inline constexpr auto kSourcesOfTheMethods = MessageText("sources_of_the_methods", "Sources of the methods");
inline constexpr auto kStateOfTheCatalogue = MessageText("state_of_the_catalogue", "State of the catalogue");
inline constexpr auto kStateWhat = MessageText("state_what", "What");
inline constexpr auto kStateWhich = MessageText("state_which", "Which");
inline constexpr auto kLedgerEntries = MessageText("ledger_entries", "Ledger entries");
inline constexpr auto kStateProgram = MessageText("state_program", "Program");
inline constexpr auto kStateMade = MessageText("state_made", "Made");

// html.cpp
inline constexpr auto kVirtuallyCertain = MessageText("virtually_certain", "virtually certain");
inline constexpr auto kVeryLikely = MessageText("very_likely", "very likely");
inline constexpr auto kIsLikely = MessageText("is_likely", "likely");
inline constexpr auto kAboutAsLikelyAsNot = MessageText("about_as_likely_as_not", "about as likely as not");
inline constexpr auto kUnlikely = MessageText("unlikely", "unlikely");
inline constexpr auto kVeryUnlikely = MessageText("very_unlikely", "very unlikely");
inline constexpr auto kExceptionallyUnlikely = MessageText("exceptionally_unlikely", "exceptionally unlikely");
inline constexpr auto kNotDefined = MessageText("not_defined", "not defined");
inline constexpr auto kNotBounded = MessageText("not_bounded", "not bounded");
inline constexpr auto kInJanuary = MessageText("in_january", "{day} January {year}");
inline constexpr auto kInFebruary = MessageText("in_february", "{day} February {year}");
inline constexpr auto kInMarch = MessageText("in_march", "{day} March {year}");
inline constexpr auto kInApril = MessageText("in_april", "{day} April {year}");
inline constexpr auto kInMay = MessageText("in_may", "{day} May {year}");
inline constexpr auto kInJune = MessageText("in_june", "{day} June {year}");
inline constexpr auto kInJuly = MessageText("in_july", "{day} July {year}");
inline constexpr auto kInAugust = MessageText("in_august", "{day} August {year}");
inline constexpr auto kInSeptember = MessageText("in_september", "{day} September {year}");
inline constexpr auto kInOctober = MessageText("in_october", "{day} October {year}");
inline constexpr auto kInNovember = MessageText("in_november", "{day} November {year}");
inline constexpr auto kInDecember = MessageText("in_december", "{day} December {year}");

// night_page.cpp
inline constexpr auto kReportOf = MessageText("report_of", "report of {night}");
inline constexpr auto kTitleForAuthority = MessageText("title_for_authority", "Night report: {place}, {night}");
inline constexpr auto kTitleForPublic = MessageText("title_for_public", "Night report: public version, {night}");
inline constexpr auto kReportMade = MessageText("report_made", "Made {when} by {program} from {entries} ledger entries, head {head}.");

// night_tables.cpp
inline constexpr auto kNotWrittenDown = MessageText("not_written_down", "not written down");
inline constexpr auto kAirDegrees = MessageText("air_degrees", "air {degrees} \u00b0C");
inline constexpr auto kWaterDegrees = MessageText("water_degrees", "water {degrees} \u00b0C");
inline constexpr auto kPointsSeeTable = MessageText("points_see_table", "{points} points: see the table of captures");
inline constexpr auto kReleasedYes = MessageText("released_yes", "yes");
inline constexpr auto kReleasedNo = MessageText("released_no", "no");
inline constexpr auto kSvlHead = MessageText("svl_head", "SVL, mm");
inline constexpr auto kTotalHead = MessageText("total_head", "Total, mm");
inline constexpr auto kMassHead = MessageText("mass_head", "Mass, g");
inline constexpr auto kReleasedHead = MessageText("released_head", "Released");
inline constexpr auto kOutcomeHead = MessageText("outcome_head", "Outcome");
inline constexpr auto kIdentifiedBy = MessageText("identified_by", "Identified by");
inline constexpr auto kLicenceHead = MessageText("licence_head", "Licence");
inline constexpr auto kNotesHead = MessageText("notes_head", "Notes");
inline constexpr auto kCapturesFromTo = MessageText("captures_from_to", "Captures {first} to {last} of {all}");
inline constexpr auto kLicenceNumbers = MessageText("licence_numbers", "Licence numbers");
inline constexpr auto kExactPlace = MessageText("exact_place", "Exact place");
inline constexpr auto kHolderStandsElsewhere = MessageText("holder_stands_elsewhere", "holder, number and observers stand in the version for the authority");
inline constexpr auto kWhatWasDone = MessageText("what_was_done", "What was done");
inline constexpr auto kWhatWasDoneCaption = MessageText("what_was_done_caption", "Method, effort, weather, licence");
inline constexpr auto kNothingWasCaught = MessageText("nothing_was_caught", "Nothing was caught: the place was worked, and this night counts as one without a catch.");
inline constexpr auto kEveryCapture = MessageText("every_capture", "Every capture");
inline constexpr auto kTheNight = MessageText("the_night", "the night");
inline constexpr auto kTakenBackSince = MessageText("taken_back_since", "(taken back since)");
inline constexpr auto kNoOverrides = MessageText("no_overrides", "None: nothing was recorded against what the program had to say.");
inline constexpr auto kRecordedAlthough = MessageText("recorded_although", "Recorded although something spoke against it");
inline constexpr auto kWhatSpokeAgainst = MessageText("what_spoke_against", "What spoke against it");
inline constexpr auto kReasonGivenHead = MessageText("reason_given_head", "Reason given");
inline constexpr auto kByAndOn = MessageText("by_and_on", "By, on");
inline constexpr auto kDeclaredOverrides = MessageText("declared_overrides", "Declared overrides");
inline constexpr auto kSignature = MessageText("signature", "Signature");
inline constexpr auto kWhatIsSigned = MessageText("what_is_signed", "The captures in this report were made and handled under the licence named, and the report is complete to the best of my knowledge.");
inline constexpr auto kPlaceAndDate = MessageText("place_and_date", "Place and date");

// page_head.cpp
inline constexpr auto kPageOfPages = MessageText("page_of_pages", "page {page} of {pages}");

// picture.cpp
inline constexpr auto kNoPictureKept = MessageText("no_picture_kept", "no picture kept");
inline constexpr auto kSomeSpotsNumbered = MessageText("some_spots_numbered", "{drawn} of {all} matched spots are numbered, evenly along the body.");

// settled_by.cpp
inline constexpr auto kTheProgram = MessageText("the_program", "the program");
inline constexpr auto kTheSheet = MessageText("the_sheet", "the sheet");
inline constexpr auto kKnownByOtherMeans = MessageText("known_by_other_means", "Known by other means: the sheet names it {individual}.");
inline constexpr auto kSameByProgram = MessageText("same_by_program", "Same, by the program on {date}; not yet read by a person.");
inline constexpr auto kNewByProgram = MessageText("new_by_program", "New, by the program on {date}; not yet read by a person.");
inline constexpr auto kSameBy = MessageText("same_by", "Same, by {who} on {date}.");
inline constexpr auto kNewBy = MessageText("new_by", "New, by {who} on {date}.");

// strip_catalogue.cpp
inline constexpr auto kNightToNight = MessageText("night_to_night", "{first} to {last}");
inline constexpr auto kAlsoNamed = MessageText("also_named", "also {names}");
inline constexpr auto kAltOfStripOf = MessageText("alt_of_strip_of", "Straightened belly, head up, of {whose}");
inline constexpr auto kCatalogueOfStrips = MessageText("catalogue_of_strips", "Catalogue of strips");
inline constexpr auto kIndividualsOver = MessageText("individuals_over", "Individuals");
inline constexpr auto kCatalogueOfStripsLead = MessageText("catalogue_of_strips_lead", "Each belly is laid straight with the head up, from the newest photo that can be matched. Like patterns lie side by side; no place is named. Likeness here is a first look: who is who follows from verdicts alone.");
inline constexpr auto kStripsMade = MessageText("strips_made", "Made {when} by {program}, ledger head {head}.");

// clang-format on
}  // namespace evet::messages
