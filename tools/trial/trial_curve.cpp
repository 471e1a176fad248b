#include "tools/trial/trial_curve.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace evet::trial {
namespace {

constexpr size_t kCurvePoints = 60;  // of the drawn curve that have an interval

struct Scored {
  double odds = 0;
  size_t individual = 0;
};

// One resample's (or the sample's own) searches, so that FNIR at any allowed FPIR can be read off.
class Curve {
 public:
  Curve(const std::vector<Scored>& mates, const std::vector<Scored>& impostors, const std::vector<int>& times)
      : mates_(mates), impostors_(impostors) {
    for (const Scored& s : mates) below_.push_back((all_mates_ += times[s.individual]) - times[s.individual]);
    for (const Scored& s : impostors) over_.push_back(all_impostors_ += times[s.individual]);
    below_.push_back(all_mates_);
  }
  bool empty() const { return all_mates_ == 0 || all_impostors_ == 0; }
  double fnir(double allowed) const {
    // The strongest impostor that would be one too many: the threshold lies just above it.
    const double most = allowed * all_impostors_ + 1e-9;
    const auto one_too_many = std::upper_bound(over_.begin(), over_.end(), most);
    if (one_too_many == over_.end()) return 0;
    const double odds = impostors_[static_cast<size_t>(one_too_many - over_.begin())].odds;
    const auto first = std::upper_bound(mates_.begin(), mates_.end(), odds,
                                        [](double value, const Scored& s) { return value < s.odds; });
    return below_[static_cast<size_t>(first - mates_.begin())] / all_mates_;
  }

 private:
  const std::vector<Scored>&mates_, &impostors_;  // lowest first; highest first
  std::vector<double> below_, over_;              // how many before this mate; up to and with this impostor
  double all_mates_ = 0, all_impostors_ = 0;
};

}  // namespace

std::vector<double> sorted_impostors(const std::vector<Search>& searches) {
  std::vector<double> out;
  for (const Search& s : searches)
    if (!s.mated && s.acquired) out.push_back(s.best_odds);
  std::sort(out.rbegin(), out.rend());
  return out;
}

double threshold(const std::vector<double>& impostors, double allowed) {
  const auto n = static_cast<size_t>(allowed * static_cast<double>(impostors.size()) + 1e-9);
  if (n >= impostors.size()) return -std::numeric_limits<double>::infinity();
  return std::nextafter(impostors[n], std::numeric_limits<double>::infinity());
}

void error_curve(const Trial& trial, const ScoreOptions& options, Scores& scores) {
  std::map<std::string, size_t> numbered;
  std::vector<Scored> mates, impostors;
  for (const Search& s : trial.searches) {
    if (!s.acquired) continue;
    const size_t individual = numbered.emplace(s.individual, numbered.size()).first->second;
    (s.mated ? mates : impostors).push_back({s.mated ? s.mate_odds : s.best_odds, individual});
  }
  if (mates.empty() || impostors.empty()) return;
  std::sort(mates.begin(), mates.end(), [](const Scored& a, const Scored& b) { return a.odds < b.odds; });
  std::sort(impostors.begin(), impostors.end(),
            [](const Scored& a, const Scored& b) { return a.odds > b.odds; });
  const Curve sample(mates, impostors, std::vector<int>(numbered.size(), 1));
  for (size_t n = 0; n <= impostors.size(); ++n) {
    const double allowed = static_cast<double>(n) / static_cast<double>(impostors.size());
    const DetPoint point{allowed, sample.fnir(allowed)};
    if (scores.det.empty() || scores.det.back().fnir != point.fnir) scores.det.push_back(point);
  }
  const size_t every = (scores.det.size() + kCurvePoints - 1) / kCurvePoints;
  std::vector<DetPoint> kept;
  for (size_t k = 0; k < scores.det.size(); ++k)
    if (k % every == 0 || k + 1 == scores.det.size()) kept.push_back(scores.det[k]);
  scores.det = std::move(kept);

  std::vector<std::vector<double>> at_curve(scores.det.size()), at_point(scores.points.size());
  for (const std::vector<int>& times : draws(numbered.size(), options)) {
    const Curve drawn(mates, impostors, times);
    if (drawn.empty()) continue;
    for (size_t k = 0; k < scores.det.size(); ++k) at_curve[k].push_back(drawn.fnir(scores.det[k].fpir));
    for (size_t k = 0; k < scores.points.size(); ++k)
      at_point[k].push_back(drawn.fnir(scores.points[k].allowed_fpir));
  }
  for (size_t k = 0; k < scores.det.size(); ++k) {
    const Interval interval = percentiles(std::move(at_curve[k]));
    scores.det[k].low = interval.low;
    scores.det[k].high =
        std::max(interval.high, scores.det[k].fnir == 0 ? rule_of_three(numbered.size()) : 0.0);
    // Who allows more false positives misses no more.
    if (k > 0) scores.det[k].high = std::min(scores.det[k].high, scores.det[k - 1].high);
  }
  for (size_t k = 0; k < scores.points.size(); ++k) {
    const Interval interval = percentiles(std::move(at_point[k]));
    Rate& fnir = scores.points[k].fnir;
    fnir.low = std::min(fnir.low, interval.low);
    fnir.high = std::max(fnir.high, interval.high);
  }
}

void cost_of_ratios(const Trial& trial, const ScoreOptions& options, Scores& scores) {
  // Of each individual's pairs: how many, and what they cost, of the same animal and of others. The cost is a
  // mean over pairs, so a resample needs no more than these.
  struct Sums {
    double same = 0, different = 0, same_cost = 0, different_cost = 0;
  };
  std::vector<LlrTrial> trials;
  std::vector<Sums> of_individual;
  for (const Pair& pair : trial.pairs) {
    trials.push_back(pair.trial);
    of_individual.resize(std::max(of_individual.size(), pair.individual + 1));
    Sums& sums = of_individual[pair.individual];
    if (pair.trial.same)
      ++scores.same_pairs, ++sums.same, sums.same_cost += trial_cost(pair.trial);
    else
      ++scores.different_pairs, ++sums.different, sums.different_cost += trial_cost(pair.trial);
  }
  scores.cost = llr_cost(std::move(trials));
  if (scores.same_pairs == 0 || scores.different_pairs == 0) return;
  std::vector<double> totals;
  for (const std::vector<int>& times : draws(of_individual.size(), options)) {
    Sums drawn;
    for (size_t i = 0; i < times.size(); ++i) {
      drawn.same += times[i] * of_individual[i].same,
          drawn.different += times[i] * of_individual[i].different;
      drawn.same_cost += times[i] * of_individual[i].same_cost;
      drawn.different_cost += times[i] * of_individual[i].different_cost;
    }
    if (drawn.same > 0 && drawn.different > 0)
      totals.push_back((drawn.same_cost / drawn.same + drawn.different_cost / drawn.different) / 2);
  }
  scores.cost_total = percentiles(std::move(totals));
}

}  // namespace evet::trial
