// What the commands refuse, beside what the libraries below them do.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kAlreadyThere = MessageText("already_there", "is there already");
inline constexpr auto kNameANewFile = MessageText("name_a_new_file", "name a new file");
inline constexpr auto kNobodyNamed = MessageText("nobody_named", "nobody is named");
inline constexpr auto kSayWhoSpeaks = MessageText("say_who_speaks", "say who speaks, as in --by KM");
inline constexpr auto kHelpShowsExample = MessageText("help_shows_example", "'{command} --help' shows an example");
inline constexpr auto kCannotBeWritten = MessageText("cannot_be_written", "it cannot be written");
inline constexpr auto kIsTheDiskFull = MessageText("is_the_disk_full", "is the disk full?");
inline constexpr auto kMemoryRanOut = MessageText("memory_ran_out", "memory ran out; nothing acknowledged is lost; try --threads 1");
inline constexpr auto kIsNoDate = MessageText("is_no_date", "{text} is not a date");

// Estimates.
inline constexpr auto kEmptyInput = MessageText("empty_input", "the file is empty (0 bytes)");
inline constexpr auto kWriteItAgain = MessageText("write_it_again", "write it again and name it here");
inline constexpr auto kIsNotJson = MessageText("is_not_json", "it is not JSON (byte {byte})");
inline constexpr auto kSeeModelsReadme = MessageText("see_models_readme", "see models/README.md for an example");
inline constexpr auto kModelNotKnown = MessageText("model_not_known", "it is not known");
inline constexpr auto kModelOfOtherDesign = MessageText("model_of_other_design", "it is for a population that is {of}, not {design}");
inline constexpr auto kUseModels = MessageText("use_models", "use {models}");
inline constexpr auto kNothingToEstimate = MessageText("nothing_to_estimate", "there is nothing to estimate from");
inline constexpr auto kTwoSources = MessageText("two_sources", "there are two sources");
inline constexpr auto kCatalogueOrCsv = MessageText("catalogue_or_csv", "name a catalogue, or --csv FILE");
inline constexpr auto kPlaceOfCatalogueOnly = MessageText("place_of_catalogue_only", "place and time can be chosen from a catalogue only");
inline constexpr auto kLeavePlaceOut = MessageText("leave_place_out", "leave --site, --pond, --from, --to, --stage and --nights out");

// Nights with their effort.
inline constexpr auto kFileLine = MessageText("file_line", "{file}, line {line}");
inline constexpr auto kNightsColumnMissing = MessageText("nights_column_missing", "the column {column} is missing");
inline constexpr auto kNameNightAndEffort = MessageText("name_night_and_effort", "name the columns night and effort");
inline constexpr auto kNightIsNoDate = MessageText("night_is_no_date", "night {night} is not a date");
inline constexpr auto kEffortIsNoNumber = MessageText("effort_is_no_number", "effort {effort} is not a number of 0 or more");
inline constexpr auto kWriteEffort = MessageText("write_effort", "write trap nights, hours or metres as a plain number");
inline constexpr auto kNightTwice = MessageText("night_twice", "night {night} is there twice");
inline constexpr auto kNameEachNightOnce = MessageText("name_each_night_once", "name each night once");
inline constexpr auto kNamePondAndArea = MessageText("name_pond_and_area", "name the columns pond and area_m2");
inline constexpr auto kAreaIsNoNumber = MessageText("area_is_no_number", "area {area} is not a number above 0");
inline constexpr auto kWriteArea = MessageText("write_area", "write square metres as a plain number");
inline constexpr auto kPondTwiceOrUnnamed = MessageText("pond_twice_or_unnamed", "pond {pond} is there twice, or has no name");
inline constexpr auto kNameEachPondOnce = MessageText("name_each_pond_once", "name each pond once");

// Inspecting a photo.
inline constexpr auto kIsNoPoint = MessageText("is_no_point", "'{text}' is not a point");
inline constexpr auto kWritePoints = MessageText("write_points", "write pixels as X,Y, as in --midline 810,402 800,610 795,840");
inline constexpr auto kPictureNotHere = MessageText("picture_not_here", "this picture is not in the catalogue");
inline constexpr auto kTakeItInFirst = MessageText("take_it_in_first", "take it in first with 'evet intake'");
inline constexpr auto kNoMidline = MessageText("no_midline", "there is no midline to keep");
inline constexpr auto kGiveMidline = MessageText("give_midline", "give it with --midline");

// A trial.
inline constexpr auto kForgetOrRefit = MessageText("forget_or_refit", "it takes back what --refit would store");
inline constexpr auto kGiveOneOfThem = MessageText("give_one_of_them", "give one of them");
inline constexpr auto kNoCalibrationToForget = MessageText("no_calibration_to_forget", "it has no calibration of its own to take back");
inline constexpr auto kAsShipped = MessageText("as_shipped", "as shipped it is already");

// Heads seen before.
inline constexpr auto kListOfHeadsTooLarge = MessageText("list_of_heads_too_large", "it is no list of heads: it is larger than 10 MB");
inline constexpr auto kNoHeadHash = MessageText("no_head_hash", "it does not begin with a head hash");
inline constexpr auto kNoTreeRoot = MessageText("no_tree_root", "what follows the number of entries is no tree root");
inline constexpr auto kHeadLines = MessageText("head_lines", "each line is 64 digits (0-9, a-f), then when it was seen, how many entries there were, and their tree root");
inline constexpr auto kCatalogueHasNoCaptureOf = MessageText("catalogue_has_no_capture_of", "the catalogue has no capture of it");
inline constexpr auto kTakeNightInFirstWith = MessageText("take_night_in_first_with", "take a night in first with 'evet intake'");
inline constexpr auto kLatestNightsAre = MessageText("latest_nights_are", "the latest nights are {nights}");
inline constexpr auto kNoCostsAreNamed = MessageText("no_costs_are_named", "no costs are named");
inline constexpr auto kSayWhichWithCosts = MessageText("say_which_with_costs", "say which with --costs");
inline constexpr auto kIsNeitherIndividualNorCapture = MessageText("is_neither_individual_nor_capture", "it is neither an individual nor a capture");
inline constexpr auto kEvetIndividualsListsWhoIs = MessageText("evet_individuals_lists_who_is", "'evet individuals' lists who is known");
inline constexpr auto kIsNotInLedger = MessageText("is_not_in_ledger", "it is not in the ledger");
inline constexpr auto kGiveIdEvetVerdictPrinted = MessageText("give_id_evet_verdict_printed", "give the id that 'evet verdict' printed");
inline constexpr auto kIsNotVerdict = MessageText("is_not_verdict", "it is a {kind}, not a verdict");
inline constexpr auto kUndoTakesBackVerdictsClosings = MessageText("undo_takes_back_verdicts_closings", "undo takes back verdicts, closings and nights without a catch, and undoing an undo puts them back");
inline constexpr auto kIsComparedWithItself = MessageText("is_compared_with_itself", "it is compared with itself");
inline constexpr auto kNameAnotherCaptureOrIndividual = MessageText("name_another_capture_or_individual", "name another capture or individual");
inline constexpr auto kIsSaidBeSameAs = MessageText("is_said_be_same_as", "it is said to be the same as itself");
inline constexpr auto kNameAnotherCapture = MessageText("name_another_capture", "name another capture");

