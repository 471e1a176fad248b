// What intake says of a sheet, its rows and its photos: refusals, hints and notices.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

// Where on the sheet; the line alone stands in tools/words.
inline constexpr auto kOfPhoto = MessageText("of_photo", "photo {photo}");
inline constexpr auto kAtColumn = MessageText("at_column", "line {line}, {column}");
inline constexpr auto kAtPhoto = MessageText("at_photo", "line {line}, photo {photo}");

inline constexpr auto kDidYouMean = MessageText("did_you_mean", "did you mean {meant}?");
inline constexpr auto kDidYouMeanElse = MessageText("did_you_mean_else", "did you mean {meant}? {else}");

// The sheet's file, and the photos' folder.
inline constexpr auto kSheetIsFolder = MessageText("sheet_is_folder", "it is a folder, not a night sheet");
inline constexpr auto kSheetIsNoFile = MessageText("sheet_is_no_file", "it is not an ordinary file");
inline constexpr auto kNameSheetThenPhotos = MessageText("name_sheet_then_photos", "name the sheet, a CSV file, and after it the folder of the photos");
inline constexpr auto kPhotosAreFile = MessageText("photos_are_file", "it is a file, not a folder");
inline constexpr auto kNamePhotosFolder = MessageText("name_photos_folder", "name the folder that holds the photos");
inline constexpr auto kSheetTooLarge = MessageText("sheet_too_large", "the sheet is larger than {megabytes} MB");
inline constexpr auto kIsItTheSheet = MessageText("is_it_the_sheet", "is it the sheet at all? A night sheet is a small CSV file");
inline constexpr auto kSheetIsUtf16 = MessageText("sheet_is_utf16", "the sheet is saved as UTF-16");
inline constexpr auto kSaveAsCsvUtf8 = MessageText("save_as_csv_utf8", "save the sheet as 'CSV UTF-8'");
inline constexpr auto kSheetHoldsZeros = MessageText("sheet_holds_zeros", "the file holds zero bytes, so it is not a CSV sheet");
inline constexpr auto kSaveSheetAsCsv = MessageText("save_sheet_as_csv", "save the night sheet from the spreadsheet program as CSV");
inline constexpr auto kSheetIsNotUtf8 = MessageText("sheet_is_not_utf8", "the text is not UTF-8 (it looks like Latin-1 or Windows-1252)");
inline constexpr auto kSaveAgainAsUtf8 = MessageText("save_again_as_utf8", "save the sheet again as 'CSV UTF-8', or convert it: iconv -f WINDOWS-1252 -t UTF-8");
inline constexpr auto kSheetEmpty = MessageText("sheet_empty", "the sheet is empty");
inline constexpr auto kFirstLineNamesColumns = MessageText("first_line_names_columns", "the first line names the columns; each other line is a photo");
inline constexpr auto kTooManyRows = MessageText("too_many_rows", "the sheet has more than {rows} rows");
inline constexpr auto kSplitByNight = MessageText("split_by_night", "split it by night");
inline constexpr auto kNoPhotoNamed = MessageText("no_photo_named", "the sheet names no photo");
inline constexpr auto kWriteRowForEachPhoto = MessageText("write_row_for_each_photo", "write one row for each photo, or none as the photo of a night without a catch");

// A spreadsheet's own file.
inline constexpr auto kOldSpreadsheet = MessageText("old_spreadsheet", "this is an old spreadsheet program's own file");
inline constexpr auto kSaveAsSheet = MessageText("save_as_sheet", "save the sheet as .xlsx, .ods or 'CSV UTF-8'");
inline constexpr auto kIsItTheSmallSheet = MessageText("is_it_the_small_sheet", "is it the sheet at all? A night sheet is a small file");
inline constexpr auto kSpreadsheetDamaged = MessageText("spreadsheet_damaged", "the spreadsheet file is damaged");
inline constexpr auto kSpreadsheetDamagedOrLarge = MessageText("spreadsheet_damaged_or_large", "the spreadsheet file is damaged or too large");
inline constexpr auto kSpreadsheetLocked = MessageText("spreadsheet_locked", "the spreadsheet file is locked by a password");
inline constexpr auto kPackedWithoutSpreadsheet = MessageText("packed_without_spreadsheet", "the file is packed, and holds no spreadsheet");
inline constexpr auto kNoTable = MessageText("no_table", "the file holds no table");
inline constexpr auto kOpenAndSaveAsCsv = MessageText("open_and_save_as_csv", "open it in a spreadsheet program and save the sheet as 'CSV UTF-8'");
inline constexpr auto kSomethingInColumn = MessageText("something_in_column", "the sheet has something in column {column}");
inline constexpr auto kTakeOutToTheRight = MessageText("take_out_to_the_right", "take out what lies to the right of the sheet");

