#include "tools/words/coarse_place.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace evet {
namespace {

// Great-circle distance on a sphere of 6,371,008.8 m, the mean radius of the WGS 84 ellipsoid (haversine formula).
double metres_between(double lat1, double lon1, double lat2, double lon2) {
  const double rad = std::numbers::pi / 180;
  const double a =
      std::pow(std::sin((lat2 - lat1) * rad / 2), 2) +
      std::cos(lat1 * rad) * std::cos(lat2 * rad) * std::pow(std::sin((lon2 - lon1) * rad / 2), 2);
  return 2 * 6'371'008.8 * std::asin(std::sqrt(a));
}

TEST(CoarsePlace, EveryPointOfACellGivesTheSamePlaceWithinItsUncertainty) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> lat(-89.9, 89.9), lon(-179.9, 179.9), within(0.0001, 0.0999);
  for (int i = 0; i < 2000; ++i) {
    const double south = std::floor(lat(random) * 10) / 10, west = std::floor(lon(random) * 10) / 10;
    const CoarsePlace place = coarse_place(south + 0.05, west + 0.05);
    for (int k = 0; k < 5; ++k) {
      const double y = south + within(random), x = west + within(random);
      EXPECT_EQ(coarse_place(y, x), place) << y << " " << x;
      EXPECT_LE(metres_between(y, x, place.latitude, place.longitude), place.uncertainty_m);
    }
    EXPECT_LT(place.uncertainty_m, 8000);
  }
}

TEST(CoarsePlace, EndsOfTheEarthHaveACell) {
  for (const double lat : {-90.0, 90.0})
    for (const double lon : {-180.0, 180.0}) {
      const CoarsePlace place = coarse_place(lat, lon);
      EXPECT_LT(std::abs(place.latitude), 90);
      EXPECT_LT(std::abs(place.longitude), 180);
    }
}

TEST(CoarsePlace, InWords) {
  EXPECT_EQ(in_words(coarse_place(52.125, -1.5)),
            "within the cell of 0.1\u00b0 round 52.15\u00b0 N, 1.45\u00b0 W (about 11 km by 7 km)");
  EXPECT_EQ(exact_place(-52.125, 1.5), "52.12500\u00b0 S, 1.50000\u00b0 E");
}

}  // namespace
}  // namespace evet
