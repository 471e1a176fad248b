// Individuals differ, and patterns age without losing anything.
#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "tools/render/individual.h"
#include "tools/render/mechanisms.h"
#include "tools/render/scene.h"

namespace evet::render {
namespace {

constexpr std::uint64_t kWorld = 12;
const cv::Size kCanvas{160, 448};

double overlap(const cv::Mat1b& a, const cv::Mat1b& b) {
  return static_cast<double>(cv::countNonZero(a & b)) / std::max(1, cv::countNonZero(a | b));
}

TEST(SkinPattern, IndividualsDiffer) {
  std::vector<cv::Mat1b> skins;
  for (std::uint32_t i = 0; i < 24; ++i) skins.push_back(skin_pattern(kWorld, i, 0, kCanvas));
  for (std::size_t i = 0; i < skins.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) EXPECT_LT(overlap(skins[i], skins[j]), 0.75) << i << " and " << j;
}

TEST(SkinPattern, AnyIndexComesAlone) {
  const cv::Mat1b far = skin_pattern(kWorld, 999'999, 0, kCanvas),
                  again = skin_pattern(kWorld, 999'999, 0, kCanvas);
  EXPECT_EQ(cv::countNonZero(far != again), 0);
  EXPECT_GT(cv::countNonZero(far), 0);
}

TEST(SkinPattern, EveryMechanismGivesSomeDarkAndSomeGround) {
  for (const std::string& name : mechanism_names())
    for (std::uint64_t seed = 0; seed < 8; ++seed) {
      const double share = dark_share(grow_pattern(name, Rng(seed)));
      EXPECT_GT(share, 0.003) << name << " " << seed;
      EXPECT_LT(share, 0.9) << name << " " << seed;
    }
}

TEST(SkinPattern, AgeingTakesNothingBackAndGrowsAtAPlausibleRate) {
  double growth = 0;
  int animals = 0;
  for (std::uint32_t i = 0; i < 30; ++i) {
    const Individual animal = make_individual(kWorld, i);
    const auto at = [&](double years) -> cv::Mat1b { return animal.pattern.at_years(years) < 0; };
    const cv::Mat1b young = at(0), middle = at(1), old = at(3);
    EXPECT_EQ(cv::countNonZero(young & ~middle), 0) << i;
    EXPECT_EQ(cv::countNonZero(middle & ~old), 0) << i;
    const double area = cv::countNonZero(young), yearly = std::pow(cv::countNonZero(old) / area, 1.0 / 3) - 1;
    EXPECT_GT(yearly, 0.0) << i;
    EXPECT_LT(yearly, 0.40) << i;  // sparse dots gain most from new spots
    if (area > 0.1 * static_cast<double>(young.total())) {
      growth += yearly;
      ++animals;
    }
  }
  ASSERT_GT(animals, 5);
  EXPECT_GT(growth / animals, 0.03);
  EXPECT_LT(growth / animals, 0.17);
}

}  // namespace
}  // namespace evet::render
