// What is said of photos and their files.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kNotPictureProgramReadsSeems = MessageText("not_picture_program_reads_seems", "not a picture this program reads: it seems to be {file}");
inline constexpr auto kGiveJpegPngTiffOr = MessageText("give_jpeg_png_tiff_or", "give a JPEG, PNG, TIFF or HEIC file");
inline constexpr auto kPictureIsXPixelsBy = MessageText("picture_is_x_pixels_by", "the picture is {width} x {height} pixels by its header");
inline constexpr auto kCopyFromCamerasCardAgain = MessageText("copy_from_cameras_card_again", "copy it from the camera's card again");
inline constexpr auto kPictureIsXPixelsMegapixels = MessageText("picture_is_x_pixels_megapixels", "the picture is {width} x {height} pixels ({megapixels} megapixels)");
inline constexpr auto kAtMostMegapixelsAndPixels = MessageText("at_most_megapixels_and_pixels", "at most {max_megapixels} megapixels and {longest_side} pixels a side are read: export it smaller");
inline constexpr auto kDataIsDamagedOrCut = MessageText("data_is_damaged_or_cut", "the {format} data is damaged or cut short ({detail})");
inline constexpr auto kNotPictureProgramReads = MessageText("not_picture_program_reads", "not a picture this program reads: {what}");
inline constexpr auto kUseMoreThan0And = MessageText("use_more_than_0_and", "use more than 0 and at most 1000");
inline constexpr auto kIsNegativePhoto = MessageText("is_negative_photo", "{enough_long_side_px} is negative");
inline constexpr auto kUse0ForFullSize = MessageText("use_0_for_full_size", "use 0 for full size, or a number of pixels");
inline constexpr auto kBytesStoppedDecoderPictureIs = MessageText("bytes_stopped_decoder_picture_is", "its bytes stopped the decoder: the picture is damaged, or was made to do harm");
inline constexpr auto kDecodingTakesLongerThanS = MessageText("decoding_takes_longer_than_s", "decoding it takes longer than {seconds} s: the picture is damaged, or was made to take for ever");
inline constexpr auto kCopyFromCamerasCardAgainOr = MessageText("copy_from_cameras_card_again_or", "copy it from the camera's card again, or export it smaller");
inline constexpr auto kDecodingTakesMuchMemory = MessageText("decoding_takes_much_memory", "decoding it takes more memory than a picture may");
inline constexpr auto kExportItSmaller = MessageText("export_it_smaller", "export it smaller");
inline constexpr auto kMachineGivesNoMoreProcesses = MessageText("machine_gives_no_more_processes", "the machine gives no more processes");
inline constexpr auto kCloseOtherProgramsAndRun = MessageText("close_other_programs_and_run", "close other programs and run the same command again");
inline constexpr auto kFileIsLargerThanAny = MessageText("file_is_larger_than_any", "the file is larger than any photo");
inline constexpr auto kHasNoPixelsPhoto = MessageText("has_no_pixels_photo", "has no pixels");
inline constexpr auto kGiveOneEncode = MessageText("give_one_encode", "give one to encode");
inline constexpr auto kHasPixelsAreNot8 = MessageText("has_pixels_are_not_8", "has pixels that are not 8-bit grey or colour");
inline constexpr auto kConvertBeforeIsEncoded = MessageText("convert_before_is_encoded", "convert it before it is encoded");
inline constexpr auto kCannotBeWrittenAsJpeg = MessageText("cannot_be_written_as_jpeg", "cannot be written as JPEG: {text}");
inline constexpr auto kCannotBeWrittenAsPng = MessageText("cannot_be_written_as_png", "cannot be written as PNG: {image}");
inline constexpr auto kIsNotBetween1And = MessageText("is_not_between_1_and", "is not between 1 and 100");
inline constexpr auto kN88IsUsual = MessageText("n88_is_usual", "88 is usual");
inline constexpr auto kThereIsNoSuchFile = MessageText("there_is_no_such_file", "there is no such file");
inline constexpr auto kCheckNameAndFolderPhoto = MessageText("check_name_and_folder_photo", "check the name and the folder");
inline constexpr auto kUserMayNotReadFile = MessageText("user_may_not_read_file", "this user may not read the file");
inline constexpr auto kChangePermissions = MessageText("change_permissions", "change its permissions");
inline constexpr auto kFileCannotBeOpenedPhoto = MessageText("file_cannot_be_opened_photo", "the file cannot be opened: {error}");
inline constexpr auto kGivePathOfPictureFile = MessageText("give_path_of_picture_file", "give the path of a picture file");
inline constexpr auto kReadingFailed = MessageText("reading_failed", "reading failed: {error}");
inline constexpr auto kCheckDiskOrCardAnd = MessageText("check_disk_or_card_and", "check the disk or the card and try again");
inline constexpr auto kFileIsLargerThanMb = MessageText("file_is_larger_than_mb", "the file is larger than {e6} MB");
inline constexpr auto kGivePictureAsCameraWrote = MessageText("give_picture_as_camera_wrote", "give the picture as the camera wrote it, or export it smaller");
inline constexpr auto kIsFolderNotFile = MessageText("is_folder_not_file", "this is a folder, not a file");
inline constexpr auto kNamePicturesInOneBy = MessageText("name_pictures_in_one_by", "name the pictures in it one by one");
inline constexpr auto kIsNotOrdinaryFile = MessageText("is_not_ordinary_file", "this is not an ordinary file");
inline constexpr auto kFileIsEmpty0Bytes = MessageText("file_is_empty_0_bytes", "the file is empty (0 bytes)");

// clang-format on
}  // namespace evet::messages