// Of figures.
inline constexpr auto kTakenForCertain = MessageText("taken_for_certain", "Every settled identity was taken for certain, as asked.");
inline constexpr auto kStripsAreOfEveryone = MessageText("strips_are_of_everyone", "it is of everyone, as it stands now");
inline constexpr auto kLeaveIndividualOut = MessageText("leave_individual_out", "leave INDIVIDUAL and --as-of out");
inline constexpr auto kIsMissing = MessageText("is_missing", "it is missing");
inline constexpr auto kSayAnimals = MessageText("say_animals", "say how many there may be, or name a catalogue");
inline constexpr auto kSayChance = MessageText("say_chance", "say it, as in --chance 0.2, or name a catalogue");
inline constexpr auto kSomethingIsThereAlready = MessageText("something_is_there_already", "something is there already");
inline constexpr auto kNameUnusedFolder = MessageText("name_unused_folder", "name a folder that is empty or not there");
inline constexpr auto kNameNewFileOrTakeAway = MessageText("name_new_file_or_take_away", "name a new file, or take that one away");

// Verdicts.
inline constexpr auto kIsNoAnswer = MessageText("is_no_answer", "it is no answer");
inline constexpr auto kAnswersAre = MessageText("answers_are", "say same, different, new or cannot-tell; or no-animal, not-identifiable or same-capture");
inline constexpr auto kNameSameCapture = MessageText("name_same_capture", "name the capture that it is the same as");
inline constexpr auto kNameWhatItIsComparedWith = MessageText("name_what_it_is_compared_with", "name the individual or the capture that it is compared with");
inline constexpr auto kAnswerStandsAlone = MessageText("answer_stands_alone", "'{answer}' stands alone");
inline constexpr auto kLeaveOtherOut = MessageText("leave_other_out", "leave it out");
inline constexpr auto kLeaveItOutOrLabel = MessageText("leave_it_out_or_label", "leave it out, or say --label {label}");
inline constexpr auto kUndoStandsAlone = MessageText("undo_stands_alone", "it stands alone");
inline constexpr auto kLeaveCaptureAndAnswerOut = MessageText("leave_capture_and_answer_out", "leave CAPTURE and ANSWER out");
inline constexpr auto kNameCaptureThenAnswer = MessageText("name_capture_then_answer", "name the capture, then the answer");
inline constexpr auto kLookAgainOrSayWhy = MessageText("look_again_or_say_why", "look at the photos again with 'evet review'; if it is so all the same, say why with --in-spite \"WHY\"");
inline constexpr auto kLookWhetherItIsTheOne = MessageText("look_whether_it_is_the_one", "look whether it is the one you mean; if it is, say why they are to be one with --in-spite \"WHY\"");
inline constexpr auto kIsNoHash = MessageText("is_no_hash", "'{hash}' is no hash");
inline constexpr auto kGiveDigitsAsPrinted = MessageText("give_digits_as_printed", "give the 64 digits (0-9, a-f) as printed");
inline constexpr auto kLedgerBeginsOtherwise = MessageText("ledger_begins_otherwise", "the ledger does not begin with the {entries} entries of this tree root");
inline constexpr auto kLookWhoseReport = MessageText("look_whose_report", "look whether it is of a report on this very folder, and every digit is right");

// audit_command.cpp
inline constexpr auto kRecordedInSpite = MessageText("recorded_in_spite", "Recorded in spite of what spoke against it, {n} time:", "Recorded in spite of what spoke against it, {n} times:");
inline constexpr auto kOverruledLine = MessageText("overruled_line", "{date}, {who}: {sentence}. Reason: {reason}");
inline constexpr auto kOverruledLineNoLonger = MessageText("overruled_line_no_longer", "{date}, {who}: {sentence}. Reason: {reason} (no longer counts)");
inline constexpr auto kNoTrial = MessageText("no_trial", "no trial");
inline constexpr auto kRateWithInterval = MessageText("rate_with_interval", "{errors} of {trials} (95 % interval {low} to {high})");
inline constexpr auto kReadersAgreed = MessageText("readers_agreed", "Readers {first} and {second} agreed on {agreed} of {n} case", "Readers {first} and {second} agreed on {agreed} of {n} cases");
inline constexpr auto kReadersKappa = MessageText("readers_kappa", "{agreement}; Cohen's kappa {kappa} (95 % interval {low} to {high}).");
inline constexpr auto kPlantedCases = MessageText("planted_cases", "Planted cases, reader {reader}: called two animals one in {false_match}; missed that it was one animal in {false_non_match}.");
inline constexpr auto kRepaired = MessageText("repaired", "Repaired: {entries} in a new database. The old one is {database}.");
inline constexpr auto kEntries = MessageText("entries", "{n} entry", "{n} entries");
inline constexpr auto kLeftOutOfIt = MessageText("left_out_of_it", "Left out: {what}");
inline constexpr auto kPlacesUnread = MessageText("places_unread", "{n} place of the old database cannot be read: merge a backup that has those entries.", "{n} places of the old database cannot be read: merge a backup that has those entries.");
inline constexpr auto kSignedBy = MessageText("signed_by", "Signed by {who} with the key {key}: {entries} since {date}.");
inline constexpr auto kNotSignedSince = MessageText("not_signed_since", "{n} entry in the name of {who} since then is not signed.", "{n} entries in the name of {who} since then are not signed.");
inline constexpr auto kNotSignedInAll = MessageText("not_signed_in_all", "Not signed in all: {entries}.");
inline constexpr auto kAuditRead = MessageText("audit_read", "Read: {entries} of {devices}, {photos}.");
inline constexpr auto kDevices = MessageText("devices", "{n} device", "{n} devices");
inline constexpr auto kPhotosNeverHere = MessageText("photos_never_here", "{n} photo came by a merge without its file, and nothing of that was ever here: merge a copy that has them. First: {first}.", "{n} photos came by a merge without their files, and nothing of that was ever here: merge a copy that has them. First: {first}.");
inline constexpr auto kForkIsKept = MessageText("fork_is_kept", "{item}: {what}; all of them are kept and vouched for since.");
inline constexpr auto kEntrySaysNothing = MessageText("entry_says_nothing", "Entry {entry} is as it was written and says nothing: {why}.");
inline constexpr auto kStrayFiles = MessageText("stray_files", "{n} file in photos/ that no entry speaks of: an intake was cut short; run it again, or leave them.", "{n} files in photos/ that no entry speaks of: an intake was cut short; run it again, or leave them.");
inline constexpr auto kHeadsWitnessed = MessageText("heads_witnessed", "All {n} head witnessed before is part of this ledger.", "All {n} heads witnessed before are part of this ledger.");
inline constexpr auto kOldHeadIsPart = MessageText("old_head_is_part", "The old head is part of this ledger: {entries} stood then, {added} were added since.");
inline constexpr auto kLedgerBeginsWith = MessageText("ledger_begins_with", "The ledger begins with the entries of the root {root},\nas these hashes show to whoever has both roots (RFC 6962, 2.1.2; 'evet proof'):");
inline constexpr auto kAllHolds = MessageText("all_holds", "All holds.");
inline constexpr auto kDoesNotHold = MessageText("does_not_hold", "It does not hold: {n} finding, above.", "It does not hold: {n} findings, above.");
inline constexpr auto kLedgerHeadIs = MessageText("ledger_head_is", "Ledger head: {head}");
inline constexpr auto kTreeRootIs = MessageText("tree_root_is", "Tree root: {root}");
inline constexpr auto kHelpAuditAgainst = MessageText("help_audit_against", "A head hash printed earlier: is it part of today's ledger?");
inline constexpr auto kHelpAuditGrownFrom = MessageText("help_audit_grown_from", "Entries and tree root printed earlier: does the ledger still begin with them, in their\norder? With the hashes by which others can see it");
inline constexpr auto kHelpAuditNoPhotos = MessageText("help_audit_no_photos", "Only see that the photos are there; do not read them");
inline constexpr auto kHelpAuditWitness = MessageText("help_audit_witness", "A file of heads seen before, kept elsewhere: is each still part of the ledger? Where all\nholds, today's is added");
inline constexpr auto kHelpAuditRepair = MessageText("help_audit_repair", "First put every entry that can still be read into a new database; the old one stays");
inline constexpr auto kAuditDoes = MessageText("audit_does", "Checks everything a catalogue holds: every entry's hash and its place in its device's chain, the\ntables against the ledger, every photo's bytes; and how far the readers agree. Changes nothing,\nunless --repair is said.\nExit code 1 when something does not hold. What shows that nobody wrote the whole folder anew is a\nhead hash that left the house on a report: --against.");
inline constexpr auto kReadingPhotos = MessageText("reading_photos", "reading photos");

