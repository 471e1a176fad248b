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
inline constexpr auto kNoEntriesAndRoot = MessageText("no_entries_and_root", "'{text}' is not a number of entries and a tree root");
inline constexpr auto kWriteEntriesAndRoot = MessageText("write_entries_and_root", "write them as printed, with a colon between: 412:9f86…");
inline constexpr auto kIsNotHeadHash = MessageText("is_not_head_hash", "'{hash}' is not a head hash");
inline constexpr auto kGiveHeadHash = MessageText("give_head_hash", "give the 64 digits (0-9, a-f) printed on a report or by an earlier audit");
inline constexpr auto kMakeCatalogueFirst = MessageText("make_catalogue_first", "make a catalogue with 'evet new'");
inline constexpr auto kIsNoCatalogue = MessageText("is_no_catalogue", "it is not a catalogue: {wrong}");
inline constexpr auto kFormatIsNewer = MessageText("format_is_newer", "the catalogue has format {format}, made by a newer version; this one reads format {format2}");
inline constexpr auto kUseNewerVersionOfFormat = MessageText("use_newer_version_of_format", "use the newer version");
inline constexpr auto kAnotherJournalMode = MessageText("another_journal_mode", "another program has put its database into another journal mode");
inline constexpr auto kPutJournalModeBack = MessageText("put_journal_mode_back", "put it back: sqlite3 {file} 'PRAGMA journal_mode = DELETE'");
inline constexpr auto kCatalogueIsThereAlready = MessageText("catalogue_is_there_already", "there is a catalogue already");
inline constexpr auto kUseItOrNameAnother = MessageText("use_it_or_name_another", "use it, or name another folder");
inline constexpr auto kHoldsOtherFiles = MessageText("holds_other_files", "it holds other files ('{name}')");
inline constexpr auto kNameEmptyFolder = MessageText("name_empty_folder", "name a new or an empty folder");
inline constexpr auto kNewestEntryOf2200 = MessageText("newest_entry_of_2200", "its newest entry is of the year 2200");
inline constexpr auto kSetThisClockOrAudit = MessageText("set_this_clock_or_audit", "set this machine's clock right; if it is, run 'evet audit': such an entry was merged in");
inline constexpr auto kIsInCatalogueAlready = MessageText("is_in_catalogue_already", "it is in the catalogue already");
inline constexpr auto kFileIsNotInCatalogue = MessageText("file_is_not_in_catalogue", "its file is not in the catalogue");
inline constexpr auto kOpenForReadingOnly = MessageText("open_for_reading_only", "the catalogue is open for reading only");
inline constexpr auto kIsEmptyValue = MessageText("is_empty_value", "it is empty");
inline constexpr auto kNameReaderOrCode = MessageText("name_reader_or_code", "say who speaks, as a name or an observer code");
inline constexpr auto kReaderTakesBytes = MessageText("reader_takes_bytes", "it takes {actor} bytes");
inline constexpr auto kWrittenDaysAhead = MessageText("written_days_ahead", "it was written {ahead} days ahead of this machine's clock, on device {device} at {time}");
inline constexpr auto kSetWrongClock = MessageText("set_wrong_clock", "set the clock that is wrong; if that device's was, and you know it, say --days-ahead {ahead}");
inline constexpr auto kLedgerDoesNotHold = MessageText("ledger_does_not_hold", "its ledger does not hold together ({item}: {wrong})");
inline constexpr auto kAuditAndMergeUnharmed = MessageText("audit_and_merge_unharmed", "run 'evet audit {folder}', and merge an unharmed copy");
inline constexpr auto kCaptureInNeither = MessageText("capture_in_neither", "it speaks of capture {capture}, which is in neither catalogue");
inline constexpr auto kTakenInByDifferentEntries = MessageText("taken_in_by_different_entries", "the two catalogues have different entries that took it in");
inline constexpr auto kAuditBoth = MessageText("audit_both", "run 'evet audit' on both: one of them was altered");
inline constexpr auto kDifferentEntriesUnderId = MessageText("different_entries_under_id", "the two catalogues have different entries under this id");
inline constexpr auto kUseDaysAhead = MessageText("use_days_ahead", "use 0 to 100000 days");
inline constexpr auto kSameCatalogue = MessageText("same_catalogue", "it is the same catalogue");
inline constexpr auto kNameAnotherCatalogue = MessageText("name_another_catalogue", "name the folder of another one");
inline constexpr auto kGiveNumberFromTo = MessageText("give_number_from_to", "give a number from {low} to {high}");
inline constexpr auto kEffortIsNothing = MessageText("effort_is_nothing", "its 'effort' is 0");
inline constexpr auto kGiveEffort = MessageText("give_effort", "give how much was done; a night on which nothing was caught had effort as well");
inline constexpr auto kRefusedLinesDiffer = MessageText("refused_lines_differ", "field 'refused_lines' has another length than 'refused'");
inline constexpr auto kNeitherDateNorTime = MessageText("neither_date_nor_time", "it is neither a date nor a time");
inline constexpr auto kWriteDateOrTime = MessageText("write_date_or_time", "write a date as 2024-05-01 or a time as 2024-05-01T22:00:00+02:00");

