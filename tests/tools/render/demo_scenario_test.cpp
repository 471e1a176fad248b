// The demo's story holds together, and the committed folder tells the same one.
#include "tools/render/demo_scenario.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "tests/tools/render/set_files.h"
#include "tools/intake/read_sheet.h"

namespace evet::render {
namespace {

const std::filesystem::path kCommitted = std::filesystem::path(EVET_SOURCE_DIR) / "demo_images";

std::set<std::uint32_t> animals_in(const std::vector<NightPhoto>& photos) {
  std::set<std::uint32_t> animals;
  for (const NightPhoto& p : photos)
    if (p.spec.subject == Subject::belly) animals.insert(p.spec.individual);
  return animals;
}

TEST(DemoScenario, LastNightHasRecapturesNewAnimalsASecondPhotoAndTwoBadOnes) {
  const DemoScenario demo = demo_scenario(300);
  const std::set<std::uint32_t> before = animals_in(demo.earlier), last = animals_in(demo.last_night);
  int again = 0, bad = 0, after_a_season = 0;
  for (const std::uint32_t animal : last) again += before.contains(animal);
  for (const NightPhoto& p : demo.last_night) {
    bad += p.spec.subject != Subject::belly;
    after_a_season += p.spec.years > 0.8;
  }
  EXPECT_EQ(again, 7);
  EXPECT_EQ(last.size() - static_cast<std::size_t>(again), 4U);
  EXPECT_EQ(bad, 2);
  EXPECT_GE(after_a_season, 4);
  EXPECT_EQ(demo.last_night.size(), last.size() + 3);  // a second photo and the two bad ones
}

TEST(DemoScenario, SheetsAreInOrderAndTimesFitTheNight) {
  const DemoScenario demo = demo_scenario(300);
  std::set<std::string> names;
  std::string before;
  for (const auto* photos : {&demo.earlier, &demo.last_night}) {
    const Sheet sheet = read_sheet(night_sheet(*photos), kToday);
    EXPECT_TRUE(sheet.problems.empty()) << sheet.problems[0].sentence();
    for (const NightPhoto& p : *photos) {
      EXPECT_TRUE(names.insert(p.photo).second) << p.photo;
      EXPECT_LT(before, p.taken_at);  // ISO times sort as text
      before = p.taken_at;
      // Between noon and the next noon.
      const bool same_day = p.taken_at.substr(0, 10) == p.night;
      EXPECT_TRUE(same_day ? p.taken_at.substr(11) > "12" : p.taken_at.substr(11) < "12") << p.taken_at;
    }
  }
}

TEST(DemoScenario, AnotherSeedIsAnotherPond) {
  const DemoScenario one = demo_scenario(300), other = demo_scenario(301);
  EXPECT_EQ(night_sheet(one.earlier), night_sheet(demo_scenario(300).earlier));
  EXPECT_NE(night_sheet(one.earlier), night_sheet(other.earlier));
}

TEST(DemoImages, AreThePhotosOfTheSheetsAndSmall) {
  std::uintmax_t bytes = 0;
  for (const char* part : {"earlier", "last_night"}) {
    const Sheet sheet = read_sheet(bytes_of(kCommitted / part / "sheet.csv"), kToday);
    ASSERT_TRUE(sheet.problems.empty()) << sheet.problems[0].sentence();
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(kCommitted / part / "photos")) {
      bytes += entry.file_size();
      ++files;
    }
    EXPECT_EQ(files, sheet.rows.size());
    for (const SheetRow& row : sheet.rows)
      EXPECT_TRUE(std::filesystem::exists(kCommitted / part / "photos" / row.photo)) << row.photo;
  }
  EXPECT_LT(bytes, 12'000'000U);
}

TEST(DemoImages, TruthNamesEveryRowAndEveryAnimalKeepsItsSex) {
  std::map<int, Sex> sex;
  for (const std::string part : {"earlier", "last_night"}) {
    const Sheet sheet = read_sheet(bytes_of(kCommitted / part / "sheet.csv"), kToday);
    const auto truth = nlohmann::json::parse(bytes_of(kCommitted / "truth" / (part + ".json")));
    ASSERT_EQ(truth.size(), sheet.rows.size());
    for (std::size_t i = 0; i < truth.size(); ++i) {
      EXPECT_EQ(truth[i]["photo"], sheet.rows[i].photo);
      EXPECT_EQ(truth[i]["capture"], sheet.rows[i].capture);
      EXPECT_GE(truth[i]["world_seed"], 200);
      if (truth[i]["individual"].is_null() || sheet.rows[i].sex == Sex::unknown) continue;
      const auto [known, fresh] = sex.emplace(truth[i]["individual"], sheet.rows[i].sex);
      EXPECT_EQ(known->second, sheet.rows[i].sex) << sheet.rows[i].photo;
    }
  }
}

}  // namespace
}  // namespace evet::render