// Its columns.
inline constexpr auto kColumnWithoutName = MessageText("column_without_name", "column {number} has no name");
inline constexpr auto kNameItOrTakeItOut = MessageText("name_it_or_take_it_out", "name it, or take it out");
inline constexpr auto kColumnNotKnown = MessageText("column_not_known", "column {column} is not known");
inline constexpr auto kColumnsAre = MessageText("columns_are", "take it out, or put what it says into notes; columns are {columns}");
inline constexpr auto kColumnTwice = MessageText("column_twice", "this column is there twice");
inline constexpr auto kKeepOneOfTwo = MessageText("keep_one_of_two", "keep one of the two");
inline constexpr auto kColumnMissing = MessageText("column_missing", "this column is missing");
inline constexpr auto kRenameColumn = MessageText("rename_column", "rename column {column} to {name}");
inline constexpr auto kAddColumn = MessageText("add_column", "add it; every sheet needs photo, site, night and licence");

// A row as a whole.
inline constexpr auto kWrongWidth = MessageText("wrong_width", "has {n} field where the header has {width}", "has {n} fields where the header has {width}");
inline constexpr auto kCutShort = MessageText("cut_short", "is the sheet cut short, or a {sign} missing?");
inline constexpr auto kQuoteSeparator = MessageText("quote_separator", "put a field that holds a {sign} in double quotes");
inline constexpr auto kTab = MessageText("tab", "tab");
inline constexpr auto kSign = MessageText("sign", "'{sign}'");
inline constexpr auto kPhotoTwice = MessageText("photo_twice", "{photo} is already on line {line}");
inline constexpr auto kNameEachPhotoOnce = MessageText("name_each_photo_once", "name each photo once");
inline constexpr auto kFactsDiffer = MessageText("facts_differ", "differs from line {line}, which has the same capture {capture}");
inline constexpr auto kMendOrOwnLabel = MessageText("mend_or_own_label", "photos of one animal in hand share all facts: mend the fact, or give this capture a label of its own");
inline constexpr auto kNoCatchButPhotoAtPlace = MessageText("no_catch_but_photo_at_place", "says that nothing was caught, but line {line} names a photo of the same night and place");
inline constexpr auto kNoCatchButPhotoAtTrap = MessageText("no_catch_but_photo_at_trap", "says that nothing was caught, but line {line} names a photo of the same night at this trap");
inline constexpr auto kTakeOneOut = MessageText("take_one_out", "take one of the two out, or mend its night or place");

