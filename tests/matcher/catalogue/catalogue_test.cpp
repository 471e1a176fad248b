#include "matcher/catalogue/catalogue.h"

#include <gtest/gtest.h>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet {
namespace {

using namespace try_out;

TEST(Catalogue, KeepsWhatWasSaidAndOpensAgain) {
  const Folder folder;
  CaptureId capture;
  {
    Catalogue catalogue = Catalogue::create(folder.path / "pond", "Mill pond", person("R1"), system_env());
    const Bytes picture = bytes("not really a picture");
    const PhotoId photo = catalogue.store_photo(picture);
    capture = catalogue.new_capture_id();
    const auto entries = catalogue.append(
        person("R1"), {Capture{capture, facts("2031-05-14", "c1")}, photo_of(photo, capture, "a.jpg"),
                       Verdict{.capture = capture, .answer = Answer::new_individual, .reason = "no match"}});
    ASSERT_EQ(entries.size(), 3u);
    EXPECT_EQ(entries[2].prev, entries[1].hash);
    EXPECT_EQ(catalogue.head_hash(), entries[2].hash);
  }
  Catalogue again = Catalogue::open(folder.path / "pond", system_env());
  EXPECT_EQ(again.title(), "Mill pond");
  const Identities& who = again.identities();
  ASSERT_EQ(who.captures.size(), 1u);
  ASSERT_EQ(who.individuals.size(), 1u);
  EXPECT_EQ(who.individuals[0].captures[0], capture);
  EXPECT_EQ(who.captures[0].facts, facts("2031-05-14", "c1"));
  EXPECT_EQ(again.read_photo(who.captures[0].photos.at(0).photo), bytes("not really a picture"));
}

}  // namespace
}  // namespace evet
