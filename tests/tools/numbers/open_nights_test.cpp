#include "tools/numbers/open_nights.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <unistd.h>
#include <filesystem>

#include "tests/tools/review/drawn_pond.h"
#include "tools/numbers/numbers_in_doubt.h"

namespace evet {
namespace {

struct OpenNights : testing::Test {
  std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("evet_open_nights_" + std::to_string(getpid()));
  OpenNights() { std::filesystem::remove_all(folder); }
  ~OpenNights() override { std::filesystem::remove_all(folder); }
};

const Doubt* doubt_of(const std::vector<Doubt>& doubts, const CaptureId& capture) {
  for (const Doubt& doubt : doubts)
    if (doubt.capture == capture) return &doubt;
  return nullptr;
}

// An animal new on the first open night and caught again on the second is known to nobody but the first night's
// captures: it is drawn as the same animal all the same.
TEST_F(OpenNights, ALaterNightIsComparedWithWhatTheEarlierOneBrought) {
  const try_out::DrawnPond pond =
      try_out::draw_pond(folder, {.animals = 4, .again = 2, .fresh = 2, .unusable = 0, .fresh_later = 2});
  Catalogue catalogue = Catalogue::open(folder, system_env());
  const Statements said = catalogue.statements();
  const Identities who = catalogue.identities();
  EXPECT_THAT(open_nights(who, {}), testing::ElementsAre(pond.last_night, "2031-05-17"));
  EXPECT_THAT(open_nights(who, {.to = "2031-05-15"}), testing::ElementsAre(pond.last_night));

  const std::vector<Doubt> doubts = doubts_of(catalogue, said, who, {}, 1);
  EXPECT_EQ(doubts.size(), 6u) << "every open capture of both nights, once";
  std::mt19937_64 random(5);
  int joined = 0, whole = 0;
  constexpr int kDraws = 50;
  for (int draw = 0; draw < kDraws; ++draw) {
    const Identities drawn_who = fold(drawn(said, doubts, random));
    for (std::size_t i = 0; i < 2; ++i) {
      ASSERT_TRUE(doubt_of(doubts, pond.later[i]));
      ASSERT_TRUE(drawn_who.capture(pond.later[i])->individual) << "nothing stays open in a draw";
      joined +=
          *drawn_who.capture(pond.later[i])->individual == *drawn_who.capture(pond.fresh[i])->individual;
    }
    whole += drawn_who.individuals.size() == 6 ? 1 : 0;
  }
  EXPECT_GT(joined, 2 * kDraws * 8 / 10);
  EXPECT_GT(whole, kDraws / 2);
  const models::EstimateInDoubt both = numbers_of(said, who, doubts, {}, {.plots = false});
  EXPECT_EQ(both.report.stopped_before, pond.last_night);
  EXPECT_THAT(models::words(both.why), testing::Not(testing::HasSubstr("no ranking to be drawn from")))
      << "every draw takes in all nights";
}

// The ponds of captures go into the histories when asked for, and only then.
TEST_F(OpenNights, PlacesAreToldWhereAskedFor) {
  try_out::draw_pond(folder, {.animals = 4, .again = 0, .fresh = 0, .unusable = 0});
  Catalogue catalogue = Catalogue::open(folder, system_env());
  const auto histories = [&](const HistoriesOptions& options) {
    return capture_histories(catalogue.statements(), catalogue.identities(), options).histories;
  };
  EXPECT_TRUE(histories({}).places.empty());
  const models::CaptureHistories told = histories({.places = true});
  EXPECT_THAT(told.places, testing::ElementsAre("north", "south"));
  for (std::size_t i = 0; i < told.animal_count(); ++i)
    for (std::size_t j = 0; j < told.occasion_count(); ++j)
      if (told.was_caught(i, j)) {
        EXPECT_EQ(told.places[told.place_of(i, j)], told.groups.at("pond")[i]);
      }
  EXPECT_TRUE(histories({.site = "Alder Fen", .pond = "north", .places = true}).places.empty()) << "one pond";
}

}  // namespace
}  // namespace evet
