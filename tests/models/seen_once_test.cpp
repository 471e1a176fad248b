// The sign of misread animals: silent where all is well, speaking where recaptures are taken for new animals.
#include "models/closed/seen_once.h"

#include <gtest/gtest.h>

#include "models/base/random.h"
#include "models/estimate.h"

namespace evet::models {
namespace {

CaptureHistories survey(int animals, double misread, Random& random) {
  const std::vector<double> p = {0.3, 0.4, 0.25, 0.45, 0.35, 0.3, 0.4, 0.35};
  CaptureHistories h;
  for (std::size_t j = 0; j < p.size(); ++j) h.occasions.push_back(std::to_string(j + 1));
  const auto add = [&](const std::vector<std::uint8_t>& row) {
    h.animals.push_back(std::to_string(h.animals.size()));
    h.caught.insert(h.caught.end(), row.begin(), row.end());
  };
  for (int i = 0; i < animals; ++i) {
    std::vector<std::uint8_t> row(p.size(), 0);
    bool caught = false;
    for (std::size_t j = 0; j < p.size(); ++j) {
      if (!random.chance(p[j])) continue;
      if (caught && random.chance(misread)) {
        std::vector<std::uint8_t> ghost(p.size(), 0);
        ghost[j] = 1;
        add(ghost);
        continue;
      }
      row[j] = 1;
      caught = true;
    }
    if (caught) add(row);
  }
  return h;
}

TEST(SeenOnce, IsSilentWhereAllIsWellAndSpeaksOfMisreadAnimals) {
  Random random(9);
  constexpr int kSets = 200;
  int well = 0, misread = 0;
  for (int set = 0; set < kSets; ++set) {
    const SeenOnce fair = seen_once_test(survey(120, 0, random));
    ASSERT_TRUE(fair.tested);
    well += fair.p_value < 0.05;
    misread += seen_once_test(survey(120, 0.15, random)).p_value < 0.05;
  }
  EXPECT_LE(well, 20) << "5 % and three standard deviations";
  EXPECT_GE(misread, 150);
}

TEST(SeenOnce, BecomesAWarningThatNamesTheCause) {
  Random random(2);
  EstimateRequest request{.design = "closed", .plots = false};
  bool warned = false;
  for (const Message& warning : estimate(survey(150, 0.25, random), request).warnings)
    warned = warned || warning.words().find("taken for new animals") != std::string::npos;
  EXPECT_TRUE(warned);
  const SeenOnce thin = seen_once_test(histories_from_counts({{"1100", 4}, {"1000", 20}}));
  EXPECT_FALSE(thin.tested);
  EXPECT_EQ(thin.p_value, 1);
}

}  // namespace
}  // namespace evet::models
