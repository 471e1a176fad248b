// Chains of "same" between captures, as a graph: components, and the edges that lie on some
// chain between two nodes.
#pragma once
#include <cstddef>
#include <vector>

namespace evet {

class Joins {
 public:
  explicit Joins(int nodes) : parent_(static_cast<size_t>(nodes)) {
    for (int i = 0; i < nodes; ++i) parent_[static_cast<size_t>(i)] = i;
  }
  int root(int node) {
    while (parent_[static_cast<size_t>(node)] != node) {
      parent_[static_cast<size_t>(node)] = parent_[static_cast<size_t>(parent_[static_cast<size_t>(node)])];
      node = parent_[static_cast<size_t>(node)];
    }
    return node;
  }
  // The smaller root stands for both: the outcome does not depend on the order of the joins.
  void join(int a, int b) {
    a = root(a), b = root(b);
    parent_[static_cast<size_t>(a < b ? b : a)] = a < b ? a : b;
  }

 private:
  std::vector<int> parent_;
};

struct Edge {
  int a = 0, b = 0;
};

// Which of `edges` lie on a simple path from `from` to `to` (those, and no others, share a biconnected
// component with an edge from-to: Hopcroft & Tarjan 1973, Communications of the ACM 16:372-378). `edges` may
// hold parallel edges. Empty when no path joins them.
std::vector<int> edges_between(int from, int to, const std::vector<Edge>& edges);

}  // namespace evet
