#include "tools/trial/trial_rate.h"

#include <algorithm>
#include <random>

namespace evet::trial {

double rule_of_three(size_t individuals) {
  return individuals == 0 ? 1 : std::min(1.0, 3.0 / static_cast<double>(individuals));
}

Interval percentiles(std::vector<double> values) {
  if (values.empty()) return {};
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    return values[static_cast<size_t>(share * static_cast<double>(values.size() - 1))];
  };
  return {at(0.025), at(0.975)};
}

std::vector<std::vector<int>> draws(size_t individuals, const ResampleOptions& options) {
  std::vector<std::vector<int>> out;
  if (individuals == 0) return out;
  std::mt19937_64 rng(options.seed);
  std::uniform_int_distribution<size_t> pick(0, individuals - 1);
  for (int b = 0; b < options.resamples; ++b) {
    out.emplace_back(individuals, 0);
    for (size_t i = 0; i < individuals; ++i) ++out.back()[pick(rng)];
  }
  return out;
}

Rate rate(const Tally& tally, const ResampleOptions& options) {
  Rate out;
  for (const auto& [count, of] : tally) out.count += count, out.of += of, out.individuals += of > 0;
  if (out.of == 0) return out;
  out.value = static_cast<double>(out.count) / out.of;
  Tally each;
  for (const auto& one : tally)
    if (one.second > 0) each.push_back(one);
  std::mt19937_64 rng(options.seed);
  std::uniform_int_distribution<size_t> pick(0, each.size() - 1);
  std::vector<double> values;
  for (int b = 0; b < options.resamples; ++b) {
    int count = 0, of = 0;
    for (size_t i = 0; i < each.size(); ++i) {
      const auto& [c, n] = each[pick(rng)];
      count += c, of += n;
    }
    values.push_back(static_cast<double>(count) / of);
  }
  const Interval drawn = percentiles(std::move(values));
  const double three = rule_of_three(each.size());
  out.low = out.count == out.of ? 1 - three : drawn.low;
  out.high = out.count == 0 ? three : drawn.high;
  return out;
}

}  // namespace evet::trial
