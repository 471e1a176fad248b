#include "models/closed/closed_counts.h"

#include <map>
#include <numeric>
#include <tuple>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/messages.h"

namespace evet::models {

double ClosedCounts::captures() const {
  return std::accumulate(caught.begin(), caught.end(), 0.0);
}

double ClosedCounts::marked_before(std::size_t occasion) const {
  return std::accumulate(newly.begin(), newly.begin() + static_cast<std::ptrdiff_t>(occasion), 0.0);
}

ClosedCounts closed_counts(const CaptureHistories& histories) {
  histories.check();
  const std::size_t k = histories.occasion_count();
  ClosedCounts counts;
  counts.occasions = static_cast<int>(k);
  counts.seen = static_cast<double>(histories.animal_count());
  for (auto* row : {&counts.caught, &counts.newly, &counts.lost_before, &counts.frequencies})
    row->assign(k, 0.0);
  std::map<std::tuple<int, int>, double> classes;
  std::map<std::tuple<int, int, int>, double> first_classes;
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    int captures = 0, first = -1, last = -1;
    for (std::size_t j = 0; j < k; ++j) {
      if (!histories.was_caught(i, j)) continue;
      if (first < 0) first = static_cast<int>(j);
      last = static_cast<int>(j);
      ++captures;
      ++counts.caught[j];
    }
    ++counts.newly[static_cast<std::size_t>(first)];
    ++counts.frequencies[static_cast<std::size_t>(captures - 1)];
    const bool lost = histories.was_lost(i);
    const int exposed = lost ? last + 1 : counts.occasions;
    for (std::size_t j = static_cast<std::size_t>(last) + 1; lost && j < k; ++j) ++counts.lost_before[j];
    ++classes[{captures, exposed}];
    ++first_classes[{first, captures - 1, exposed - first - 1}];
  }
  for (const auto& [key, animals] : classes)
    counts.classes.push_back({std::get<0>(key), std::get<1>(key), animals});
  for (const auto& [key, animals] : first_classes)
    counts.first_classes.push_back({std::get<0>(key), std::get<1>(key), std::get<2>(key), animals});
  return counts;
}

ClosedCounts closed_counts(const std::vector<double>& frequencies, const std::vector<double>& caught) {
  if (frequencies.size() != caught.size() || caught.empty())
    throw InputError(messages::kItemCaptureFrequencies, messages::kNotOneAnOccasion,
                     messages::kGiveFrequencies);
  ClosedCounts counts;
  counts.occasions = static_cast<int>(caught.size());
  counts.caught = caught;
  counts.frequencies = frequencies;
  counts.lost_before.assign(caught.size(), 0.0);
  double captures = 0;
  for (std::size_t k = 0; k < frequencies.size(); ++k) {
    counts.seen += frequencies[k];
    captures += frequencies[k] * static_cast<double>(k + 1);
    if (frequencies[k] > 0)
      counts.classes.push_back({static_cast<int>(k + 1), counts.occasions, frequencies[k]});
  }
  if (captures != counts.captures())
    throw InputError(messages::kItemCaptureFrequencies, messages::kSumsDiffer, messages::kBothCountCaptures);
  return counts;
}

}  // namespace evet::models
