// One photo that is gone, damaged or hostile is one photo that cannot be matched: the others are.
#include "matcher/catalogue/photo_work.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "matcher/catalogue/search_catalogue.h"
#include "matcher/photo/decoders.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

struct PhotoWork : testing::Test {
  const Folder folder;
  SamplePond pond{folder.path / "pond"};
  std::vector<PhotoRef> refs{{pond.photos[0], pond.a1}, {pond.photos[1], pond.b1}, {pond.photos[2], pond.a2}};
  PhotoWork() {
    fs::remove(folder.path / "pond/photos" / refs[1].photo.value.substr(0, 2) / refs[1].photo.value);
    pond.catalogue.cache().keep_pattern(refs[0].photo, maker_of({}), pattern_of(synthetic::spotted(1), 1));
  }
};

TEST_F(PhotoWork, APhotoThatCannotBeLookedAtIsLeftOut) {
  LeftOut left_out;
  const auto patterns = patterns_of(pond.catalogue, refs, 2, &left_out);
  ASSERT_EQ(patterns.size(), 3u);
  EXPECT_TRUE(patterns[0]);
  EXPECT_FALSE(patterns[1]);
  EXPECT_FALSE(patterns[2]);
  ASSERT_EQ(left_out.size(), 2u);
  EXPECT_THAT(left_out.at(refs[1].photo), HasSubstr("its file is gone"));
  EXPECT_THAT(left_out.at(refs[2].photo), HasSubstr("not a picture this program reads"));
  for (const PhotoRef& ref : {refs[1], refs[2]}) EXPECT_TRUE(strip_jpeg_of(pond.catalogue, ref).empty());
}

TEST_F(PhotoWork, APhotoThatKillsItsDecoderIsOneThatCannotBeMatched) {
  Decoders::Work work = Decoders::usual();
  work.decode = [](std::span<const std::byte> file, const DecodeOptions&, const Decoders::Grant&) -> Photo {
    if (file.size() > 0) std::abort();
    return {};
  };
  Decoders apart({}, work);
  Decoders::use(&apart);
  LeftOut left_out;
  const auto patterns = patterns_of(pond.catalogue, refs, 2, &left_out);
  EXPECT_TRUE(patterns[0]);
  EXPECT_FALSE(patterns[2]);
  EXPECT_THAT(left_out.at(refs[2].photo), HasSubstr("its bytes stopped the decoder"));
  EXPECT_THAT(left_out.at(refs[1].photo), HasSubstr("its file is gone"));
}

TEST_F(PhotoWork, ARankingGoesOnWithoutIt) {
  const CaptureId fresh = pond.add("2031-05-20", "c9");
  pond.catalogue.cache().keep_pattern(pond.photos.back(), maker_of({}), pattern_of(synthetic::spotted(1), 1));
  const CaptureId unreadable = pond.add("2031-05-20", "d9");
  const Ranking ranking = rank_unsettled(pond.catalogue);
  ASSERT_EQ(ranking.captures.size(), 1u);
  EXPECT_EQ(ranking.captures[0].capture, fresh);
  EXPECT_THAT(ranking.unusable, testing::ElementsAre(unreadable));
  EXPECT_EQ(ranking.left_out.size(), 3u);
}

// A midline that came from elsewhere is held to the picture when it is used.
TEST_F(PhotoWork, AMidlineBeyondAnyPictureIsSetAside) {
  const auto said = [&](double x) {
    Examination examination;
    examination.usable = true, examination.maker = "test 1";
    examination.midline = {{-x, 300}, {x, 300}};
    return Reexamined{refs[0].photo, examination};
  };
  for (const double x : {1e9, 200000.0, 1e300})
    EXPECT_THROW(pond.catalogue.append(person("R1"), {said(x)}), Error) << x;
  EXPECT_NO_THROW(pond.catalogue.append(person("R1"), {said(100000)}));
}

}  // namespace
}  // namespace evet