// card_command.cpp
inline constexpr auto kCardDoes = MessageText("card_does", "Writes the scale card as a PDF to print: lying beside the animal it gives the belly's length in millimetres.");
inline constexpr auto kHelpCardTheFile = MessageText("help_card_the_file", "Where the PDF goes; must not be there yet");
inline constexpr auto kWroteCard = MessageText("wrote_card", "Wrote {file}. Print it at 100 %, and check with a ruler that its 50 mm are 50 mm: a photo cannot show that they are not.");

// command.cpp
inline constexpr auto kPlaceAddress = MessageText("place_address", "ADDRESS");
inline constexpr auto kPlaceCode = MessageText("place_code", "CODE");
inline constexpr auto kPlaceDate = MessageText("place_date", "DATE");
inline constexpr auto kPlaceDays = MessageText("place_days", "DAYS");
inline constexpr auto kPlaceEntry = MessageText("place_entry", "ENTRY");
inline constexpr auto kPlaceFile = MessageText("place_file", "FILE");
inline constexpr auto kPlaceFolder = MessageText("place_folder", "FOLDER");
inline constexpr auto kPlaceList = MessageText("place_list", "LIST");
inline constexpr auto kPlaceName = MessageText("place_name", "NAME");
inline constexpr auto kPlaceNumber = MessageText("place_number", "NUMBER");
inline constexpr auto kPlaceSeconds = MessageText("place_seconds", "SECONDS");
inline constexpr auto kPlaceShare = MessageText("place_share", "SHARE");
inline constexpr auto kPlaceWords = MessageText("place_words", "WORDS");
inline constexpr auto kPlaceNeeded = MessageText("place_needed", "(needed)");
inline constexpr auto kHelpUsage = MessageText("help_usage", "Usage");
inline constexpr auto kHelpOptionsPlace = MessageText("help_options_place", "OPTIONS");
inline constexpr auto kHelpPositionals = MessageText("help_positionals", "Positionals");
inline constexpr auto kHelpExcludes = MessageText("help_excludes", "Excludes");
inline constexpr auto kHelpExample = MessageText("help_example", "Example:");
inline constexpr auto kHelpOptions = MessageText("help_options", "Options");
inline constexpr auto kHelpHelp = MessageText("help_help", "Print this help message and exit");
inline constexpr auto kHelpCommandJson = MessageText("help_command_json", "One JSON document on standard output instead of text");
inline constexpr auto kHelpCommandTheCatalogue = MessageText("help_command_the_catalogue", "Folder of the catalogue");
inline constexpr auto kHelpCommandBy = MessageText("help_command_by", "Who says so: an observer code, kept in the ledger (else $EVET_BY, else the login name)");
inline constexpr auto kHelpCommandThreads = MessageText("help_command_threads", "Photos worked on at a time (else one a processor, four at most)");

// commands.cpp
inline constexpr auto kHelpWhatItIs = MessageText("help_what_it_is", "{program}: matches belly photographs of large newts to a catalogue of known individuals.\n\nUsage: evet COMMAND ... ; 'evet COMMAND --help' shows its options and an example.\nWithout a command the page opens in the browser, with the catalogues of this machine.");
inline constexpr auto kHelpANight = MessageText("help_a_night", "A night, from photos to a report:");
inline constexpr auto kHelpNightAccept = MessageText("help_night_accept", "(what the program is sure of)");
inline constexpr auto kHelpNightReview = MessageText("help_night_review", "(the rest, by eye)");
inline constexpr auto kHelpExitCodes = MessageText("help_exit_codes", "Exit codes: 0 done; 1 done, and what was checked does not hold; 2 wrong usage;\n3 bad input, nothing half-taken; 4 the disk or the database failed, nothing lost.");
inline constexpr auto kHelpWhoDecides = MessageText("help_who_decides", "The tool gives evidence; the licensed person decides. Photography of protected species is\nfor licensed handlers only; licence conditions and local rules come first.");
inline constexpr auto kStandardOutput = MessageText("standard_output", "standard output");
inline constexpr auto kCommandNew = MessageText("command_new", "Make an empty catalogue");
inline constexpr auto kCommandSheet = MessageText("command_sheet", "Write a night sheet to fill in, blank or from a folder of photos");
inline constexpr auto kCommandIntake = MessageText("command_intake", "Take in a night: its sheet and its photos");
inline constexpr auto kCommandNight = MessageText("command_night", "Write down what was done on a night: effort, method, weather, licence holder");
inline constexpr auto kCommandRank = MessageText("command_rank", "Compare captures not yet settled with the known individuals");
inline constexpr auto kCommandReview = MessageText("command_review", "Open the page on which a night is settled by eye");
inline constexpr auto kCommandVerdict = MessageText("command_verdict", "Record that two captures are the same animal, or not, or a new one");
inline constexpr auto kCommandIndividuals = MessageText("command_individuals", "List the known individuals, or show one's life");
inline constexpr auto kCommandHistories = MessageText("command_histories", "Write capture histories as CSV");
inline constexpr auto kCommandEstimate = MessageText("command_estimate", "Estimate numbers from capture histories");
inline constexpr auto kCommandPlan = MessageText("command_plan", "Plan how many nights and traps a wanted precision takes");
inline constexpr auto kCommandReport = MessageText("command_report", "Write a night's report, one page that prints");
inline constexpr auto kCommandShare = MessageText("command_share", "Write tables and a Darwin Core archive that give no place away");
inline constexpr auto kCommandMerge = MessageText("command_merge", "Take in everything another catalogue has");
inline constexpr auto kCommandAudit = MessageText("command_audit", "Check that everything a catalogue holds stands up");
inline constexpr auto kCommandProof = MessageText("command_proof", "Show, without the catalogue, that its ledger only grew between two reports");
inline constexpr auto kCommandTrial = MessageText("command_trial", "Try the program on animals whose identity is known");
inline constexpr auto kCommandInspect = MessageText("command_inspect", "Draw every stage from a photo to its pattern");
inline constexpr auto kCommandCard = MessageText("command_card", "Write a scale card to print and lay beside the animal");
inline constexpr auto kNoCommandIsNamed = MessageText("no_command_is_named", "no command is named");
inline constexpr auto kIsNoCommand = MessageText("is_no_command", "{text} is no command");
inline constexpr auto kDidYouMeanCommand = MessageText("did_you_mean_command", "did you mean '{command}'?");
inline constexpr auto kHelpListsThem = MessageText("help_lists_them", "'evet --help' lists them");

