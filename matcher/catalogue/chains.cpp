#include "matcher/catalogue/chains.h"

#include <algorithm>
#include <unordered_map>

namespace evet {
namespace {

struct Step {
  int node, edge;
};
struct Visit {
  int node, came_by;
  size_t next = 0;
};

}  // namespace

std::vector<int> edges_between(int from, int to, const std::vector<Edge>& edges) {
  std::unordered_map<int, std::vector<Step>> steps;
  for (size_t i = 0; i < edges.size(); ++i) {
    steps[edges[i].a].push_back({edges[i].b, static_cast<int>(i)});
    steps[edges[i].b].push_back({edges[i].a, static_cast<int>(i)});
  }
  constexpr int kClosing = -1, kNone = -2;  // the edge from-to that is not there
  // The search starts along the closing edge, so that edge lies at the bottom of the stack, and its
  // biconnected component is what is left when the search has come back to `to`.
  std::unordered_map<int, int> depth{{from, 0}, {to, 1}}, low{{from, 0}, {to, 1}};
  steps[to].push_back({from, kClosing});
  std::vector<int> stack;
  std::vector<Visit> path{{to, kNone}};
  int clock = 2;
  while (!path.empty()) {
    const int node = path.back().node, came_by = path.back().came_by;
    if (path.back().next < steps[node].size()) {
      const Step step = steps[node][path.back().next++];
      if (step.edge == came_by || step.edge == kClosing) continue;
      if (const auto seen = depth.find(step.node); seen == depth.end()) {
        depth[step.node] = low[step.node] = clock++;
        stack.push_back(step.edge);
        path.push_back({step.node, step.edge});
      } else if (seen->second < depth[node]) {
        stack.push_back(step.edge);
        low[node] = std::min(low[node], seen->second);
      }
      continue;
    }
    path.pop_back();
    if (path.empty()) break;
    const int parent = path.back().node;
    low[parent] = std::min(low[parent], low[node]);
    if (low[node] < depth[parent]) continue;
    // `node` and below hang on `parent` alone: a component of their own, off every chain.
    while (stack.back() != came_by) stack.pop_back();
    stack.pop_back();
  }
  std::sort(stack.begin(), stack.end());
  return stack;
}

}  // namespace evet
