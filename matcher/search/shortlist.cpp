#include "matcher/search/shortlist.h"

#include <algorithm>
#include <mutex>
#include <optional>
#include <utility>

#include "matcher/base/error.h"
#include "matcher/search/messages.h"

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wpedantic"
#pragma GCC diagnostic ignored "-Woverloaded-virtual"
#pragma GCC diagnostic ignored "-Wnon-virtual-dtor"
#include <flann/flann.hpp>
#pragma GCC diagnostic pop

namespace evet {
namespace {
using Index = flann::KMeansIndex<flann::L2<float>>;
// FLANN draws from the C library's one random state: two galleries built at once would share it.
std::mutex& building() {
  static std::mutex mutex;
  return mutex;
}
}  // namespace

struct Shortlist::Parts {
  ShortlistOptions options;
  size_t count = 0, length = 0;
  std::vector<float> rows;
  std::optional<Index> index;
};

void ShortlistOptions::check() const {
  if (exact_below < 0) throw Error(ErrorKind::usage, "shortlist", messages::kExactBelowMustNotBe);
  if (branching < 2 || checks < 1)
    throw Error(ErrorKind::usage, "shortlist", messages::kBranchingMustBeAtLeast);
}

Shortlist::Shortlist(const std::vector<std::vector<float>>& descriptors, const ShortlistOptions& options)
    : parts_(std::make_unique<Parts>()) {
  options.check();
  parts_->options = options;
  parts_->count = descriptors.size();
  if (descriptors.empty()) return;
  parts_->length = descriptors[0].size();
  for (const std::vector<float>& d : descriptors) {
    if (d.size() != parts_->length)
      throw Error(ErrorKind::bad_input, "gallery", messages::kDescriptorsDifferInLength,
                  messages::kMakeAllPatternsWithOne);
    parts_->rows.insert(parts_->rows.end(), d.begin(), d.end());
  }
  if (static_cast<int>(parts_->count) < options.exact_below) return;
  const std::lock_guard<std::mutex> lock(building());
  flann::seed_random(options.seed);
  const flann::Matrix<float> data(parts_->rows.data(), parts_->count, parts_->length);
  parts_->index.emplace(data, flann::KMeansIndexParams(options.branching, 11, flann::FLANN_CENTERS_KMEANSPP));
  parts_->index->buildIndex();
}
Shortlist::~Shortlist() = default;
Shortlist::Shortlist(Shortlist&&) noexcept = default;
Shortlist& Shortlist::operator=(Shortlist&&) noexcept = default;

std::vector<int> Shortlist::nearest(const std::vector<float>& query, int count) const {
  if (!parts_->index) return nearest_exact(query, count);
  const size_t k = std::min(static_cast<size_t>(std::max(count, 0)), parts_->count);
  std::vector<float> copy = query;
  std::vector<size_t> found(k);
  std::vector<float> distances(k);
  const flann::Matrix<float> q(copy.data(), 1, copy.size());
  flann::Matrix<size_t> indices(found.data(), 1, k);
  flann::Matrix<float> squared(distances.data(), 1, k);
  const int got =
      parts_->index->knnSearch(q, indices, squared, k, flann::SearchParams(parts_->options.checks));
  std::vector<std::pair<float, int>> order;
  for (int i = 0; i < std::min(got, static_cast<int>(k)); ++i)
    order.emplace_back(distances[i], static_cast<int>(found[i]));
  std::sort(order.begin(), order.end());
  std::vector<int> out;
  out.reserve(order.size());
  for (const auto& [distance, index] : order) out.push_back(index);
  return out;
}

std::vector<int> Shortlist::nearest_exact(const std::vector<float>& query, int count) const {
  std::vector<std::pair<float, int>> order;
  for (size_t i = 0; i < parts_->count; ++i) {
    float sum = 0;
    for (size_t k = 0; k < parts_->length; ++k) {
      const float d = parts_->rows[i * parts_->length + k] - query[k];
      sum += d * d;
    }
    order.emplace_back(sum, static_cast<int>(i));
  }
  const size_t keep = std::min(static_cast<size_t>(std::max(count, 0)), order.size());
  std::partial_sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(keep), order.end());
  std::vector<int> out;
  for (size_t i = 0; i < keep; ++i) out.push_back(order[i].second);
  return out;
}

}  // namespace evet
