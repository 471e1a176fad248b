#include "tools/trial/trial_refit.h"

#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <set>

#include "tools/trial/messages.h"
#include "tools/words/in_words.h"

namespace evet::trial {
namespace {

double soft_plus(double x) {
  return std::max(x, 0.0) + std::log1p(std::exp(-std::abs(x)));
}

double mapped(const Pair& pair, const LlrMap& map, const RefitOptions& options) {
  // What the sheet says stands as it is.
  const double facts = pair.trial.llr - pair.pattern_llr;
  return map(pair.pattern_llr, options.lowest, options.highest) + facts;
}

using Theta = std::array<double, 2>;  // logarithm of the scale, shift

class Objective {
 public:
  Objective(const std::vector<Pair>& pairs, double individuals, const RefitOptions& options)
      : pairs_(pairs), individuals_(individuals), options_(options) {
    for (const Pair& pair : pairs) ++(pair.trial.same ? same_ : different_);
  }
  bool can_be_fitted() const { return same_ > 0 && different_ > 0; }
  double operator()(const Theta& theta) const {
    const LlrMap map{std::exp(theta[0]), theta[1]};
    double same = 0, different = 0;
    for (const Pair& pair : pairs_) {
      const double llr = mapped(pair, map, options_);
      if (pair.trial.same)
        same += soft_plus(-llr);
      else
        different += soft_plus(llr);
    }
    const double a = theta[0] / options_.scale_spread, b = theta[1] / options_.shift_spread;
    return individuals_ * (same / same_ + different / different_) + 0.5 * (a * a + b * b);
  }