// estimate_command.cpp
inline constexpr auto kHelpEstimateCsv = MessageText("help_estimate_csv", "Capture histories, as 'evet histories' writes them, instead of a catalogue");
inline constexpr auto kHelpEstimateDesign = MessageText("help_estimate_design", "auto, closed (no births, deaths or moves), open or robust");
inline constexpr auto kHelpEstimateModel = MessageText("help_estimate_model", "Only these models (a wrong name lists those there are)");
inline constexpr auto kHelpEstimateCard = MessageText("help_estimate_card", "A model card: JSON that states design and models");
inline constexpr auto kHelpEstimatePlots = MessageText("help_estimate_plots", "Folder for the plots, as SVG");
inline constexpr auto kHelpEstimateTables = MessageText("help_estimate_tables", "Folder for the tables, as CSV: one row an estimate, a model, a test");
inline constexpr auto kHelpEstimateLevel = MessageText("help_estimate_level", "Of every interval");
inline constexpr auto kHelpEstimateSeed = MessageText("help_estimate_seed", "Of the random starts and draws");
inline constexpr auto kHelpEstimateArea = MessageText("help_estimate_area", "Area of the water that was sampled, for densities");
inline constexpr auto kHelpEstimateAreas = MessageText("help_estimate_areas", "CSV with the columns pond and area_m2: densities by pond, and of all of them together");
inline constexpr auto kHelpEstimateCertain = MessageText("help_estimate_certain", "Take every settled identity for certain; leave out the doubt about them");
inline constexpr auto kDrawnSeeBelow = MessageText("drawn_see_below", "{answer} (Identities of {night} are drawn; see below.)");
inline constexpr auto kAboutTheIdentities = MessageText("about_the_identities", "About the identities");
inline constexpr auto kEstimateDoes = MessageText("estimate_does", "Estimates numbers, survival or growth from a catalogue or from a CSV of capture histories.\nWith no model named, those that suit the data are fitted, and the report says why. Every figure\nhas an interval and its assumptions; identities that are not settled are counted and named.");
inline constexpr auto kWroteFile = MessageText("wrote_file", "Wrote {file}");

// histories_command.cpp
inline constexpr auto kHistoriesDoes = MessageText("histories_does", "Writes who was caught when, as CSV: one row an individual, one column a night, 1 caught, 0 not.");
inline constexpr auto kHelpHistoriesPonds = MessageText("help_histories_ponds", "Write the pond of each capture instead of 1, for movement between ponds");
inline constexpr auto kHelpHistoriesOut = MessageText("help_histories_out", "File to write (else standard output)");
inline constexpr auto kWroteHistories = MessageText("wrote_histories", "Wrote {animals} over {nights} to {file}.");
inline constexpr auto kCountAnimals = MessageText("count_animals", "{n} animal", "{n} animals");
inline constexpr auto kCountNights = MessageText("count_nights", "{n} night", "{n} nights");

// histories_wanted.cpp
inline constexpr auto kHelpHistoriesWantedSite = MessageText("help_histories_wanted_site", "Only this site");
inline constexpr auto kHelpHistoriesWantedPond = MessageText("help_histories_wanted_pond", "Only this pond of it");
inline constexpr auto kHelpHistoriesWantedFrom = MessageText("help_histories_wanted_from", "First night");
inline constexpr auto kHelpHistoriesWantedTo = MessageText("help_histories_wanted_to", "Last night");
inline constexpr auto kHelpHistoriesWantedStage = MessageText("help_histories_wanted_stage", "Only captures of these stages, as in --stage adult,subadult");
inline constexpr auto kHelpHistoriesWantedNights = MessageText("help_histories_wanted_nights", "CSV with the columns night and effort: every night worked, also those without a catch");
inline constexpr auto kHelpHistoriesWantedGap = MessageText("help_histories_wanted_gap", "Nights more than so many days apart begin a new period (for open and robust designs)");

// individuals_command.cpp
inline constexpr auto kHeadIndividual = MessageText("head_individual", "individual");
inline constexpr auto kHeadSex = MessageText("head_sex", "sex");
inline constexpr auto kHeadCaptures = MessageText("head_captures", "captures");
inline constexpr auto kHeadNights = MessageText("head_nights", "nights");
inline constexpr auto kHeadFirst = MessageText("head_first", "first");
inline constexpr auto kHeadLast = MessageText("head_last", "last");
inline constexpr auto kHeadSvl = MessageText("head_svl", "svl mm");
inline constexpr auto kHeadPlaceColumn = MessageText("head_place_column", "place");
inline constexpr auto kHeadRemarks = MessageText("head_remarks", "remarks");
inline constexpr auto kInDispute = MessageText("in_dispute", "in dispute");
inline constexpr auto kNotReleasedOn = MessageText("not_released_on", "not released on {night}");
inline constexpr auto kAlsoCalled = MessageText("also_called", "also called {name}");
inline constexpr auto kSeveralPlaces = MessageText("several_places", "{places} places");
inline constexpr auto kIndividualsInAll = MessageText("individuals_in_all", "{individuals} from {captures}; {open} not settled, {disputes}.");
inline constexpr auto kDisputes = MessageText("disputes", "{n} dispute", "{n} disputes");
inline constexpr auto kHeadNight = MessageText("head_night", "night");
inline constexpr auto kHeadCapture = MessageText("head_capture", "capture");
inline constexpr auto kHeadStage = MessageText("head_stage", "stage");
inline constexpr auto kHeadPhotos = MessageText("head_photos", "photos");
inline constexpr auto kHeadPlacedBy = MessageText("head_placed_by", "placed by");
inline constexpr auto kByProgram = MessageText("by_program", "program");
inline constexpr auto kByPerson = MessageText("by_person", "person");
inline constexpr auto kNotReleased = MessageText("not_released", "not released");
inline constexpr auto kStripsAreIn = MessageText("strips_are_in", "{individuals}, like patterns side by side, in {file}");
inline constexpr auto kIndividualsDoes = MessageText("individuals_does", "Lists the individuals that follow from the verdicts in force, or shows all captures of one. With\n--strips, writes everyone's strip to one HTML page that prints, like patterns side by side; it\nnames no place.");
inline constexpr auto kHelpIndividualsTheIndividual = MessageText("help_individuals_the_individual", "Show this one's captures: its label, an alias or its id");
inline constexpr auto kHelpIndividualsAsOf = MessageText("help_individuals_as_of", "As it stood at the end of this day, or at this moment with offset");
inline constexpr auto kHelpIndividualsStrips = MessageText("help_individuals_strips", "Write a catalogue of strips to this file");

