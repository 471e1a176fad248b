#include "matcher/photo/decode.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "tests/matcher/photo/sample_files.h"

namespace evet {
namespace {

using samples::Bytes;
using testing::HasSubstr;

// Mean absolute difference over all samples, grey levels.
double difference(const cv::Mat3b& a, const cv::Mat3b& b) {
  if (a.size() != b.size()) return 255;
  return cv::norm(a, b, cv::NORM_L1) / static_cast<double>(a.total() * 3);
}

Error error_of(const Bytes& file, const DecodeOptions& options = {}) {
  try {
    decode_photo(file, "IMG_7.jpg", options);
  } catch (const Error& error) {
    return error;
  }
  ADD_FAILURE() << "decoded without an error";
  return Error(ErrorKind::usage, "", "none");
}

const cv::Mat3b kPicture = samples::quarters(96, 64);

TEST(Decode, EveryFormatGivesThePictureThatWasStored) {
  EXPECT_LT(difference(decode_photo(samples::jpeg(kPicture), "a").bgr, kPicture), 3);
  EXPECT_LT(difference(decode_photo(samples::jpeg(kPicture, {.progressive = true}), "a").bgr, kPicture), 3);
  EXPECT_EQ(difference(decode_photo(samples::png(kPicture), "a").bgr, kPicture), 0);
  EXPECT_EQ(difference(decode_photo(samples::png(kPicture, {.interlaced = true}), "a").bgr, kPicture), 0);
  EXPECT_EQ(difference(decode_photo(samples::png(kPicture, {.palette = true}), "a").bgr, kPicture), 0);
  EXPECT_EQ(difference(decode_photo(samples::tiff(kPicture), "a").bgr, kPicture), 0);
  EXPECT_EQ(difference(decode_photo(samples::tiff(kPicture, {.tiled = true}), "a").bgr, kPicture), 0);
  EXPECT_EQ(difference(decode_photo(samples::tiff(kPicture, {.compression = 1}), "a").bgr, kPicture), 0);
  EXPECT_LT(difference(decode_photo(samples::heic(kPicture), "a").bgr, kPicture), 4);
}

TEST(Decode, SixteenBitsBecomeEight) {
  EXPECT_LE(difference(decode_photo(samples::png(kPicture, {.bits = 16}), "a").bgr, kPicture), 0.5);
  EXPECT_LE(difference(decode_photo(samples::tiff(kPicture, {.bits = 16}), "a").bgr, kPicture), 0.5);
}

TEST(Decode, TransparencyIsLaidOverWhite) {
  cv::Mat3b expected = kPicture.clone();
  expected.colRange(0, 48).setTo(cv::Vec3b{255, 255, 255});
  for (const int bits : {8, 16}) {
    EXPECT_LE(
        difference(decode_photo(samples::png(kPicture, {.bits = bits, .alpha = true}), "a").bgr, expected),
        0.5);
    EXPECT_LE(
        difference(decode_photo(samples::tiff(kPicture, {.bits = bits, .alpha = true}), "a").bgr, expected),
        0.5);
  }
}

TEST(Decode, GreyAndFourInkJpegs) {
  cv::Mat1b grey;
  cv::cvtColor(kPicture, grey, cv::COLOR_BGR2GRAY);
  cv::Mat3b expected;
  cv::cvtColor(grey, expected, cv::COLOR_GRAY2BGR);
  EXPECT_LT(
      difference(decode_photo(samples::jpeg(kPicture, {.inks = samples::Inks::grey}), "a").bgr, expected), 3);
  EXPECT_LT(
      difference(decode_photo(samples::jpeg(kPicture, {.inks = samples::Inks::cmyk}), "a").bgr, kPicture), 3);
  EXPECT_LT(
      difference(decode_photo(samples::jpeg(kPicture, {.inks = samples::Inks::ycck}), "a").bgr, kPicture), 3);
}

class Orientation : public testing::TestWithParam<int> {};
INSTANTIATE_TEST_SUITE_P(OneToEight, Orientation, testing::Range(1, 9));

TEST_P(Orientation, IsAppliedOnceInEveryFormat) {
  const cv::Mat3b stored = samples::stored_as(kPicture, GetParam());
  const Bytes exif = samples::exif_block({.orientation = GetParam()});
  EXPECT_LT(difference(decode_photo(samples::jpeg(stored, {.exif = exif}), "a").bgr, kPicture), 3);
  EXPECT_EQ(difference(decode_photo(samples::png(stored, {.exif = exif}), "a").bgr, kPicture), 0);
  EXPECT_EQ(difference(decode_photo(samples::tiff(stored, {.orientation = GetParam()}), "a").bgr, kPicture),
            0);
  // A camera writes the turn twice into HEIC, as the file's own property and into Exif:
  // only the first counts.
  EXPECT_LT(difference(decode_photo(samples::heic(stored, GetParam(), exif), "a").bgr, kPicture), 4);
}

TEST_P(Orientation, HeaderSaysTheSizeAsStored) {
  const cv::Mat3b stored = samples::stored_as(kPicture, GetParam());
  const PhotoHeader header = read_photo_header(
      samples::jpeg(stored, {.exif = samples::exif_block({.orientation = GetParam()})}), "a");
  EXPECT_EQ(header.orientation, GetParam());
  EXPECT_EQ(header.width_px, stored.cols);
  EXPECT_EQ(header.height_px, stored.rows);
}

TEST(Decode, ReducedSizeKeepsTheLongSideEnough) {
  const cv::Mat3b large = samples::quarters(1203, 801);
  for (const Bytes& file : {samples::jpeg(large), samples::png(large), samples::tiff(large)}) {
    const Photo photo = decode_photo(file, "a", {.enough_long_side_px = 300});
    EXPECT_EQ(photo.full_per_px, 4);
    EXPECT_EQ(photo.bgr.size(), cv::Size(301, 201));
    EXPECT_EQ(photo.header.width_px, 1203);
    cv::Mat3b expected;
    cv::resize(large(cv::Rect(0, 0, 1200, 800)), expected, {300, 200}, 0, 0, cv::INTER_AREA);
    EXPECT_LT(difference(photo.bgr(cv::Rect(0, 0, 300, 200)).clone(), expected), 3);
  }
  EXPECT_EQ(decode_photo(samples::jpeg(large), "a", {.enough_long_side_px = 1203}).full_per_px, 1);
  EXPECT_EQ(decode_photo(samples::png(large), "a", {.enough_long_side_px = 401}).full_per_px, 3);
  EXPECT_EQ(decode_photo(samples::jpeg(large), "a", {.enough_long_side_px = 401}).full_per_px, 2);
}

TEST(Decode, OtherKindsOfFileAreRefusedByContentWhateverTheirName) {
  const auto refused = [](const Bytes& file, const char* seems) {
    const Error error = error_of(file);
    EXPECT_EQ(error.kind(), ErrorKind::unsupported) << seems;
    EXPECT_THAT(error.what(), HasSubstr("IMG_7.jpg: not a picture this program reads"));
    EXPECT_THAT(error.what(), HasSubstr(seems));
    EXPECT_THAT(error.what(), HasSubstr("give a JPEG, PNG, TIFF or HEIC file"));
  };
  refused(samples::bytes_of("dear diary\n"), "plain text");
  refused(samples::bytes_of("%PDF-1.7\n"), "a PDF document");
  refused(samples::bytes_of("GIF89a"), "a GIF picture");
  refused(samples::bytes_of(std::string("RIFF\0\0\0\0WEBPVP8 ", 16)), "a WebP picture");
  refused(samples::bytes_of(std::string("\0\0\0\x18"
                                        "ftypavif\0\0\0\0avifmif1",
                                        24)),
          "an AVIF picture");
  refused(samples::bytes_of(std::string("\0\0\0\x18"
                                        "ftypmp42\0\0\0\0isommp42",
                                        24)),
          "a video");
  refused(samples::bytes_of(std::string("II*\0\x10\0\0\0CR\x02\0", 12)), "a camera raw file");
  refused(Bytes(64), "a file of zeros");
  refused({}, "an empty file");
}

TEST(Decode, TooLargeByTheHeaderIsRefusedBeforeDecoding) {
  for (const Bytes& file : {samples::png_header(20000, 20000), samples::png_header(1'000'000, 1),
                            samples::tiff_header(20000, 20000), samples::tiff_header(4'000'000'000, 1)}) {
    const Error error = error_of(file);
    EXPECT_EQ(error.kind(), ErrorKind::too_large) << error.what();
    EXPECT_THAT(error.what(), HasSubstr("at most 100 megapixels"));
  }
  EXPECT_EQ(error_of(samples::jpeg(kPicture), {.max_megapixels = 0.006}).kind(), ErrorKind::too_large);
  EXPECT_EQ(error_of(samples::heic(kPicture), {.max_megapixels = 0.006}).kind(), ErrorKind::too_large);
}

TEST(Decode, HeadersWithoutPixelsAreErrors) {
  EXPECT_EQ(error_of(samples::png_header(10, 10)).kind(), ErrorKind::bad_input);
  EXPECT_EQ(error_of(samples::png_header(0, 10)).kind(), ErrorKind::bad_input);
  EXPECT_EQ(error_of(samples::tiff_header(0, 0)).kind(), ErrorKind::bad_input);
  EXPECT_EQ(error_of(samples::tiff_header(0xffffffff, 0xffffffff)).kind(), ErrorKind::bad_input);
}

// libpng sets memory aside for the length that a chunk claims.
TEST(Decode, APngChunkThatClaimsMoreThanTheFileHoldsIsRefused) {
  Bytes file = samples::png(kPicture, {.exif = samples::exif_block({})});
  const std::string name = "eXIf";
  const auto* letters = reinterpret_cast<const std::byte*>(name.data());
  const auto chunk = std::search(file.begin(), file.end(), letters, letters + 4);
  ASSERT_NE(chunk, file.end());
  *(chunk - 4) = std::byte{0x41};  // about a gigabyte
  const Error error = error_of(file);
  EXPECT_EQ(error.kind(), ErrorKind::bad_input);
  EXPECT_THAT(error.what(), HasSubstr("a chunk runs past the end of the file"));
}

// Cut at every byte: an error, or the whole picture; never part of one.
void expect_whole_or_error(const Bytes& file, const cv::Mat3b& whole) {
  for (std::size_t size = 0; size < file.size(); ++size) {
    try {
      const Photo photo = decode_photo(std::span(file).first(size), "cut");
      EXPECT_EQ(difference(photo.bgr, whole), 0) << "cut at " << size << " of " << file.size();
    } catch (const Error& error) {
      EXPECT_THAT(error.what(), HasSubstr("cut: "));
    }
  }
}

TEST(Decode, FilesCutAnywhereAreErrorsOrWhole) {
  const cv::Mat3b small = samples::quarters(40, 24);
  const Bytes exif = samples::exif_block({.position = true});
  for (const Bytes& file : {samples::jpeg(small, {.exif = exif}), samples::jpeg(small, {.progressive = true}),
                            samples::png(small, {.exif = exif}), samples::png(small, {.interlaced = true}),
                            samples::tiff(small), samples::tiff(small, {.compression = 8}),
                            samples::tiff(small, {.compression = 7}), samples::heic(small, 6, exif)})
    expect_whole_or_error(file, decode_photo(file, "whole").bgr);
}

TEST(Decode, ACutJpegIsNeverAHalfGreyPicture) {
  const Bytes file = samples::jpeg(samples::quarters(400, 300));
  for (const double share : {0.3, 0.5, 0.7, 0.9, 0.99}) {
    const auto size = static_cast<std::size_t>(share * static_cast<double>(file.size()));
    const Error error = error_of(Bytes(file.begin(), file.begin() + static_cast<std::ptrdiff_t>(size)));
    EXPECT_EQ(error.kind(), ErrorKind::bad_input);
    EXPECT_THAT(error.what(), HasSubstr("damaged or cut short"));
  }
}

TEST(Decode, BytesAfterTheEndOfAJpegAreHarmless) {
  Bytes file = samples::jpeg(kPicture);
  file.resize(file.size() + 500);
  EXPECT_LT(difference(decode_photo(file, "a").bgr, kPicture), 3);
}

TEST(Decode, ABrokenExifBlockIsNoReasonToRefusePixels) {
  Bytes exif = samples::exif_block({.orientation = 6, .position = true});
  for (std::size_t at = 4; at < exif.size(); ++at) {
    Bytes broken = exif;
    broken[at] = std::byte{0xff};
    EXPECT_EQ(decode_photo(samples::jpeg(kPicture, {.exif = broken}), "a").bgr.total(), kPicture.total());
    EXPECT_EQ(
        decode_photo(samples::jpeg(kPicture, {.exif = Bytes(exif.begin(),
                                                            exif.begin() + static_cast<std::ptrdiff_t>(at))}),
                     "a")
            .bgr.total(),
        kPicture.total());
  }
}

TEST(Decode, NamesAreSafeToPrint) {
  try {
    decode_photo(samples::bytes_of("text"), "night 3\n\x1b[31mmölch.jpg");
    FAIL();
  } catch (const Error& error) {
    EXPECT_THAT(error.what(), HasSubstr("night 3\\n\\x1b[31mmölch.jpg: "));
  }
}

TEST(DecodeOptions, RangesAreChecked) {
  EXPECT_THROW(decode_photo(samples::jpeg(kPicture), "a", {.max_megapixels = 0}), Error);
  EXPECT_THROW(decode_photo(samples::jpeg(kPicture), "a", {.max_megapixels = 1e9}), Error);
  EXPECT_THROW(decode_photo(samples::jpeg(kPicture), "a", {.enough_long_side_px = -1}), Error);
}

}  // namespace
}  // namespace evet