 private:
  const std::vector<Pair>& pairs_;
  const double individuals_;
  const RefitOptions& options_;
  double same_ = 0, different_ = 0;
};

// Newton's steps on two parameters, derivatives by central differences, halved until they go down.
Theta lowest_point(const Objective& objective) {
  Theta at{0, 0};
  double value = objective(at);
  constexpr double h = 1e-3;
  for (int step = 0; step < 30; ++step) {
    const auto moved = [&](double a, double b) { return objective({at[0] + a, at[1] + b}); };
    const double ap = moved(h, 0), am = moved(-h, 0), bp = moved(0, h), bm = moved(0, -h);
    const double ga = (ap - am) / (2 * h), gb = (bp - bm) / (2 * h);
    const double haa = std::max((ap - 2 * value + am) / (h * h), 1e-3),
                 hbb = std::max((bp - 2 * value + bm) / (h * h), 1e-3);
    double hab = (moved(h, h) - moved(h, -h) - moved(-h, h) + moved(-h, -h)) / (4 * h * h);
    if (hab * hab > 0.98 * haa * hbb) hab = 0;
    const double det = haa * hbb - hab * hab;
    double da = -(hbb * ga - hab * gb) / det, db = -(haa * gb - hab * ga) / det;
    double next = value;
    for (int half = 0; half < 20; ++half, da /= 2, db /= 2) {
      next = moved(da, db);
      if (next <= value) break;
    }
    if (next > value) break;
    at = {at[0] + da, at[1] + db};
    const bool still = std::abs(da) + std::abs(db) < 1e-6;
    value = next;
    if (still) break;
  }
  return at;
}

// Costs of one individual's pairs, before and after, so that individuals can be resampled.
struct Own {
  double same_before = 0, same_after = 0, different_before = 0, different_after = 0;
  int same = 0, different = 0;
};
struct Totals {
  double before = 0, after = 0;
};
Totals totals(const std::vector<Own>& each, const std::vector<int>& times) {
  Own sum;
  for (size_t i = 0; i < each.size(); ++i) {
    const double n = times[i];
    sum.same_before += n * each[i].same_before, sum.same_after += n * each[i].same_after;
    sum.different_before += n * each[i].different_before;
    sum.different_after += n * each[i].different_after;
    sum.same += times[i] * each[i].same, sum.different += times[i] * each[i].different;
  }
  if (sum.same == 0 || sum.different == 0) return {};
  const double bits = 2 * std::numbers::ln2;
  return {(sum.same_before / sum.same + sum.different_before / sum.different) / bits,
          (sum.same_after / sum.same + sum.different_after / sum.different) / bits};
}

// Which fold each individual falls into, dealt at random.
std::vector<int> dealt_folds(size_t individuals, int folds, std::uint64_t seed) {
  std::vector<size_t> dealt(individuals);
  for (size_t i = 0; i < dealt.size(); ++i) dealt[i] = i;
  std::mt19937_64 rng(seed);
  for (size_t i = dealt.size(); i > 1; --i) std::swap(dealt[i - 1], dealt[rng() % i]);
  std::vector<int> fold_of(dealt.size());
  for (size_t i = 0; i < dealt.size(); ++i) fold_of[dealt[i]] = static_cast<int>(i) % folds;
  return fold_of;
}

void add_costs(const Pair& pair, const LlrMap& map, const RefitOptions& options, Own& own) {
  const double sign = pair.trial.same ? -1 : 1;
  const double before = soft_plus(sign * pair.trial.llr),
               after = soft_plus(sign * mapped(pair, map, options));
  if (pair.trial.same)
    own.same_before += before, own.same_after += after, ++own.same;
  else
    own.different_before += before, own.different_after += after, ++own.different;
}

// What each individual's pairs cost before, and after a calibration learned on none of them.
std::vector<Own> cross_validated(const Trial& trial, int folds, const RefitOptions& options) {
  const std::vector<int> fold_of = dealt_folds(trial.individuals.size(), folds, options.seed);
  std::vector<Own> each(trial.individuals.size());
  for (int fold = 0; fold < folds; ++fold) {
    std::vector<Pair> others;
    std::set<size_t> learned_from;
    for (const Pair& pair : trial.pairs)
      if (fold_of[pair.individual] != fold && fold_of[pair.against] != fold) {
        others.push_back(pair);
        if (pair.trial.same) learned_from.insert(pair.individual);
      }
    const LlrMap map = fit_llr_map(others, static_cast<double>(learned_from.size()), options);
    for (const Pair& pair : trial.pairs)
      if (fold_of[pair.individual] == fold) add_costs(pair, map, options, each[pair.individual]);
  }
  return each;
}

}  // namespace

LlrMap fit_llr_map(const std::vector<Pair>& pairs, double individuals, const RefitOptions& options) {
  const Objective objective(pairs, individuals, options);
  if (!objective.can_be_fitted()) return {};
  const Theta theta = lowest_point(objective);
  return {std::exp(theta[0]), theta[1]};
}

Refit refit(const Trial& trial, const RefitOptions& options) {
  Refit out;
  std::set<size_t> with_mates;
  for (const Pair& pair : trial.pairs) {
    ++(pair.trial.same ? out.same_pairs : out.different_pairs);
    if (pair.trial.same) with_mates.insert(pair.individual);
  }
  out.individuals = with_mates.size();
  if (out.individuals < options.least_individuals) {
    out.refused =
        in_words(messages::kTooFewForCalibration,
                 {{"n", out.individuals}, {"least", static_cast<size_t>(options.least_individuals)}});
    return out;
  }
  out.folds = std::min<int>(options.folds, static_cast<int>(out.individuals));
  const std::vector<Own> each = cross_validated(trial, out.folds, options);
  const Totals all = totals(each, std::vector<int>(each.size(), 1));
  out.before = all.before, out.after = all.after;
  std::vector<double> gains;
  for (const std::vector<int>& times : draws(each.size(), options)) {
    const Totals drawn = totals(each, times);
    gains.push_back(drawn.before - drawn.after);
  }
  out.gain = percentiles(std::move(gains));
  out.map = fit_llr_map(trial.pairs, static_cast<double>(out.individuals), options);
  if (!(out.gain.low > 0))
    out.refused =
        in_words(messages::kCalibrationDoesNotHelp, {{"before", fmt::format("{:.4f}", out.before)},
                                                     {"after", fmt::format("{:.4f}", out.after)},
                                                     {"gain", fmt::format("{:+.4f}", out.before - out.after)},
                                                     {"low", fmt::format("{:+.4f}", out.gain.low)},
                                                     {"high", fmt::format("{:+.4f}", out.gain.high)}});
  return out;
}

}  // namespace evet::trial
