// Shares and their intervals. An interval is 95 %, by resampling individuals whole, since the searches of one
// animal share its luck (Efron & Tibshirani 1993, An Introduction to the Bootstrap, percentile interval).
// Where no error was seen the limit is 3/n, n the number of individuals (the rule of three).
#pragma once
#include <cstdint>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace evet::trial {

struct ResampleOptions {
  int resamples = 1000;
  std::uint64_t seed = 1;
};

struct Rate {
  double value = 0, low = 0, high = 1;
  int count = 0, of = 0;
  int individuals = 0;
};

// What was counted of each individual: how many, of how many.
using Tally = std::vector<std::pair<int, int>>;
Rate rate(const Tally& tally, const ResampleOptions& options);

double rule_of_three(size_t individuals);

// Of each resample how often each of `individuals` was drawn. The same for the same seed.
std::vector<std::vector<int>> draws(size_t individuals, const ResampleOptions& options);

struct Interval {
  double low = 0, high = 0;
};
Interval percentiles(std::vector<double> values);  // 2.5 and 97.5 %

}  // namespace evet::trial
