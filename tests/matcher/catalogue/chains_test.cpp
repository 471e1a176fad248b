#include "matcher/catalogue/chains.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

namespace evet {
namespace {

// The oracle: walk every simple path, and note the edges of those that arrive.
void walk(int at, int to, const std::vector<Edge>& edges, std::set<int>& nodes, std::vector<int>& used,
          std::set<int>& found) {
  if (at == to) {
    found.insert(used.begin(), used.end());
    return;
  }
  for (size_t i = 0; i < edges.size(); ++i) {
    const int next = edges[i].a == at ? edges[i].b : edges[i].b == at ? edges[i].a : -1;
    if (next < 0 || !nodes.insert(next).second) continue;
    used.push_back(static_cast<int>(i));
    walk(next, to, edges, nodes, used, found);
    used.pop_back();
    nodes.erase(next);
  }
}

TEST(EdgesBetween, AreThoseOfAllSimplePaths) {
  std::mt19937 random(3);
  int with_path = 0;
  for (int trial = 0; trial < 3000; ++trial) {
    const int nodes = 2 + static_cast<int>(random() % 6);
    std::vector<Edge> edges;
    for (unsigned i = 0, n = random() % 9; i < n; ++i) {
      const int a = static_cast<int>(random() % nodes), b = static_cast<int>(random() % nodes);
      if (a != b) edges.push_back({a, b});
    }
    std::set<int> seen{0}, expected;
    std::vector<int> used;
    walk(0, 1, edges, seen, used, expected);
    with_path += !expected.empty();
    EXPECT_EQ(edges_between(0, 1, edges), std::vector<int>(expected.begin(), expected.end()))
        << "trial " << trial;
  }
  EXPECT_GT(with_path, 1000);
}

TEST(EdgesBetween, StandsALongChain) {
  std::vector<Edge> edges;
  for (int i = 0; i < 100000; ++i) edges.push_back({i, i + 1});
  EXPECT_EQ(edges_between(0, 100000, edges).size(), edges.size());
}

TEST(Joins, TheSmallestStandsForAll) {
  Joins joins(6);
  joins.join(5, 3), joins.join(4, 5), joins.join(1, 2);
  EXPECT_EQ(joins.root(4), 3);
  EXPECT_EQ(joins.root(2), 1);
  EXPECT_EQ(joins.root(0), 0);
}

}  // namespace
}  // namespace evet