// A cell.
inline constexpr auto kCellEmpty = MessageText("cell_empty", "is empty");
inline constexpr auto kWriteOnEveryRow = MessageText("write_on_every_row", "write the {column} on every row");
inline constexpr auto kControlCharacter = MessageText("control_character", "{text} holds a line end or another control character");
inline constexpr auto kWriteOnOneLine = MessageText("write_on_one_line", "write it on one line");
inline constexpr auto kAnimalWithoutCatch = MessageText("animal_without_catch", "is given, but photo says that nothing was caught");
inline constexpr auto kLeaveEmptyOrNamePhoto = MessageText("leave_empty_or_name_photo", "leave it empty, or name the photo of the animal");
inline constexpr auto kGiveBothDegrees = MessageText("give_both_degrees", "give both latitude and longitude, or neither");
inline constexpr auto kTotalBelowSvl = MessageText("total_below_svl", "is less than svl_mm");
inline constexpr auto kAreTheySwapped = MessageText("are_they_swapped", "the total length includes the tail: are the two swapped?");
inline constexpr auto kNotKnown = MessageText("not_known", "{text} is not known");
inline constexpr auto kWriteSex = MessageText("write_sex", "write female, male or unknown, or leave it empty");
inline constexpr auto kWriteStage = MessageText("write_stage", "write adult, subadult, juvenile or metamorph, or leave it empty");
inline constexpr auto kNotANumber = MessageText("not_a_number", "{text} is not a number");
inline constexpr auto kWriteNumber = MessageText("write_number", "write {range}, without the unit");
inline constexpr auto kWriteWithin = MessageText("write_within", "write {range}");
inline constexpr auto kNumberFromTo = MessageText("number_from_to", "a number of {unit} from {low} to {high}");
inline constexpr auto kMillimetres = MessageText("millimetres", "millimetres");
inline constexpr auto kGrams = MessageText("grams", "grams");
inline constexpr auto kDegrees = MessageText("degrees", "degrees");
inline constexpr auto kNeitherYesNorNo = MessageText("neither_yes_nor_no", "{text} is neither yes nor no");
inline constexpr auto kWriteReleased = MessageText("write_released", "write no if the animal died or was not released, yes or nothing if it was; more goes into notes");
inline constexpr auto kWritePhotoOrNone = MessageText("write_photo_or_none", "write the name of a file in the photos folder, or none if nothing was caught that night");
inline constexpr auto kHoldsZeroByte = MessageText("holds_zero_byte", "{text} holds a zero byte");
inline constexpr auto kWritePhoto = MessageText("write_photo", "write the name of a file in the photos folder");
inline constexpr auto kLeadsOutOfFolder = MessageText("leads_out_of_folder", "{text} leads out of the photos folder");
inline constexpr auto kWritePhotoInside = MessageText("write_photo_inside", "write the name of a file in the photos folder, without '..' or a leading '/'");

// A night.
inline constexpr auto kWriteNight = MessageText("write_night", "write the date on which the night began, as 2024-05-14");
inline constexpr auto kWriteNightOnly = MessageText("write_night_only", "write the date on which the night began");
inline constexpr auto kNoSuchMonth = MessageText("no_such_month", "{text} is not a date: there is no month {month}");
inline constexpr auto kWriteYearMonthDay = MessageText("write_year_month_day", "write year-month-day, as 2024-05-14");
inline constexpr auto kNotADate = MessageText("not_a_date", "{text} is not a date");
inline constexpr auto kMonthHasDays = MessageText("month_has_days", "{month} {year} has {days} days");
inline constexpr auto kNotYearMonthDay = MessageText("not_year_month_day", "{text} is not written as year-month-day");
inline constexpr auto kTwoDays = MessageText("two_days", "{text} can be two days");
inline constexpr auto kWriteEitherDate = MessageText("write_either_date", "write {date} or {other}, whichever is meant");
inline constexpr auto kSpreadsheetDay = MessageText("spreadsheet_day", "{text} is a spreadsheet's own day number, not a date");
inline constexpr auto kFormatAsText = MessageText("format_as_text", "format the column as text or as YYYY-MM-DD and save the sheet again");
inline constexpr auto kInTheFuture = MessageText("in_the_future", "{text} is in the future (today is {today})");
inline constexpr auto kBefore1900 = MessageText("before_1900", "{text} is before 1900");
inline constexpr auto kWriteFullYear = MessageText("write_full_year", "write the year with all four digits");

inline constexpr MessageText kMonths[] = {MessageText("january", "January"),
                                          MessageText("february", "February"),
                                          MessageText("march", "March"),
                                          MessageText("april", "April"),
                                          MessageText("may", "May"),
                                          MessageText("june", "June"),
                                          MessageText("july", "July"),
                                          MessageText("august", "August"),
                                          MessageText("september", "September"),
                                          MessageText("october", "October"),
                                          MessageText("november", "November"),
                                          MessageText("december", "December")};

