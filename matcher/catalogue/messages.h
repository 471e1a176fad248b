// What the catalogue refuses, and what is wrong with one.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kBytesStoppedReader = MessageText("bytes_stopped_reader", "its bytes stopped the process that read them: it is damaged, or was made to do harm");
inline constexpr auto kReadingTakesLongerThanS = MessageText("reading_takes_longer_than_s", "reading it takes longer than {seconds} s: it is damaged, or was made to take for ever");
inline constexpr auto kReadingTakesMuchMemory = MessageText("reading_takes_much_memory", "reading it takes more memory than its size allows for");
inline constexpr auto kIsNoCacheOfVersion = MessageText("is_no_cache_of_version", "it is no cache of this version ({why})");
inline constexpr auto kIsNotFinite = MessageText("is_not_finite", "it is not finite");
inline constexpr auto kLeaveOutOrGiveNumber = MessageText("leave_out_or_give_number", "leave it out or give a number");
inline constexpr auto kIsNotValidUtf8 = MessageText("is_not_valid_utf_8", "it is not valid UTF-8");
inline constexpr auto kSaveFileAsUtf8 = MessageText("save_file_as_utf_8", "save the file as UTF-8");
inline constexpr auto kIsNestedDeeperThanLevels = MessageText("is_nested_deeper_than_levels", "it is nested deeper than {deepest} levels");
inline constexpr auto kCannotBeReadCatalogue = MessageText("cannot_be_read_catalogue", "it cannot be read: {error}");
inline constexpr auto kNightIsNotDate = MessageText("night_is_not_date", "night '{night}' is not a date");
inline constexpr auto kSexIsNotKnown = MessageText("sex_is_not_known", "sex '{sex}' is not known");
inline constexpr auto kUseFemaleMaleOrUnknown = MessageText("use_female_male_or_unknown", "use female, male or unknown");
inline constexpr auto kFieldChangesIsNotObject = MessageText("field_changes_is_not_object", "field 'changes' is not an object");
inline constexpr auto kAsIsWhichIsNot = MessageText("as_is_which_is_not", "'as' is '{fields}', which is not known");
inline constexpr auto kUseNoAnimalNotIdentifiable = MessageText("use_no_animal_not_identifiable", "use no_animal, not_identifiable or same_capture");
inline constexpr auto kCaptureIsSameAsIs = MessageText("capture_is_same_as_is", "the capture that it is the same as is missing");
inline constexpr auto kAnotherCaptureIsNamedAnd = MessageText("another_capture_is_named_and", "another capture is named, and nothing is said of it");
inline constexpr auto kCaptureIsSaidBeSame = MessageText("capture_is_said_be_same", "a capture is said to be the same as itself");
inline constexpr auto kNameTwoCaptures = MessageText("name_two_captures", "name two captures");
inline constexpr auto kAnotherProgramIsWritingCatalogue = MessageText("another_program_is_writing_catalogue", "another program is writing to the catalogue");
inline constexpr auto kWaitUntilIsDoneAnd = MessageText("wait_until_is_done_and", "wait until it is done and run the same command again");
inline constexpr auto kDiskIsFull = MessageText("disk_is_full", "the disk is full");
inline constexpr auto kMayNotBeWritten = MessageText("may_not_be_written", "it may not be written to");
inline constexpr auto kMakeFolderWritableOrCopy = MessageText("make_folder_writable_or_copy", "make the folder writable, or copy it and use the copy");
inline constexpr auto kFileCannotBeOpened = MessageText("file_cannot_be_opened", "the file cannot be opened");
inline constexpr auto kCheckYouMayReadAnd = MessageText("check_you_may_read_and", "check that you may read and write the folder");
inline constexpr auto kValueInIsLargerThan = MessageText("value_in_is_larger_than", "a value in it is larger than any that this program writes");
inline constexpr auto kUseCopyNobodyHasAltered = MessageText("use_copy_nobody_has_altered", "use a copy that nobody has altered");
inline constexpr auto kDoesNotFitWhatIs = MessageText("does_not_fit_what_is", "it does not fit what is there ({error})");
inline constexpr auto kDatabaseIsDamaged = MessageText("database_is_damaged", "the database is damaged ({error})");
inline constexpr auto kPutBackFromBackupOr = MessageText("put_back_from_backup_or", "put it back from a backup, or run 'evet audit FOLDER --repair'");
inline constexpr auto kIsNotCatalogue = MessageText("is_not_catalogue", "it is not a catalogue");
inline constexpr auto kNameFolderMadeWithEvet = MessageText("name_folder_made_with_evet", "name a folder made with 'evet new'");
inline constexpr auto kDatabaseFailed = MessageText("database_failed", "the database failed ({error})");
inline constexpr auto kEntriesOfKindAreNot = MessageText("entries_of_kind_are_not", "entries of kind '{kind}' are not known to this version");
inline constexpr auto kUseNewerVersion = MessageText("use_newer_version", "use a newer version");
inline constexpr auto kBodyCannotBeRead = MessageText("body_cannot_be_read", "its body cannot be read: {error}");
inline constexpr auto kFieldIsMissingOrWrong = MessageText("field_is_missing_or_wrong", "field '{key}' is missing or wrong");
inline constexpr auto kIsNotJsonObject = MessageText("is_not_json_object", "it is not a JSON object");
inline constexpr auto kFieldTakesBytes = MessageText("field_takes_bytes", "field '{key}' takes {size} bytes");
inline constexpr auto kUseAtMost = MessageText("use_at_most", "use at most {at_most}");
inline constexpr auto kWhatStoppedProgramLeftHalf = MessageText("what_stopped_program_left_half", "what a stopped program left half written cannot be read: no temporary folder can be made");
inline constexpr auto kSetTmpdirFolderYouMay = MessageText("set_tmpdir_folder_you_may", "set TMPDIR to a folder that you may write to");
inline constexpr auto kCannotBeCopied = MessageText("cannot_be_copied", "it cannot be copied ({error})");
inline constexpr auto kCatalogueHoldsNoCapturesYet = MessageText("catalogue_holds_no_captures_yet", "the catalogue holds no captures yet");
inline constexpr auto kTakeInNightSheetFirst = MessageText("take_in_night_sheet_first", "take in a night sheet first");
inline constexpr auto kNoCaptureOfSettledIndividual = MessageText("no_capture_of_settled_individual", "no capture of a settled individual fits the choice ({place})");
inline constexpr auto kCatalogueHasNights = MessageText("catalogue_has_nights", "the catalogue has {list}, nights {first} to {last}");
inline constexpr auto kIsNotDate = MessageText("is_not_date", "'{night}' is not a date");
inline constexpr auto kLiesBeforeFrom = MessageText("lies_before_from", "'{to}' lies before 'from' ({from})");
inline constexpr auto kGiveEarlierNightFirst = MessageText("give_earlier_night_first", "give the earlier night first");
inline constexpr auto kIsNotDateWithEffort = MessageText("is_not_date_with_effort", "'{night}' is not a date with an effort of 0 or more");
inline constexpr auto kWriteNightAs0514 = MessageText("write_night_as_05_14", "write the night as 2024-05-14");
inline constexpr auto kIsNamedWithoutSite = MessageText("is_named_without_site", "'{pond}' is named without its site");
inline constexpr auto kNameSiteAsWell = MessageText("name_site_as_well", "name the site as well");
inline constexpr auto kIsNegative = MessageText("is_negative", "it is negative");
inline constexpr auto kGiveNumberOfDaysOr = MessageText("give_number_of_days_or", "give a number of days, or 0");
inline constexpr auto kSeveralIndividualsBearNameAnd = MessageText("several_individuals_bear_name_and", "several individuals bear this name: {found} and {one}");
inline constexpr auto kUseId = MessageText("use_id", "use the id");
inline constexpr auto kIsNotInCatalogue = MessageText("is_not_in_catalogue", "it is not in the catalogue");
inline constexpr auto kFieldIsNoListOf = MessageText("field_is_no_list_of", "field '{key}' is no list of objections");
inline constexpr auto kLinkOrNoFileLies = MessageText("link_or_no_file_lies", "a link or no file lies where the catalogue keeps a photo");
inline constexpr auto kTakeAwayAndRunSame = MessageText("take_away_and_run_same", "take it away and run the same command again");
inline constexpr auto kFileIsGoneFromCatalogue = MessageText("file_is_gone_from_catalogue", "its file is gone from the catalogue");
inline constexpr auto kLinkOrNoFileLiesIn = MessageText("link_or_no_file_lies_in", "a link or no file lies in its place");
inline constexpr auto kBytesHaveChangedSinceWas = MessageText("bytes_have_changed_since_was", "its bytes have changed since it was taken in: no photo is that large");
inline constexpr auto kBytesHaveChangedSinceWasTaken = MessageText("bytes_have_changed_since_was_taken", "its bytes have changed since it was taken in");
inline constexpr auto kMidlineHasPoints = MessageText("midline_has_points", "the midline has {any} points");
inline constexpr auto kMidlinePointIsNotPair = MessageText("midline_point_is_not_pair", "a midline point is not a pair of numbers");
inline constexpr auto kMidlinePointLiesOutsideAny = MessageText("midline_point_lies_outside_any", "a midline point lies outside any picture");
inline constexpr auto kFormatIsNotKnown = MessageText("format_is_not_known", "format '{format}' is not known");
inline constexpr auto kUseJpegPngTiffOr = MessageText("use_jpeg_png_tiff_or", "use jpeg, png, tiff or heic");
inline constexpr auto kFieldHoldsWhatIsNo = MessageText("field_holds_what_is_no", "field '{key}' holds what is no text");
inline constexpr auto kIsOutOfRange = MessageText("is_out_of_range", "its '{key}' is out of range");
inline constexpr auto kShiftIsOutOfRange = MessageText("shift_is_out_of_range", "its 'shift' is out of range");
inline constexpr auto kFieldHeadsIsMissingOr = MessageText("field_heads_is_missing_or", "field 'heads' is missing or wrong");
inline constexpr auto kFieldWithoutFileNamesNoPhoto = MessageText("field_without_file_names_no_photo", "field 'without_file' names what is no photo");
inline constexpr auto kCannotBeWrittenCatalogue = MessageText("cannot_be_written_catalogue", "it cannot be written ({error})");
inline constexpr auto kThereIsNoDatabaseRepair = MessageText("there_is_no_database_repair", "there is no database to repair");
inline constexpr auto kNameFolderOfCatalogue = MessageText("name_folder_of_catalogue", "name the folder of a catalogue");
inline constexpr auto kAnotherProgramHasOpen = MessageText("another_program_has_open", "another program has it open");
inline constexpr auto kCloseFirst = MessageText("close_first", "close it first");
inline constexpr auto kNoEntryOfCanBe = MessageText("no_entry_of_can_be", "no entry of it can be read");
inline constexpr auto kPutBackFromBackup = MessageText("put_back_from_backup", "put it back from a backup");
inline constexpr auto kAnswerIsNotKnown = MessageText("answer_is_not_known", "answer '{fields}' is not known");
inline constexpr auto kUseSameDifferentCannotTell = MessageText("use_same_different_cannot_tell", "use same, different, cannot_tell or new");
inline constexpr auto kSecondCaptureIsMissing = MessageText("second_capture_is_missing", "the second capture is missing");
inline constexpr auto kNewIsAboutOneCapture = MessageText("new_is_about_one_capture", "'new' is about one capture, not two");
inline constexpr auto kCaptureIsComparedWithItself = MessageText("capture_is_compared_with_itself", "a capture is compared with itself");
inline constexpr auto kFieldSettlesHoldsWhatIs = MessageText("field_settles_holds_what_is", "field 'settles' holds what is no entry's id");

// clang-format on
}  // namespace evet::messages