// What a field has to hold.
inline constexpr auto kTextIsNeeded = MessageText("text_is_needed", "a text is needed");
inline constexpr auto kDigitsAreNeeded = MessageText("digits_are_needed", "64 digits (0-9, a-f) are needed");
inline constexpr auto kNumberIsNeeded = MessageText("number_is_needed", "a number is needed");
inline constexpr auto kWholeNumberIsNeeded = MessageText("whole_number_is_needed", "a whole number is needed");
inline constexpr auto kWholeNumberBetweenIsNeeded = MessageText("whole_number_between_is_needed", "a whole number from {low} to {high} is needed");
inline constexpr auto kTrueOrFalseIsNeeded = MessageText("true_or_false_is_needed", "true or false is needed");

// A folder that somebody altered.
inline constexpr auto kLinkElsewhere = MessageText("link_elsewhere", "it is a link to another place");
inline constexpr auto kPutTheFolderThere = MessageText("put_the_folder_there", "put the folder itself there");
inline constexpr auto kForeignJournal = MessageText("foreign_journal", "its journal ({database}-journal) names another file or is none: this program did not write it");
inline constexpr auto kUseUnalteredOrDropJournal = MessageText("use_unaltered_or_drop_journal", "use a copy that nobody has altered, or take that journal away");
inline constexpr auto kHarmfulSchema = MessageText("harmful_schema", "it holds what this program does not make and will not run ({what})");

// What an audit finds.
inline constexpr auto kPhotoFileGone = MessageText("photo_file_gone", "its file is gone from the catalogue");
inline constexpr auto kCacheUnreadable = MessageText("cache_unreadable", "it cannot be read; delete the folder, it is made again");
inline constexpr auto kCacheDamaged = MessageText("cache_damaged", "what is kept of photo {photo} is not as it was written; delete the folder, it is made again");
inline constexpr auto kNotGrownFrom = MessageText("not_grown_from", "it does not begin with the {entries} entries of tree root {root}, in their order: some were changed or left out, or that root is of another copy of the catalogue");
inline constexpr auto kNotVouchedFor = MessageText("not_vouched_for", "{entries} entries are vouched for by no later one: they were put in past the program");
inline constexpr auto kNoEntryWithHash = MessageText("no_entry_with_hash", "no entry has it: the ledger was cut back or written anew since it was printed, or it was printed of another catalogue");
inline constexpr auto kEntryAltered = MessageText("entry_altered", "it was altered after it was written: its hash does not fit");
inline constexpr auto kTimeWithoutOffset = MessageText("time_without_offset", "its time '{time}' is not a time with offset");
inline constexpr auto kNotCanonical = MessageText("not_canonical", "its body is not in canonical form");
inline constexpr auto kSignatureOfOtherKey = MessageText("signature_of_other_key", "its signature is not of the key that it names");
inline constexpr auto kEntriesMissing = MessageText("entries_missing", "its entries {first} are missing");
inline constexpr auto kEntriesMissingTo = MessageText("entries_missing_to", "its entries {first} to {last} are missing");
inline constexpr auto kNumberClaimedTwice = MessageText("number_claimed_twice", "several entries claim to be its number {number}: a backup was put back and written to, or someone wrote past the program");
inline constexpr auto kDoesNotFollow = MessageText("does_not_follow", "it does not follow from number {number} of its device: that one was altered or replaced");
inline constexpr auto kIdBeforePrevious = MessageText("id_before_previous", "its id lies before that of its device's previous entry");
inline constexpr auto kVouchedMissing = MessageText("vouched_missing", "it vouches for number {number} of device {device}, which is missing or was replaced");
inline constexpr auto kSchemaMissing = MessageText("schema_missing", "the {what} is missing");
inline constexpr auto kSchemaAltered = MessageText("schema_altered", "the {what} was altered");
inline constexpr auto kSchemaForeign = MessageText("schema_foreign", "the {what} does not belong there");
inline constexpr auto kProjectionStale = MessageText("projection_stale", "table {table} is not what the ledger gives");
inline constexpr auto kProjectionsFail = MessageText("projections_fail", "they cannot be made anew: {error}");
inline constexpr auto kRefersToNothing = MessageText("refers_to_nothing", "a row of table {table} refers to nothing");
inline constexpr auto kPutPhotoBack = MessageText("put_photo_back", "put {file} back from a backup or merge a copy that has it");