// Rows held against the photos and the catalogue.
inline constexpr auto kNoSuchPhoto = MessageText("no_such_photo", "there is no such file");
inline constexpr auto kWhichIsMeant = MessageText("which_is_meant", "which is meant, {names}?");
inline constexpr auto kCheckNameAndFolder = MessageText("check_name_and_folder", "check the name and the photos folder, {folder}");
inline constexpr auto kTakenToBeFile = MessageText("taken_to_be_file", "taken to be the file {name}");
inline constexpr auto kPhotoChanged = MessageText("photo_changed", "the file changed while the night was taken in");
inline constexpr auto kRunAgain = MessageText("run_again", "run the same command again");
inline constexpr auto kCaptureOf = MessageText("capture_of", "capture {name} of {night} at {place}");
inline constexpr auto kSamePictureAsLine = MessageText("same_picture_as_line", "the same picture, byte for byte, as {photo} on line {line}");
inline constexpr auto kTakenInOnce = MessageText("taken_in_once", "it is taken in once");
inline constexpr auto kSamePictureOtherCapture = MessageText("same_picture_other_capture", "the same picture, byte for byte, as {photo} on line {line}, which is another capture");
inline constexpr auto kOneAnimalOnce = MessageText("one_animal_once", "a picture shows one animal once: leave one row out");
inline constexpr auto kPictureAtOtherNight = MessageText("picture_at_other_night", "the same picture is in the catalogue already, in {capture}");
inline constexpr auto kNothingWorkedThen = MessageText("nothing_worked_then", "nothing was worked there then, as far as the sheets say");
inline constexpr auto kStandsThereAlready = MessageText("stands_there_already", "it stands there already");
inline constexpr auto kLeaveOutMendOrMove = MessageText("leave_out_mend_or_move", "leave the row out, mend its night and place, or say --move if the sheet is right");
inline constexpr auto kPictureOfOtherCapture = MessageText("picture_of_other_capture", "the picture is in the catalogue already, in {capture}, but the sheet puts it with photos of {other}");
inline constexpr auto kMakeOwnCapture = MessageText("make_own_capture", "make it a capture of its own, and if both are one animal, tell evet verdict");
inline constexpr auto kTwoCapturesOfOne = MessageText("two_captures_of_one", "the picture is in the catalogue already, in {capture}, but the sheet makes two captures of that, here and on line {line}");
inline constexpr auto kGiveSameCapture = MessageText("give_same_capture", "give the rows the same capture");
inline constexpr auto kNoCatchButCatalogue = MessageText("no_catch_but_catalogue", "says that nothing was caught on {night} at {place}, but the catalogue holds {n} capture of that night there", "says that nothing was caught on {night} at {place}, but the catalogue holds {n} captures of that night there");
inline constexpr auto kTakeRowOut = MessageText("take_row_out", "take the row out, or mend its night or place");
inline constexpr auto kWriteItAsThat = MessageText("write_it_as_that", "write it as that, or say with --in-spite \"WHY\" that it is another place");

// What is noticed, and stops nothing.
inline constexpr auto kPlacedNotice = MessageText("placed_notice", "{where}: {what}");
inline constexpr auto kSamePictureOtherName = MessageText("same_picture_other_name", "the same picture, byte for byte, as {photo}, which is in the catalogue already, in {capture}");
inline constexpr auto kNotAddedAgain = MessageText("not_added_again", "it is not added again");
inline constexpr auto kClockDisagrees = MessageText("clock_disagrees", "by the camera's clock {n} photo of the night of {night} was taken on {date} ({photo}): if the sheet's night is wrong, mend it and take the sheet in again with --move; else set the clock", "by the camera's clock {n} photos of the night of {night} were taken on {date} ({photo} and others): if the sheet's night is wrong, mend it and take the sheet in again with --move; else set the clock");
inline constexpr auto kMovedElsewhere = MessageText("moved_elsewhere", "capture {name} had been taken in elsewhere as of {before} at {place}; it is of {night} now");
inline constexpr auto kCorrected = MessageText("corrected", "capture {name} of {night} was in the catalogue already and is corrected: {changes}");
inline constexpr auto kFieldIsNow = MessageText("field_is_now", "{field} is now {value}");
inline constexpr auto kFieldIsBlank = MessageText("field_is_blank", "{field} is now blank");

