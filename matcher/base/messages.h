// What is said of files, folders and bytes, whoever they belong to.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kNoSuchFileOrFolder = MessageText("no_such_file_or_folder", "there is no such file or folder");
inline constexpr auto kFileWhereFolder = MessageText("file_where_folder", "it is a file, or lies under one, where a folder has to be");
inline constexpr auto kUnderAFile = MessageText("under_a_file", "it lies under a file, where a folder has to be");
inline constexpr auto kNameAnotherPlace = MessageText("name_another_place", "name another place, or move that file away");
inline constexpr auto kFolderNotFile = MessageText("folder_not_file", "it is a folder, not a file");
inline constexpr auto kNameAFile = MessageText("name_a_file", "name a file");
inline constexpr auto kNoSuchFolder = MessageText("no_such_folder", "there is no such folder");
inline constexpr auto kMakeItFirst = MessageText("make_it_first", "make it first, or name another");
inline constexpr auto kFolderNotWritable = MessageText("folder_not_writable", "the folder {folder} may not be written to");
inline constexpr auto kUseWritableFolder = MessageText("use_writable_folder", "use a folder that you may write to");
inline constexpr auto kDoingFailed = MessageText("doing_failed", "{doing} failed ({why})");
inline constexpr auto kDrawing = MessageText("drawing_random", "drawing");
inline constexpr auto kReading = MessageText("reading", "reading");
inline constexpr auto kWriting = MessageText("writing", "writing");
inline constexpr auto kWritingToDisk = MessageText("writing_to_the_disk", "writing to the disk");
inline constexpr auto kRenaming = MessageText("renaming", "renaming");
inline constexpr auto kRemoving = MessageText("removing", "removing");
inline constexpr auto kMakingFolder = MessageText("making_the_folder", "making the folder");
inline constexpr auto kReadingFolder = MessageText("reading_the_folder", "reading the folder");
inline constexpr auto kFreeSomeSpace = MessageText("free_some_space", "free some space and run the same command again");

// Values.
inline constexpr auto kOutOfRange = MessageText("out_of_range", "{text} is out of range");
inline constexpr auto kWriteIsoDate = MessageText("write_iso_date", "write it as 2024-05-14");
inline constexpr auto kIsNotFile = MessageText("is_not_file", "it is not a file");
inline constexpr auto kThereIsSomethingAlready = MessageText("there_is_something_already", "there is something already");
inline constexpr auto kNameAnotherPlaceBase = MessageText("name_another_place_base", "name another place");
inline constexpr auto kUseFileAsGzipWrote = MessageText("use_file_as_gzip_wrote", "use the file as gzip wrote it");
inline constexpr auto kThereIsNoMemoryUnpack = MessageText("there_is_no_memory_unpack", "there is no memory to unpack it");
inline constexpr auto kCannotBeRead = MessageText("cannot_be_read", "cannot be read: {e}");
inline constexpr auto kTakesAnotherInput = MessageText("takes_another_input", "takes another input: {e}");
inline constexpr auto kNoEntryIdIsLeft = MessageText("no_entry_id_is_left", "no entry id is left after the newest one");
inline constexpr auto kEntryWithImpossibleTimeWas = MessageText("entry_with_impossible_time_was", "an entry with an impossible time was merged in: run the audit");
inline constexpr auto kSignatureFailed = MessageText("signature_failed", "it could not be made or checked (OpenSSL)");
inline constexpr auto kIsNoEd25519Key = MessageText("is_no_ed25519_key", "it is no Ed25519 key");
inline constexpr auto kPutKeyBack = MessageText("put_key_back", "put it back from a copy, or move it away: a new key is then made");
inline constexpr auto kUseOnnxOfTraining = MessageText("use_onnx_of_training", "use the ONNX file that the training script writes");
inline constexpr auto kUnpacksToMore = MessageText("unpacks_to_more", "it unpacks to more than {bytes} bytes");
inline constexpr auto kIsCutOff = MessageText("is_cut_off", "it is cut off");
inline constexpr auto kNotWhatGzipWrote = MessageText("not_what_gzip_wrote", "it is not what gzip wrote");

// CSV.
inline constexpr auto kQuoteNotClosed = MessageText("quote_not_closed", "a double quote is opened here and does not close properly before line {line}");
inline constexpr auto kCloseTheQuote = MessageText("close_the_quote", "close the quote; inside a quoted field write each double quote twice");
inline constexpr auto kQuoteInsideField = MessageText("quote_inside_field", "a double quote stands inside a field");
inline constexpr auto kQuoteTheField = MessageText("quote_the_field", "put the whole field in double quotes and write each double quote inside it twice");

// clang-format on
}  // namespace evet::messages
