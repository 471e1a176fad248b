// Where each parameter of the super-population lies in theta, and what follows from it for animals of one unit.
//
// What came in is told by the animals caught for the first time: of those up to an occasion, its share was
// first caught on it. The entry chances b_0 ... b_{k-1} follow, and one that is nought in truth may come out
// a little below it, as in the closed forms of Jolly and Seber. Held at nought instead, entries that are only
// ever estimated too high would pull the numbers down, and with a reference entry at nought all others lie at
// their ends.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "models/fit/linear_part.h"
#include "models/fit/tape.h"
#include "models/open/entry_models.h"
#include "models/open/time_between.h"

namespace evet::models {

// Animals that the model cannot tell apart: a level of each group.
struct EntryUnit {
  MArray all;
  SplitReleases split;                                      // only where animals may pass through
  std::vector<std::pair<std::string, std::string>> levels;  // group and level
  std::size_t entry = 0;                                    // first coordinate
  std::vector<std::size_t> with_newly = {};                 // occasions with any first capture
  double seen() const { return all.newly.sum(); }
};

struct EntryLayout {
  std::size_t occasions = 0;
  EntryChoice choice;
  bool conditional = true;
  std::vector<double> lengths = {};  // of the intervals; empty: one each
  LinearPart survival = {}, capture = {};
  std::size_t passing = 0;  // the share at the first occasion, then the share later
  std::vector<EntryUnit> units = {};

  // Without known ends, the first chance of capture cannot be told from the animals that came in just before
  // it, nor the last from the last survival: they are set to 1 and what rests on them is not given.
  bool first_confounded() const { return choice.capture.by_occasion() && !choice.ends_known; }
  bool last_confounded() const { return first_confounded() && choice.survival.by_occasion(); }
  bool first_set() const { return choice.ends_known || first_confounded(); }
  bool last_set() const { return choice.ends_known || last_confounded(); }

  // Over the whole interval, however long.
  template <class T>
  T survival_eta(const std::vector<T>& theta, std::size_t u, std::size_t i) const {
    return over_time(survival.eta(theta, u, i), length_of(lengths, i));
  }
  template <class T>
  T capture_eta(const std::vector<T>& theta, std::size_t u, std::size_t i) const {
    constexpr double kCertain = 30;  // logit of a probability set to 1
    if ((i == 0 && first_set()) || (i + 1 == occasions && last_set())) return T(kCertain);
    return capture.eta(theta, u, i - (first_set() ? 1 : 0));
  }
  // Of those that came in before an occasion.
  template <class T>
  T passing_share(const std::vector<T>& theta, std::size_t i) const {
    return choice.passing ? logistic(theta[passing + (i == 0 ? 0 : 1)]) : T(0.0);
  }
  // Of all animals that were caught at all, those first caught on each occasion.
  template <class T>
  std::vector<T> first_captures(const std::vector<T>& theta, std::size_t u) const {
    const EntryUnit& unit = units[u];
    std::vector<T> first(occasions, T(0.0));
    T before = T(1.0);
    for (std::size_t n = unit.with_newly.size(); n-- > 0;) {
      first[unit.with_newly[n]] = n == 0 ? before : before * logistic(theta[unit.entry + n - 1]);
      if (n > 0) before = before * logistic(-theta[unit.entry + n - 1]);
    }
    return first;
  }
  // Animals over all that were caught at all: not yet caught just before each occasion, and of these the ones
  // that came in before it. The sum of these is that of the animals that were ever there.
  template <class T>
  struct Flow {
    std::vector<T> uncaught, came_in;
    T ever = T(0.0);
  };
  template <class T>
  Flow<T> flow(const std::vector<T>& theta, std::size_t u) const {
    const std::vector<T> first = first_captures(theta, u);
    Flow<T> flow;
    T left = T(0.0);  // not caught yet, of those that came in earlier
    for (std::size_t i = 0; i < occasions; ++i) {
      const T eta = capture_eta(theta, u, i);
      const T uncaught = first[i] / logistic(eta), in = uncaught - left;
      flow.uncaught.push_back(uncaught);
      flow.came_in.push_back(in);
      flow.ever += in;
      if (i + 1 == occasions) break;
      left = uncaught * logistic(-eta) * logistic(survival_eta(theta, u, i));
      if (choice.passing)
        left = left - passing_share(theta, i) * in * logistic(-eta) * logistic(survival_eta(theta, u, i));
    }
    return flow;
  }
};

}  // namespace evet::models
