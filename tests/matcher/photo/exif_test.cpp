#include "matcher/photo/exif.h"

#include <gtest/gtest.h>

#include "matcher/photo/decode.h"
#include "tests/matcher/photo/sample_files.h"

namespace evet {
namespace {

TEST(Exif, TimeOffsetPositionAndCameraAreReadFromEveryFormat) {
  const cv::Mat3b picture = samples::quarters(32, 24);
  const samples::Bytes exif = samples::exif_block({.position = true});
  for (const samples::Bytes& file :
       {samples::jpeg(picture, {.exif = exif}), samples::png(picture, {.exif = exif}),
        samples::heic(picture, 1, exif)}) {
    const PhotoHeader header = read_photo_header(file, "a");
    EXPECT_EQ(header.taken_at, "2031-05-14T22:41:07");
    EXPECT_EQ(header.taken_at_offset, "+02:00");
    EXPECT_TRUE(header.has_position);
    EXPECT_EQ(header.camera, "Tarn T2");
  }
}

TEST(Exif, NothingIsAssumedWhereNothingWasWritten) {
  const PhotoHeader header = read_photo_header(samples::jpeg(samples::quarters(32, 24)), "a");
  EXPECT_FALSE(header.taken_at.has_value());
  EXPECT_FALSE(header.taken_at_offset.has_value());
  EXPECT_FALSE(header.has_position);
  EXPECT_EQ(header.camera, "");
  EXPECT_EQ(header.orientation, 1);
}

TEST(Exif, ImpossibleValuesAreLeftOut) {
  for (const char* time :
       {"0000:00:00 00:00:00", "    :  :     :  :  ", "2031:13:14 22:41:07", "2031:02:30 22:41:07",
        "2031:05:14 24:00:00", "2031:05:14 22:60:07", "2031:05:14 22:41:60", "2031:05:14 22:41:07Z",
        "2031/05/14 22:41:07", "2031:5:14 22:41:07", "2O31:05:14 22:41:07", "yesterday", ""})
    EXPECT_FALSE(read_exif(samples::exif_block({.taken_at = time})).taken_at.has_value()) << time;
  for (const char* offset : {"+2:00", "   :  ", "UTC", "+25:00", "+15:00", "-02:60", "02:00", "+02:001", ""})
    EXPECT_FALSE(read_exif(samples::exif_block({.offset = offset})).taken_at_offset.has_value()) << offset;
  for (const int orientation : {0, 9, 65535})
    EXPECT_EQ(read_exif(samples::exif_block({.orientation = orientation})).orientation, 1);
}

TEST(Exif, TimesAsOtherProgramsWriteThemAreRead) {
  EXPECT_EQ(read_exif(samples::exif_block({.taken_at = "2031-05-14T22:41:07"})).taken_at,
            "2031-05-14T22:41:07");
  EXPECT_EQ(read_exif(samples::exif_block({.taken_at = "2032:02:29 23:59:59 "})).taken_at,
            "2032-02-29T23:59:59");
  EXPECT_EQ(read_exif(samples::exif_block({.offset = "-14:59"})).taken_at_offset, "-14:59");
}

TEST(Exif, MakerAndModelAreJoinedAndSafeToPrint) {
  EXPECT_EQ(read_exif(samples::exif_block({.make = "Tarn", .model = "Two"})).camera, "Tarn Two");
  EXPECT_EQ(read_exif(samples::exif_block({.make = "Tarn", .model = ""})).camera, "Tarn");
  EXPECT_EQ(read_exif(samples::exif_block({.make = "", .model = "T\n2"})).camera, "T\\n2");
}

TEST(Exif, APositionInAnXmpPacketIsSeen) {
  samples::Bytes file = samples::png(samples::quarters(32, 24));
  const samples::Bytes packet = samples::bytes_of("<rdf exif:GPSLatitude=\"52,10.5N\"/>");
  file.insert(file.end(), packet.begin(), packet.end());
  EXPECT_TRUE(read_photo_header(file, "a").has_position);
}

TEST(Exif, NoiseIsNotAnError) {
  EXPECT_EQ(read_exif({}).orientation, 1);
  const samples::Bytes noise = samples::bytes_of("MM\0*no directory here at all, just words and words");
  EXPECT_EQ(read_exif(noise).orientation, 1);
}

}  // namespace
}  // namespace evet