// inspect_command.cpp
inline constexpr auto kInspectDoes = MessageText("inspect_does", "Draws every stage from a photo to its pattern, so that one can see where it went wrong.");
inline constexpr auto kHelpInspectThePhoto = MessageText("help_inspect_the_photo", "A JPEG, PNG, TIFF or HEIC file");
inline constexpr auto kHelpInspectOut = MessageText("help_inspect_out", "Folder for the pictures and quality.json, made if need be");
inline constexpr auto kHelpInspectMidline = MessageText("help_inspect_midline", "Your own midline, throat fold first: points X,Y in pixels of the upright photo");
inline constexpr auto kHelpInspectInto = MessageText("help_inspect_into", "Match this photo of the catalogue along your midline from now on");
inline constexpr auto kPhotoCanBeMatched = MessageText("photo_can_be_matched", "{photo}: can be matched.");
inline constexpr auto kPhotoCannotBeMatched = MessageText("photo_cannot_be_matched", "{photo}: cannot be matched.");
inline constexpr auto kBellyIsLong = MessageText("belly_is_long", "The belly is {length} mm long from throat fold to vent, give or take {error}, by the scale card.");
inline constexpr auto kMidlineKept = MessageText("midline_kept", "Kept in {catalogue} as {entry}.");

// intake_command.cpp
inline constexpr auto kSoManyMore = MessageText("so_many_more", "{more} more");
inline constexpr auto kOnNoRow = MessageText("on_no_row", "{n} photo in {folder} is on no row of the sheet: {names}; if they are of this night, add their rows and run the same command again", "{n} photos in {folder} are on no row of the sheet: {names}; if they are of this night, add their rows and run the same command again");
inline constexpr auto kOfCapture = MessageText("of_capture", "(capture {capture})");
inline constexpr auto kNothingCaughtKnown = MessageText("nothing_caught_known", "Nothing was caught on {night} at {place}: that is in the catalogue already.");
inline constexpr auto kNothingCaughtWritten = MessageText("nothing_caught_written", "Nothing was caught on {night} at {place}: written down as a night that was worked.");
inline constexpr auto kIfThatWasASlip = MessageText("if_that_was_a_slip", "If that was a slip: evet verdict {catalogue} --undo {entry}");
inline constexpr auto kMovedCaptures = MessageText("moved_captures", "Moved {captures} to where the sheet says now: {nights} at {places}.");
inline constexpr auto kNothingNew = MessageText("nothing_new", "Nothing new: all {photos} of {captures} are in the catalogue already.");
inline constexpr auto kTookIn = MessageText("took_in", "Night of {nights} at {places}: took in {captures} with {photos}.", "Nights of {nights} at {places}: took in {captures} with {photos}.");
inline constexpr auto kCapturesMoved = MessageText("captures_moved", "{n} capture moved to where the sheet says now.", "{n} captures moved to where the sheet says now.");
inline constexpr auto kPhotosWereThere = MessageText("photos_were_there", "{n} photo of the sheet was there already.", "{n} photos of the sheet were there already.");
inline constexpr auto kCannotBeMatched = MessageText("cannot_be_matched", "{n} photo cannot be matched:", "{n} photos cannot be matched:");
inline constexpr auto kCouldBeBetter = MessageText("could_be_better", "Could be better:");
inline constexpr auto kNextRank = MessageText("next_rank", "Next: evet rank {catalogue}");
inline constexpr auto kHelpIntakeTheSheet = MessageText("help_intake_the_sheet", "The night sheet, CSV, .xlsx or .ods: one row a photo; needs the columns photo, site, night, licence.\nA night without a catch is a row whose photo is none; an animal that died or was not\nreleased has no in the column released");
inline constexpr auto kHelpIntakeThePhotos = MessageText("help_intake_the_photos", "Folder of the photos (else the sheet's own folder)");
inline constexpr auto kHelpIntakeKeepGoing = MessageText("help_intake_keep_going", "Take the good rows though others are bad; the exit code is 3 all the same");
inline constexpr auto kHelpIntakeMove = MessageText("help_intake_move", "After a sheet with a wrong night or place was taken in, mend it and take it in again\nwith this: its captures move to where it says now (else such rows are refused)");
inline constexpr auto kHelpIntakeInSpite = MessageText("help_intake_in_spite", "Why a place is new although it is spelt nearly as one that is known (else it is refused)");
inline constexpr auto kMendTheseRows = MessageText("mend_these_rows", "mend this row and run the same command again", "mend these rows and run the same command again");
inline constexpr auto kMendTheSheet = MessageText("mend_the_sheet", "mend the sheet and run the same command again");
inline constexpr auto kNothingTakenInOrRest = MessageText("nothing_taken_in_or_rest", "{sheet}: nothing was taken in; {mend}, or take the rest with --keep-going");
inline constexpr auto kNothingTakenIn = MessageText("nothing_taken_in", "{sheet}: nothing was taken in; {mend}");
inline constexpr auto kIntakeDoes = MessageText("intake_does", "Takes in a night: checks the sheet and every photo, examines the photos, and writes them down.\nA bad row is named with its line, and nothing is taken unless --keep-going is given.\nRun it again after an interruption and it carries on; what is there already is not added twice.");

// main.cpp
inline constexpr auto kReadInProgramItself = MessageText("read_in_program_itself", "{why}; pictures and folders from elsewhere are read in the program itself");

// merge_command.cpp
inline constexpr auto kNothingWasNew = MessageText("nothing_was_new", "Nothing was new: the catalogue has it all already.");
inline constexpr auto kCameIn = MessageText("came_in", "Came in: {captures}, {verdicts}, {photos}; {entries} of the ledger in all.");
inline constexpr auto kVerdicts = MessageText("verdicts", "{n} verdict", "{n} verdicts");
inline constexpr auto kTakenInOnBothSides = MessageText("taken_in_on_both_sides", "{n} capture had been taken in on both sides and count once from now on.", "{n} captures had been taken in on both sides and count once from now on.");
inline constexpr auto kNewKeyOfKnown = MessageText("new_key_of_known", "New here: what {who} signed with the key {key}, first on {date}; another key than before, so ask whether it is theirs.");
inline constexpr auto kNewKey = MessageText("new_key", "New here: what {who} signed with the key {key}, first on {date}.");
inline constexpr auto kSetAsideUnreadable = MessageText("set_aside_unreadable", "Set aside, since it cannot be read: entry {entry}: {why}.");
inline constexpr auto kInDisputeAre = MessageText("in_dispute_are", "In dispute: are {one} and {other} one animal? {joined} joined them, {against} stood against it.");
inline constexpr auto kSettleInReview = MessageText("settle_in_review", "Settle it in the review page: evet review {catalogue}");
inline constexpr auto kPhotoIsWholeNowhere = MessageText("photo_is_whole_nowhere", "Photo {photo} is whole in neither catalogue; put it back from a backup.");
inline constexpr auto kMergeDoes = MessageText("merge_does", "Takes everything into CATALOGUE that OTHER has and it lacks: entries and photos. OTHER stays as\nit is. The outcome does not depend on who merges whom; doing it again changes nothing; verdicts\nthat contradict each other become disputes.");
inline constexpr auto kHelpMergeTheOther = MessageText("help_merge_the_other", "Folder of the catalogue to take from");
inline constexpr auto kHelpMergeCheckPhotos = MessageText("help_merge_check_photos", "Read every photo there is already, and put damaged ones back from OTHER");
inline constexpr auto kHelpMergeDaysAhead = MessageText("help_merge_days_ahead", "Take entries of a clock that ran this many days ahead (else 2)");
inline constexpr auto kHelpMergeInSpite = MessageText("help_merge_in_spite", "Why, where the other bears another title and is no copy of this one");
inline constexpr auto kMergingPhotos = MessageText("merging_photos", "merging photos");
inline constexpr auto kTwoCalibrationsMet = MessageText("two_calibrations_met", "Each had a calibration of its own. The later counts, of {date} by {who}; neither knew the other's animals: see whether 'evet trial {catalogue} --refit' does better.");

