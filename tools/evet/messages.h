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

// clang-format on
}  // namespace evet::messages
