// What the coverage benchmark counts, and what a row of it is.
#pragma once
#include <cmath>
#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "models/base/estimate_value.h"
#include "models/base/messages.h"
#include "models/base/random.h"

namespace evet::models {

struct Count {
  int sets = 0, covered = 0, too_low = 0, too_high = 0, endless = 0, none = 0;
};

// By quantity and kind of interval.
class Tally {
 public:
  void add(const std::string& quantity, const Estimate& estimate, double truth) {
    for (const Interval& interval : estimate.intervals) {
      if (interval.method.code() == messages::kIntervalNoInformation.code) {
        ++counts_[{quantity, "the one given"}].none;
        continue;
      }
      // Which interval a probability gets follows from the data; numbers get several, each told apart.
      const bool number = quantity.starts_with("N");
      if (!number && &interval != &estimate.intervals.front()) continue;
      Count& count = counts_[{quantity, number ? interval.method.words() : "the one given"}];
      ++count.sets;
      if (interval.upper < truth)
        ++count.too_low;
      else if (interval.lower > truth)
        ++count.too_high;
      else
        ++count.covered;
      if (std::isinf(interval.upper)) ++count.endless;
    }
  }
  // What a user reads: the first interval alone; an estimate that is not given counts as not given.
  void add_answer(const std::string& quantity, const Estimate& estimate, double truth) {
    Count& count = counts_[{quantity, "the one given"}];
    if (!std::isfinite(estimate.value)) {
      ++count.none;
      return;
    }
    const Interval& interval = estimate.intervals.front();
    ++count.sets;
    ++(interval.upper < truth ? count.too_low : interval.lower > truth ? count.too_high : count.covered);
    if (std::isinf(interval.upper)) ++count.endless;
  }
  void add(const Tally& other) {
    for (const auto& [key, more] : other.counts_) {
      Count& count = counts_[key];
      count.sets += more.sets;
      count.covered += more.covered;
      count.too_low += more.too_low;
      count.too_high += more.too_high;
      count.endless += more.endless;
      count.none += more.none;
    }
  }
  const std::map<std::pair<std::string, std::string>, Count>& counts() const { return counts_; }

 private:
  std::map<std::pair<std::string, std::string>, Count> counts_;
};

struct Family {
  std::string name, truth;
  std::string theory;  // empty: 95 % is promised; else why it is not
  std::function<void(Random&, Tally&)> run;
  std::string wide = {};  // why its intervals may hold the truth more often than promised
};

inline std::vector<double> repeated(double value, std::size_t times) {
  return std::vector<double>(times, value);
}
// Rows on the answer that a user gets who names nothing: every quantity that it prints.
std::vector<Family> answer_families();
// Movement between ponds, and yearly trends.
std::vector<Family> place_and_year_families();

}  // namespace evet::models