// new_command.cpp
inline constexpr auto kNewDoes = MessageText("new_does", "Makes an empty catalogue: one folder that can be copied, backed up and opened elsewhere.");
inline constexpr auto kHelpNewTitle = MessageText("help_new_title", "What to call it on reports (else the folder's name)");
inline constexpr auto kMadeCatalogue = MessageText("made_catalogue", "Made the catalogue '{title}' in {folder}.\nNext: evet intake {folder} SHEET.csv PHOTOS");

// night_command.cpp
inline constexpr auto kNightAtPlace = MessageText("night_at_place", "Night of {night} at {place}:");
inline constexpr auto kNightDoes = MessageText("night_does", "Shows, or writes down, what was done at one place on one night beside the captures: how and for\nhow long animals were looked for, the weather, whose licence it was. The report lists it. What is\nwritten down again becomes a new entry of the ledger, and the old one stays; an empty value takes\na field away.");
inline constexpr auto kHelpNightNight = MessageText("help_night_night", "Which night (else the newest)");
inline constexpr auto kHelpNightSite = MessageText("help_night_site", "Which site, where the night has several");
inline constexpr auto kHelpNightPond = MessageText("help_night_pond", "Which pond of it");
inline constexpr auto kHelpNightReason = MessageText("help_night_reason", "Why it is written down anew");
inline constexpr auto kWrittenDownAlready = MessageText("written_down_already", "That was written down already.");
inline constexpr auto kRecordedAs = MessageText("recorded_as", "Recorded as {entry}.");

// plan_command.cpp
inline constexpr auto kTraps = MessageText("traps", "{n} trap", "{n} traps");
inline constexpr auto kPlannedFor = MessageText("planned_for", "Planned for {animals} animals, each caught on a night with a chance of {chance}; {draws} surveys drawn for each row.");
inline constexpr auto kPlannedForTraps = MessageText("planned_for_traps", "Planned for {animals} animals, each caught on a night with a chance of {chance} in {traps}; {draws} surveys drawn for each row.");
inline constexpr auto kPlanNights = MessageText("plan_nights", "nights");
inline constexpr auto kPlanTraps = MessageText("plan_traps", "traps");
inline constexpr auto kPlanChance = MessageText("plan_chance", "chance");
inline constexpr auto kPlanCaptures = MessageText("plan_captures", "captures");
inline constexpr auto kPlanEverCaught = MessageText("plan_ever_caught", "ever caught");
inline constexpr auto kPlanError = MessageText("plan_error", "error");
inline constexpr auto kPlanBias = MessageText("plan_bias", "bias");
inline constexpr auto kPlanIntervalHolds = MessageText("plan_interval_holds", "interval holds");
inline constexpr auto kPlanNoEstimate = MessageText("plan_no_estimate", "no estimate");
inline constexpr auto kPlanLargeSample = MessageText("plan_large_sample", "large sample");
inline constexpr auto kPlanEnough = MessageText("plan_enough", "enough");
inline constexpr auto kPlanSource = MessageText("plan_source", "Source: {source}");
inline constexpr auto kLicenceSaysHowMany = MessageText("licence_says_how_many", "The licence says how many nights and traps may be set; a plan does not.");
inline constexpr auto kHelpPlanTheCatalogue = MessageText("help_plan_the_catalogue", "Take numbers and chance from its nights");
inline constexpr auto kHelpPlanAnimals = MessageText("help_plan_animals", "How many there may be");
inline constexpr auto kHelpPlanChance = MessageText("help_plan_chance", "Of one animal being caught on one night");
inline constexpr auto kHelpPlanNights = MessageText("help_plan_nights", "Numbers of nights to try");
inline constexpr auto kHelpPlanTrapsNow = MessageText("help_plan_traps_now", "Traps that gave that chance");
inline constexpr auto kHelpPlanTraps = MessageText("help_plan_traps", "Numbers of traps to try");
inline constexpr auto kHelpPlanSpread = MessageText("help_plan_spread", "How far animals differ: standard deviation of the chance's logit");
inline constexpr auto kHelpPlanWanted = MessageText("help_plan_wanted", "The error that is wanted");
inline constexpr auto kHelpPlanDraws = MessageText("help_plan_draws", "Surveys drawn for each row");
inline constexpr auto kHelpPlanSeed = MessageText("help_plan_seed", "Of the random numbers");
inline constexpr auto kHelpPlanPlot = MessageText("help_plan_plot", "Write the plot to this SVG file");
inline constexpr auto kHelpPlanSite = MessageText("help_plan_site", "Of the catalogue: this site alone");
inline constexpr auto kHelpPlanPond = MessageText("help_plan_pond", "This pond of it");
inline constexpr auto kHelpPlanFrom = MessageText("help_plan_from", "Its nights from this date");
inline constexpr auto kHelpPlanTo = MessageText("help_plan_to", "and up to this one");
inline constexpr auto kPlanDoes = MessageText("plan_does", "Plans a survey: how many nights, and how many traps, it takes to estimate numbers within a wanted\nerror. Surveys of an assumed pond are drawn and each is estimated as a real one would be. With a\ncatalogue, numbers and the chance of a catch come from its own nights. The error is that of the\nestimate against the truth, root mean square, as a share of the truth.");

// progress.cpp
inline constexpr auto kTimeLeft = MessageText("time_left", "{time} left");

// proof_command.cpp
inline constexpr auto kProofDoes = MessageText("proof_does", "Shows, without the catalogue, that its ledger only grew between two reports: that the later one\nbegins with every entry of the earlier, in their order, none changed, left out or put in between\n(RFC 6962, section 2.1.2). FROM and TO are entries and tree root as reports and audits print them,\nthe hashes are those of 'evet report --grown-from FROM' or 'evet audit --grown-from FROM'.\nExit code 1 when they do not show it.");
inline constexpr auto kHelpProofTheFrom = MessageText("help_proof_the_from", "Entries and tree root on the earlier report");
inline constexpr auto kHelpProofTheTo = MessageText("help_proof_the_to", "Entries and tree root on the later report");
inline constexpr auto kHelpProofTheHash = MessageText("help_proof_the_hash", "The proof, in its order");
inline constexpr auto kProofShown = MessageText("proof_shown", "Shown: the ledger of {later} begins with the {earlier} of the earlier root, in their order, none changed.");
inline constexpr auto kProofNotShown = MessageText("proof_not_shown", "Not shown: these hashes do not lead from the earlier root to the later. A digit is wrong, or the\nledger was changed, or the roots are of two copies of the catalogue.");