// closing.cpp
inline constexpr auto kClosedNoAnimal = MessageText("closed_no_animal", "no animal in it");
inline constexpr auto kClosedNotIdentifiable = MessageText("closed_not_identifiable", "not identifiable");
inline constexpr auto kClosedSameCapture = MessageText("closed_same_capture", "the same as another capture");

// Why a folder is no catalogue.
inline constexpr auto kDatabaseMissing = MessageText("database_missing", "{file} is missing");
inline constexpr auto kDatabaseIsLink = MessageText("database_is_link", "{file} is a link to another place");
inline constexpr auto kDatabaseIsNoFile = MessageText("database_is_no_file", "{file} is not a file");
inline constexpr auto kFileIsNoDatabase = MessageText("file_is_no_database", "{file} is not a database");
inline constexpr auto kDatabaseOfAnotherProgram = MessageText("database_of_another_program", "{file} is a database of another program");

// Told on the way, in the log.
inline constexpr auto kSignsForFirstTime = MessageText("signs_for_first_time", "{who} signs in this catalogue for the first time with the key {key}");
inline constexpr auto kSignsWithAnotherKey = MessageText("signs_with_another_key", "{who} signs in this catalogue for the first time with the key {key}, another than before: tell those who read it");
inline constexpr auto kSigningKeyMade = MessageText("signing_key_made", "a key was made with which what {who} says here is signed: {file}; keep it to yourself");
inline constexpr auto kKeptUnsigned = MessageText("kept_unsigned", "{why}; entries are kept without a signature");
inline constexpr auto kOnNetworkDrive = MessageText("on_network_drive", "{folder}: the catalogue lies on a network drive, where locks are not always kept; let one program at a time write to it, or work on a local copy and merge");
inline constexpr auto kWrittenAnew = MessageText("written_anew", "{file}: it was not written on this machine: checked, and written anew");
inline constexpr auto kReadAsFromElsewhere = MessageText("read_as_from_elsewhere", "{file}: {why}; folders that were made here are read as if they came from elsewhere");
inline constexpr auto kCataloguePhotoLeftOut = MessageText("catalogue_photo_left_out", "{why}; it is left out, the others are not");

// The cache.
inline constexpr auto kCacheJournalForeign = MessageText("cache_journal_foreign", "its journal is not the program's");
inline constexpr auto kCacheHalfWritten = MessageText("cache_half_written", "a stopped program left it half written");
inline constexpr auto kCacheTablesForeign = MessageText("cache_tables_foreign", "its tables are not the program's");
inline constexpr auto kCacheUnusable = MessageText("cache_unusable", "{cache}: it cannot be used; patterns are made again each time");
inline constexpr auto kCacheCannotBeUsed = MessageText("cache_cannot_be_used", "cache: {file} cannot be used ({why}); patterns are made again each time");
inline constexpr auto kCacheFailed = MessageText("cache_failed", "cache: {file} cannot be used ({why}); nothing is lost, patterns are made again each time");

// Why an entry is set aside.
inline constexpr auto kCaptureTakenInBefore = MessageText("capture_taken_in_before", "another entry had taken its capture in before");
inline constexpr auto kIdIsNoUuid = MessageText("id_is_no_uuid", "its id is not a UUID of version 7");
inline constexpr auto kIdBeyondClocks = MessageText("id_beyond_clocks", "its id lies beyond any clock");
inline constexpr auto kActorTooLong = MessageText("actor_too_long", "who says so takes more than {bytes} bytes");

// clang-format on
}  // namespace evet::messages