// Many rows with one fault.
inline constexpr auto kLinesFromTo = MessageText("lines_from_to", "lines {first} to {last}");
inline constexpr auto kLinesNamed = MessageText("lines_named", "lines {lines}");
inline constexpr auto kMore = MessageText("more", "{count} more");
inline constexpr auto kRowsTogether = MessageText("rows_together", "{lines}: {fault} ({n} row)", "{lines}: {fault} ({n} rows)");
inline constexpr auto kColumnTogether = MessageText("column_together", "{lines}, {column}: {fault} ({n} row)", "{lines}, {column}: {fault} ({n} rows)");
inline constexpr auto kPhotosTogether = MessageText("photos_together", "{lines}, {n} photo: {fault} ({photos})", "{lines}, {n} photos: {fault} ({photos})");

inline constexpr auto kLabelOfAnother = MessageText("label_of_another", "{label} is the label of an animal that this catalogue knows by its photos, and two individuals would bear it");
inline constexpr auto kSettleByPhotos = MessageText("settle_by_photos", "leave it out and settle the capture by its photos");
inline constexpr auto kNightSaidOtherwise = MessageText("night_said_otherwise", "line {line} says {text} of the same night");
inline constexpr auto kWriteTheSameOrNothing = MessageText("write_the_same_or_nothing", "write it once, or the same on every row");
inline constexpr auto kNightWrittenDown = MessageText("night_written_down", "written down of the night of {night}: {fields}");
inline constexpr auto kNotOfThisEvening = MessageText("not_of_this_evening", "it is not among this evening's");
inline constexpr auto kEveningIsFull = MessageText("evening_is_full", "it has {most_draft_photos} photos");
inline constexpr auto kTakeTheseInFirst = MessageText("take_these_in_first", "take these in first, then go on");
inline constexpr auto kIsThereAlready = MessageText("is_there_already", "it is there already");
inline constexpr auto kSecondsOutOfRange = MessageText("seconds_out_of_range", "{seconds} s is out of range");
inline constexpr auto kGiveSecondsUpTo = MessageText("give_seconds_up_to", "give 1 to {longest_gap_seconds} seconds");
inline constexpr auto kNoSuchColumn = MessageText("no_such_column", "the sheet has no such column to write in");
inline constexpr auto kCellTooLong = MessageText("cell_too_long", "it is longer than {longest_cell} bytes, or no text");
inline constexpr auto kCellHoldsControl = MessageText("cell_holds_control", "it holds a line end or another control character");
inline constexpr auto kEveningHasPhotos = MessageText("evening_has_photos", "this evening has photos");
inline constexpr auto kLeavePhotosOutFirst = MessageText("leave_photos_out_first", "leave them out first, if nothing was caught");
inline constexpr auto kNoNameForPhoto = MessageText("no_name_for_photo", "no photo can be called that");
inline constexpr auto kRenameFile = MessageText("rename_file", "give the file another name");
inline constexpr auto kDraftIsNoFolder = MessageText("draft_is_no_folder", "it is no folder");
inline constexpr auto kTakeItAway = MessageText("take_it_away", "take it away, or move it elsewhere");
inline constexpr auto kNoDraft = MessageText("no_draft", "it is not the draft of an evening");
inline constexpr auto kPhotoIsGone = MessageText("photo_is_gone", "it is no longer there");
inline constexpr auto kDropItAgain = MessageText("drop_it_again", "drop it here again");
inline constexpr auto kPhotoOnCapture = MessageText("photo_on_capture", "it is on a capture");
inline constexpr auto kLeaveItOutFirst = MessageText("leave_it_out_first", "leave it out first");
inline constexpr auto kDraftIsNewer = MessageText("draft_is_newer", "a newer program wrote it");
inline constexpr auto kNoHome = MessageText("no_home", "nothing says where it is");
inline constexpr auto kSetHome = MessageText("set_home", "set HOME or EVET_HOME");
inline constexpr auto kNoNameForFolder = MessageText("no_name_for_folder", "no folder can be called after it");
inline constexpr auto kGiveLetters = MessageText("give_letters", "give 1 to 80 letters or digits");
inline constexpr auto kOpenItOrRename = MessageText("open_it_or_rename", "open the catalogue in it, or give the new one another name");