// rank_command.cpp
inline constexpr auto kAdviceSame = MessageText("advice_same", "same");
inline constexpr auto kAdviceLook = MessageText("advice_look", "look");
inline constexpr auto kAdviceNew = MessageText("advice_new", "new");
inline constexpr auto kHeadAdvice = MessageText("head_advice", "advice");
inline constexpr auto kHeadLikeliest = MessageText("head_likeliest", "likeliest");
inline constexpr auto kHeadProbability = MessageText("head_probability", "probability");
inline constexpr auto kHeadSpots = MessageText("head_spots", "spots");
inline constexpr auto kHeadNew = MessageText("head_new", "new");
inline constexpr auto kNoPhotoCanBeMatched = MessageText("no_photo_can_be_matched", "(no photo can be matched)");
inline constexpr auto kNobodyToCompareWith = MessageText("nobody_to_compare_with", "(nobody to compare with)");
inline constexpr auto kRuledOutByPeople = MessageText("ruled_out_by_people", "Ruled out by people:");
inline constexpr auto kToLookAtFirst = MessageText("to_look_at_first", "To look at, what a look gains most on first:");
inline constexpr auto kRankedInAll = MessageText("ranked_in_all", "{captures}: {same} caught before, {fresh} new, {look} to be looked at, {unusable} that cannot be matched.");
inline constexpr auto kAcceptedIntoLedger = MessageText("accepted_into_ledger", "Accepted into the ledger: {same} same, {fresh} new. A person's verdict overrides each of them.");
inline constexpr auto kNothingIsRecordedYet = MessageText("nothing_is_recorded_yet", "Nothing is recorded yet. To take the advice 'same' and 'new': evet rank {catalogue} --accept");
inline constexpr auto kSettleWhatIsLeft = MessageText("settle_what_is_left", "To settle what is left: evet verdict {catalogue} CAPTURE same INDIVIDUAL --by CODE");
inline constexpr auto kHelpRankNight = MessageText("help_rank_night", "Only captures of this night (else of all)");
inline constexpr auto kHelpRankAccept = MessageText("help_rank_accept", "Record what the program is sure of");
inline constexpr auto kElseAsKept = MessageText("else_as_kept", "{costs} (else as kept, else 10 and 0.05)");
inline constexpr auto kHelpRankKeepCosts = MessageText("help_rank_keep_costs", "Keep them in the ledger, for the page and the report too");
inline constexpr auto kHelpRankQueue = MessageText("help_rank_queue", "With --json: also in what order to look, why, and at what costs");
inline constexpr auto kComparingCaptures = MessageText("comparing_captures", "comparing captures");
inline constexpr auto kRankDoes = MessageText("rank_does", "Compares every capture not yet settled with the known individuals, and says what to do:\n  same  it is the likeliest individual\n  new   it is none of them\n  look  a person should decide\nNights are taken one after the other, each with what would be new on those before it.\nWith --accept, 'same' and 'new' are recorded as the program's verdicts, and the others are compared\nwith what was new, until nothing more follows: stop it at any moment and run the same line again,\nand it ends the same. A person's verdict overrides them: whoever a person has said is different is\nno candidate, and what a person could not tell is left to people. Where something speaks against\nwhat it is sure of (the same night, the other sex, ...) it says look.\nThe advice is what is expected to cost least, a wrong join being ten times as bad as a missed one\nunless you say otherwise.");
inline constexpr auto kThereIsNoCaptureYet = MessageText("there_is_no_capture_yet", "There is no capture yet: take a night in with 'evet intake'.");
inline constexpr auto kEveryCaptureIsSettled = MessageText("every_capture_is_settled", "Every capture is settled.");

// report_command.cpp
inline constexpr auto kGrownFromTreeRoot = MessageText("grown_from_tree_root", "Grown from the tree root {root} (evet proof)");
inline constexpr auto kRootIsTodays = MessageText("root_is_todays", "it is today's");
inline constexpr auto kReportWritten = MessageText("report_written", "Night of {night}: {captures}, {again} caught before, {fresh} new, {look} to be looked at, {unusable} that cannot be matched.\nThe report is {file}");
inline constexpr auto kReportDoes = MessageText("report_does", "Writes the report of one night at one place: who was caught again with both strips side by\nside, who is new, who needs a look, which photos failed and why, what was done and under whose\nlicence, and the estimate. One HTML page that needs nothing else and prints. The version for the\nlicensing authority names the exact place; the one for everybody tells it coarsely and leaves out\nevery name that could give it away. 'evet night' writes down method, effort, weather and holder.");
inline constexpr auto kHelpReportFor = MessageText("help_report_for", "Who is to have it: authority (exact place, licence holder) or everybody");
inline constexpr auto kHelpReportOut = MessageText("help_report_out", "File to write (else report-NIGHT.html)");
inline constexpr auto kHelpReportGrownFrom = MessageText("help_report_grown_from", "Entries and tree root on an earlier report: print the hashes that show that the ledger\nonly grew since ('evet proof')");

// review_command.cpp
inline constexpr auto kReviewDoes = MessageText("review_does", "Opens the page of a catalogue: nights taken in, captures settled by eye, second readings,\ndisputes, individuals, population and ledger. Opens it in the browser where there is one,\nprints its address, and serves it until Ctrl-C. Every verdict is kept the moment it is given.\nWithout a catalogue the page shows those that this machine knows, and makes new ones.");
inline constexpr auto kHelpReviewTheCatalogue = MessageText("help_review_the_catalogue", "Folder of the catalogue (else the page shows those known here)");
inline constexpr auto kHelpReviewPort = MessageText("help_review_port", "Port to listen on; 0 for any that is free (else 8737, or any if taken)");
inline constexpr auto kHelpReviewReader = MessageText("help_review_reader", "Observer code proposed to whoever opens the page");
inline constexpr auto kHelpReviewSecondShare = MessageText("help_review_second_share", "Share of the settled pairs that are read a second time, 0 to 1");
inline constexpr auto kHelpReviewListen = MessageText("help_review_listen", "Let other machines in by this address of yours; needs --passphrase-file");
inline constexpr auto kHelpReviewPassphraseFile = MessageText("help_review_passphrase_file", "File whose first line opens the page to others, 8 characters at least");
inline constexpr auto kHelpReviewNoBrowser = MessageText("help_review_no_browser", "Print the address alone, and open nothing");

// share_command.cpp
inline constexpr auto kShareDoes = MessageText("share_does", "Writes what others may work with: captures, nights and histories as CSV with a Frictionless data\npackage, and the occurrences as a Darwin Core archive (darwin_core.zip). Places are told by the cell\nof 0.1 degree in which they lie and have codes for names; observers, licences, notes, labels, file\nnames and photos stay behind. --exact adds exact positions, for who may have them.");
inline constexpr auto kHelpShareSpecies = MessageText("help_share_species", "Scientific name of the animals");
inline constexpr auto kHelpShareOut = MessageText("help_share_out", "Folder to write; it must be empty, or not be there");
inline constexpr auto kHelpShareExact = MessageText("help_share_exact", "With exact positions: not for publication");
inline constexpr auto kHelpShareSite = MessageText("help_share_site", "This site alone");
inline constexpr auto kWroteShared = MessageText("wrote_shared", "Wrote {captures} of {nights} to {folder}.");
inline constexpr auto kPositionsAreExact = MessageText("positions_are_exact", "Positions are exact: not for publication.");
inline constexpr auto kPlacesAreCells = MessageText("places_are_cells", "Places are told by the cell of 0.1 degree in which they lie. Few ponds with newts in a cell may still be found: look at it before you publish.");

// sheet_command.cpp
inline constexpr auto kSheetDoes = MessageText("sheet_does", "Writes a night sheet to fill in. Without PHOTOS it is blank; with a folder of photos there is\na row for each, gathered into captures by the camera's clock, with the place, licence and\nobserver of the last night. What the catalogue has already is left out.");
inline constexpr auto kHelpSheetTheSheet = MessageText("help_sheet_the_sheet", "Where the CSV goes; must not be there yet");
inline constexpr auto kHelpSheetThePhotos = MessageText("help_sheet_the_photos", "Folder of the photos (else the sheet is blank)");
inline constexpr auto kHelpSheetGap = MessageText("help_sheet_gap", "Pause in seconds that parts two animals (else 30)");
inline constexpr auto kWroteBlankSheet = MessageText("wrote_blank_sheet", "Wrote {file}: a blank sheet, one row a photo.");
inline constexpr auto kWroteSheetOfPhotos = MessageText("wrote_sheet_of_photos", "Wrote {file}: {photos} in {captures} by the camera's clock.");
inline constexpr auto kMoreAreThereAlready = MessageText("more_are_there_already", "{n} photo more are in the catalogue already.", "{n} photos more are in the catalogue already.");
inline constexpr auto kPhotoLeftOut = MessageText("photo_left_out", "Left out: {why}.");
inline constexpr auto kFillItIn = MessageText("fill_it_in", "Fill it in, then: evet intake {catalogue} {file} {photos}");

