#include "matcher/catalogue/pattern_cache.h"

#include <gtest/gtest.h>

#include "tests/matcher/catalogue/try_out.h"
#include "tests/tools/review/drawn_pond.h"

namespace evet {
namespace {

std::vector<PhotoRef> all_photos(Catalogue& catalogue) {
  std::vector<PhotoRef> out;
  for (const CaptureState& capture : catalogue.identities().captures)
    for (const PhotoState& photo : capture.photos) out.push_back({photo.photo, capture.id});
  return out;
}

// The pattern is read afresh after each step, and what was kept says the same.
TEST(PatternCache, AreThoseThatTheCatalogueGives) {
  const try_out::Folder folder;
  try_out::draw_pond(folder.path / "pond", {.animals = 3, .again = 1, .fresh = 1, .unusable = 0});
  Catalogue catalogue = Catalogue::open(folder.path / "pond", system_env());
  PatternCache kept;
  const std::vector<PhotoRef> photos = all_photos(catalogue);
  const auto same = [&] {
    const auto mine = kept.of(catalogue, photos, 1), fresh = patterns_of(catalogue, photos, 1);
    for (size_t i = 0; i < photos.size(); ++i) {
      if (mine[i].has_value() != fresh[i].has_value()) return false;
      if (mine[i] &&
          (mine[i]->code.bits != fresh[i]->code.bits || mine[i]->descriptor != fresh[i]->descriptor))
        return false;
    }
    return true;
  };
  EXPECT_TRUE(same());
  const auto before = kept.of(catalogue, {photos[0]}, 1).front()->code.bits;
  Examination drawn;
  drawn.usable = true, drawn.midline = {{90, 60}, {80, 256}, {70, 440}};
  const Actor reader{ActorKind::person, "KM"};
  const auto said = catalogue.append(reader, {Reexamined{photos[0].photo, drawn}});
  EXPECT_TRUE(same());
  const auto along = kept.of(catalogue, {photos[0]}, 1).front();
  EXPECT_TRUE(!along || along->code.bits != before) << "a midline gives another pattern, or none";
  catalogue.append(reader, {Withdrawal{said.front().id}});
  EXPECT_TRUE(same());
  const auto back = kept.of(catalogue, {photos[0]}, 1).front();
  EXPECT_TRUE(!back || !along || back->code.bits != along->code.bits) << "the drawn one is gone";
}

}  // namespace
}  // namespace evet