// A draft as it lies on the disk.
inline constexpr auto kNoFieldInDraft = MessageText("no_field_in_draft", "it has no field '{field}'");
inline constexpr auto kDraftFieldNoText = MessageText("draft_field_no_text", "field '{field}' is not text");
inline constexpr auto kDraftFieldNoFlag = MessageText("draft_field_no_flag", "field '{field}' is neither true nor false");
inline constexpr auto kDraftFieldNoNumber = MessageText("draft_field_no_number", "field '{field}' is not a number");
inline constexpr auto kDraftFieldNoList = MessageText("draft_field_no_list", "field '{field}' is no list");
inline constexpr auto kDraftPhotoUnsafe = MessageText("draft_photo_unsafe", "photo {photo} has no safe name");
inline constexpr auto kDraftPhotoNoId = MessageText("draft_photo_no_id", "photo {photo} has no identifier");
inline constexpr auto kDraftNoCells = MessageText("draft_no_cells", "its cells are none");
inline constexpr auto kDraftCellNoText = MessageText("draft_cell_no_text", "cell {column} is not text");
inline constexpr auto kDraftPhotoTwice = MessageText("draft_photo_twice", "a photo is there twice");
inline constexpr auto kDraftNoKey = MessageText("draft_no_key", "a capture has no key of its own");
inline constexpr auto kDraftPhotoOfOther = MessageText("draft_photo_of_other", "a capture has a photo that is not its own");

// photo_files.cpp
inline constexpr auto kOrTheLast = MessageText("or_the_last", "{some} or {last}");

// draft.cpp
inline constexpr auto kTheEvening = MessageText("the_evening", "the evening");
inline constexpr auto kThePauseBetween = MessageText("the_pause_between", "the pause between two animals");
inline constexpr auto kANightWithoutACatch = MessageText("a_night_without_a_catch", "a night without a catch");
inline constexpr auto kFileNameItem = MessageText("file_name_item", "file name {name}");

// draft_folder.cpp
inline constexpr auto kEveningCouldNotBeRead = MessageText("evening_could_not_be_read", "The evening that was being prepared could not be read; it is kept as {file}, and its photos are here.");
inline constexpr auto kPhotosNoLongerThere = MessageText("photos_no_longer_there", "{n} photo is no longer where this evening is kept: {names}.", "{n} photos are no longer where this evening is kept: {names}.");

// draft_json.cpp
inline constexpr auto kDraftOfAnEvening = MessageText("draft_of_an_evening", "the draft of an evening");

// intake_night.cpp
inline constexpr auto kCheckingPhotos = MessageText("checking_photos", "checking photos");

// known_catalogues.cpp
inline constexpr auto kCannotBeOpenedAudit = MessageText("cannot_be_opened_audit", "It cannot be opened: 'evet audit' says more.");
inline constexpr auto kTheUsersFolder = MessageText("the_users_folder", "the user's folder");
inline constexpr auto kTheNameItem = MessageText("the_name_item", "the name {name}");
inline constexpr auto kTheFolderItem = MessageText("the_folder_item", "the folder {folder}");

// take_night.cpp
inline constexpr auto kExaminingPhotos = MessageText("examining_photos", "examining photos");

// moved_visits.cpp
inline constexpr auto kCapturesWereMoved = MessageText("captures_were_moved", "its captures were moved to another night or place");

// take_night.cpp
inline constexpr auto kSheetSaysWhere = MessageText("sheet_says_where", "the sheet {sheet} says where the picture was taken");
inline constexpr auto kSheetTakenInAgain = MessageText("sheet_taken_in_again", "the sheet {sheet} taken in again");
inline constexpr auto kSheetSaysSo = MessageText("sheet_says_so", "the sheet {sheet} says so");

// draft.cpp
inline constexpr auto kColumnItem = MessageText("column_item", "column {name}");

// clang-format on
}  // namespace evet::messages
