#include "tools/report/by_likeness.h"

#include <algorithm>
#include <array>
#include <limits>
#include <numeric>

namespace evet {
namespace {

// Distances between clusters, which begin as single descriptors.
class Clusters {
 public:
  explicit Clusters(const std::vector<const std::vector<float>*>& descriptors)
      : n_(descriptors.size()), near_(n_ * n_), leaves_(n_) {
    for (std::size_t i = 0; i < n_; ++i) {
      leaves_[i] = {i};
      for (std::size_t j = 0; j < i; ++j) set(i, j, distance(*descriptors[i], *descriptors[j]));
    }
    leaf_near_ = near_;
  }

  std::vector<std::size_t> order() {
    std::vector<std::size_t> chain;
    for (std::size_t left = n_; left > 1;) {
      if (chain.empty()) chain.push_back(first_alive());
      const std::size_t end = chain.back();
      const std::size_t before = chain.size() > 1 ? chain[chain.size() - 2] : n_;
      const std::size_t next = nearest(end, before);
      if (next != before) {
        chain.push_back(next);
        continue;
      }
      chain.resize(chain.size() - 2);
      join(std::min(end, before), std::max(end, before));
      --left;
    }
    return n_ == 0 ? std::vector<std::size_t>{} : leaves_[first_alive()];
  }

 private:
  static float distance(const std::vector<float>& a, const std::vector<float>& b) {
    return 1 - std::inner_product(a.begin(), a.end(), b.begin(), 0.0F);
  }
  void set(std::size_t i, std::size_t j, float value) { near_[i * n_ + j] = near_[j * n_ + i] = value; }
  bool alive(std::size_t i) const { return !leaves_[i].empty(); }
  std::size_t first_alive() const {
    std::size_t i = 0;
    while (!alive(i)) ++i;
    return i;
  }
  // The one before in the chain wins a tie, or the chain might never end.
  std::size_t nearest(std::size_t to, std::size_t before) const {
    std::size_t best = before;
    float least = before < n_ ? near_[to * n_ + before] : std::numeric_limits<float>::infinity();
    for (std::size_t i = 0; i < n_; ++i)
      if (i != to && alive(i) && near_[to * n_ + i] < least) best = i, least = near_[to * n_ + i];
    return best;
  }
  void join(std::size_t a, std::size_t b) {
    const auto of_a = static_cast<float>(leaves_[a].size()), of_b = static_cast<float>(leaves_[b].size());
    for (std::size_t i = 0; i < n_; ++i)
      if (i != a && i != b && alive(i))
        set(a, i, (of_a * near_[a * n_ + i] + of_b * near_[b * n_ + i]) / (of_a + of_b));
    lay_end_to_end(leaves_[a], leaves_[b]);
  }
  void lay_end_to_end(std::vector<std::size_t>& a, std::vector<std::size_t>& b) {
    const auto between = [&](std::size_t i, std::size_t j) { return leaf_near_[i * n_ + j]; };
    const std::array<float, 4> ends = {between(a.back(), b.front()), between(a.back(), b.back()),
                                       between(a.front(), b.front()), between(a.front(), b.back())};
    const auto way = std::min_element(ends.begin(), ends.end()) - ends.begin();
    if (way >= 2) std::reverse(a.begin(), a.end());
    if (way % 2 == 1) std::reverse(b.begin(), b.end());
    a.insert(a.end(), b.begin(), b.end());
    b.clear();
  }

  std::size_t n_;
  std::vector<float> near_, leaf_near_;
  std::vector<std::vector<std::size_t>> leaves_;  // empty: joined to another
};

}  // namespace

std::vector<std::size_t> order_by_likeness(const std::vector<std::vector<float>>& descriptors) {
  std::vector<std::size_t> known, order;
  std::vector<const std::vector<float>*> of_known;
  for (std::size_t i = 0; i < descriptors.size(); ++i)
    if (!descriptors[i].empty()) known.push_back(i), of_known.push_back(&descriptors[i]);
  for (const std::size_t i : Clusters(of_known).order()) order.push_back(known[i]);
  for (std::size_t i = 0; i < descriptors.size(); ++i)
    if (descriptors[i].empty()) order.push_back(i);
  return order;
}

}  // namespace evet