// trial_command.cpp
inline constexpr auto kRefitTakenBackToEarlier = MessageText("refit_taken_back_to_earlier", "Taken back; both stay in the ledger. The calibration before it counts again.");
inline constexpr auto kRefitTakenBackToOwn = MessageText("refit_taken_back_to_own", "Taken back; both stay in the ledger. The program's own counts again.");
inline constexpr auto kReadingPatterns = MessageText("reading_patterns", "reading patterns");
inline constexpr auto kSearching = MessageText("searching", "searching");
inline constexpr auto kRefitRecorded = MessageText("refit_recorded", "Recorded as {entry}. Ranking, review page and report use it from now on. To take it back: evet trial {catalogue} --forget-refit");
inline constexpr auto kTrialDoes = MessageText("trial_does", "Tries the program on the catalogue's own captures whose identity people confirmed or a sheet\nknew: each is searched with its animal in the catalogue and without. Says how often an animal is\nfound, missed, or taken for another, how far the stated probabilities can be trusted, by site,\nseason, observer, sex, quality and years apart, and how large a claim the data can bear.\nNothing in the catalogue is changed, but for --refit and --forget-refit. Exit code 1: the advice\ndoes not keep its own word here, or a refit would not help.");
inline constexpr auto kHelpTrialOut = MessageText("help_trial_out", "Write it as one HTML page, too");
inline constexpr auto kHelpTrialRefit = MessageText("help_trial_refit", "Learn the calibration on these pairs; it is kept in the ledger if it certainly helps");
inline constexpr auto kHelpTrialForgetRefit = MessageText("help_trial_forget_refit", "Take the newest refit back instead");
inline constexpr auto kHelpTrialReason = MessageText("help_trial_reason", "Why it is taken back");
inline constexpr auto kHelpTrialResamples = MessageText("help_trial_resamples", "Of the individuals, for the intervals");
inline constexpr auto kHelpTrialSeed = MessageText("help_trial_seed", "Of the resamples");

// verdict_command.cpp
inline constexpr auto kCaptureIsClosed = MessageText("capture_is_closed", "Capture {capture} of {night} is closed: {as}.");
inline constexpr auto kCaptureIsNotSettled = MessageText("capture_is_not_settled", "Capture {capture} of {night} is not settled.");
inline constexpr auto kCaptureBelongsTo = MessageText("capture_belongs_to", "Capture {capture} of {night} belongs to {individual}, which has {captures}.");
inline constexpr auto kItIsInDispute = MessageText("it_is_in_dispute", "It is in dispute: verdicts contradict each other.");
inline constexpr auto kTakenBack = MessageText("taken_back", "Taken back; both stay in the ledger. To put it back: evet verdict {catalogue} --undo {entry}");
inline constexpr auto kHelpVerdictTheCapture = MessageText("help_verdict_the_capture", "As on its sheet, as NIGHT/NAME, or by one of its photos");
inline constexpr auto kHelpVerdictTheAnswer = MessageText("help_verdict_the_answer", "same, different, new, cannot-tell, no-animal, not-identifiable or same-capture");
inline constexpr auto kHelpVerdictTheOther = MessageText("help_verdict_the_other", "An individual or another capture, where the answer needs one");
inline constexpr auto kHelpVerdictReason = MessageText("help_verdict_reason", "Why: what a reviewer should look at");
inline constexpr auto kHelpVerdictInSpite = MessageText("help_verdict_in_spite", "Why it is so in spite of what speaks against it");
inline constexpr auto kHelpVerdictLabel = MessageText("help_verdict_label", "A name for the individual, which no other bears");
inline constexpr auto kHelpVerdictUndo = MessageText("help_verdict_undo", "Take this entry back instead: its id, as printed when it was recorded");
inline constexpr auto kVerdictDoes = MessageText("verdict_does", "Records what a person says of a capture. Nothing is overwritten: a later verdict stands beside\nthe earlier one, and where two contradict each other the capture is in dispute.\nANSWER is one of\n  same         it is this individual (or the animal of this other capture): name it\n  different    it is not: name the individual or capture\n  new          it is none of the known individuals\n  cannot-tell  looked at, and not to be decided from these photos: name the same way\nor closes a capture that can belong to nobody:\n  no-animal         there is none in its photos\n  not-identifiable  an animal was caught, and nobody will ever tell which\n  same-capture      it is the same animal in hand as another capture of the night: name that\nWhat speaks against a verdict (the same night, the other sex, a length that shrank, another site, ...)\nis said, and nothing is recorded, unless --in-spite says why it is so all the same. It stays with the\nentry, and 'evet audit' and the report list it.");

// wrong_usage.cpp
inline constexpr auto kHasNoValue = MessageText("has_no_value", "it has no value");
inline constexpr auto kGiveOneBehind = MessageText("give_one_behind", "give one behind it");
inline constexpr auto kGivenTimes = MessageText("given_times", "it is given {n} time", "it is given {n} times");
inline constexpr auto kGiveItOnce = MessageText("give_it_once", "give it once");
inline constexpr auto kTakesNoValue = MessageText("takes_no_value", "it takes no value");
inline constexpr auto kGiveItAlone = MessageText("give_it_alone", "give it alone");
inline constexpr auto kGoesNotWith = MessageText("goes_not_with", "it does not go with {other}");
inline constexpr auto kNoSuchOption = MessageText("no_such_option", "{option} is no option of this command");
inline constexpr auto kDidYouMeanOption = MessageText("did_you_mean_option", "did you mean {option}?");
inline constexpr auto kOneTooMany = MessageText("one_too_many", "{argument} is one argument too many");
inline constexpr auto kNotWhatItTakes = MessageText("not_what_it_takes", "{value} is not what it takes");
inline constexpr auto kUseValues = MessageText("use_values", "use {values}");
inline constexpr auto kGiveWholeWithin = MessageText("give_whole_within", "give a whole number from {least} to {most}");
inline constexpr auto kGiveWholeFrom = MessageText("give_whole_from", "give a whole number, {least} or more");
inline constexpr auto kGiveWithin = MessageText("give_within", "give a number from {least} to {most}");
inline constexpr auto kLeastToMost = MessageText("least_to_most", "{least} to {most}");
inline constexpr auto kOrMore = MessageText("or_more", "{least} or more");
inline constexpr auto kValueIsNoNumber = MessageText("value_is_no_number", "{value} is no number");
inline constexpr auto kGiveANumber = MessageText("give_a_number", "give a number");
inline constexpr auto kNoWholeNumber = MessageText("no_whole_number", "{value} is no whole number, or too large");
inline constexpr auto kGiveAWholeNumber = MessageText("give_a_whole_number", "give a whole number");

// clang-format on
}  // namespace evet::messages
