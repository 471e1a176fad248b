#include "tools/report/by_likeness.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

namespace evet {
namespace {

std::vector<float> unit(std::vector<float> v) {
  const float length = std::sqrt(std::inner_product(v.begin(), v.end(), v.begin(), 0.0F));
  for (float& x : v) x /= length;
  return v;
}
float distance(const std::vector<float>& a, const std::vector<float>& b) {
  return 1 - std::inner_product(a.begin(), a.end(), b.begin(), 0.0F);
}

TEST(OrderByLikeness, FewOrNone) {
  EXPECT_TRUE(order_by_likeness({}).empty());
  EXPECT_EQ(order_by_likeness({{1, 0}}), std::vector<std::size_t>{0});
  EXPECT_EQ(order_by_likeness({{}, {1, 0}, {}}), (std::vector<std::size_t>{1, 0, 2}));
}

// Points along an arc: whatever order they came in, they come out along the arc, from one end or the other.
TEST(OrderByLikeness, AnArcIsLaidOutAlongItself) {
  std::vector<std::vector<float>> points;
  std::vector<int> place(12);
  std::iota(place.begin(), place.end(), 0);
  std::mt19937 random(3);
  std::shuffle(place.begin(), place.end(), random);
  for (const int i : place) {
    const double angle = 0.02 * i * i;  // distances differ, so that nothing hangs on ties
    points.push_back({static_cast<float>(std::cos(angle)), static_cast<float>(std::sin(angle))});
  }
  std::vector<int> out;
  for (const std::size_t i : order_by_likeness(points)) out.push_back(place[i]);
  if (out.front() > out.back()) std::reverse(out.begin(), out.end());
  EXPECT_TRUE(std::is_sorted(out.begin(), out.end()));
}

// Clusters keep together, nobody is lost, and neighbours are nearer than in the order of arrival.
TEST(OrderByLikeness, ClustersKeepTogether) {
  std::mt19937 random(11);
  std::normal_distribution<float> noise(0, 0.05F);
  std::vector<std::vector<float>> points;
  for (int i = 0; i < 60; ++i) {
    std::vector<float> v(8, 0.0F);
    v[static_cast<std::size_t>(i % 5)] = 1;
    for (float& x : v) x += noise(random);
    points.push_back(unit(v));
  }
  const std::vector<std::size_t> order = order_by_likeness(points);
  std::vector<std::size_t> sorted = order;
  std::sort(sorted.begin(), sorted.end());
  for (std::size_t i = 0; i < 60; ++i) ASSERT_EQ(sorted[i], i);
  int turns = 0;
  float along = 0, before = 0;
  for (std::size_t i = 1; i < 60; ++i) {
    turns += order[i] % 5 != order[i - 1] % 5;
    along += distance(points[order[i]], points[order[i - 1]]);
    before += distance(points[i], points[i - 1]);
  }
  EXPECT_EQ(turns, 4);
  EXPECT_LT(along, before / 3);
  EXPECT_EQ(order_by_likeness(points), order);
}

TEST(OrderByLikeness, EqualDescriptorsComeToAnEnd) {
  EXPECT_EQ(order_by_likeness(std::vector<std::vector<float>>(40, {1, 0})).size(), 40U);
}

}  // namespace
}  // namespace evet
