#include "matcher/search/posterior.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace evet {

Posterior posterior(const std::vector<double>& llrs, double prior_recapture, size_t ruled_out) {
  Posterior out;
  if (llrs.empty()) return out;
  double top = 0;
  for (const double llr : llrs) top = std::max(top, llr);
  const double each = prior_recapture / static_cast<double>(llrs.size() + ruled_out);
  double sum = out.is_new = (1 - prior_recapture) * std::exp(-top);
  for (const double llr : llrs) {
    out.individual.push_back(each * std::exp(llr - top));
    sum += out.individual.back();
  }
  out.is_new /= sum;
  for (double& p : out.individual) p /= sum;
  return out;
}

std::vector<double> posterior_log_odds(const std::vector<double>& llrs, double prior_recapture) {
  std::vector<double> out;
  if (llrs.empty()) return out;
  const double each = std::log(prior_recapture / static_cast<double>(llrs.size())),
               fresh = std::log(1 - prior_recapture);
  // Sums over everything before and after each place, so that nothing is subtracted.
  const auto add = [](double a, double b) { return std::max(a, b) + std::log1p(std::exp(-std::abs(a - b))); };
  std::vector<double> after(llrs.size());
  double sum = fresh;
  for (size_t k = llrs.size(); k-- > 0;) after[k] = sum, sum = add(sum, each + llrs[k]);
  double before = -1e300;
  for (size_t k = 0; k < llrs.size(); ++k) {
    out.push_back(each + llrs[k] - add(before, after[k]));
    before = add(before, each + llrs[k]);
  }
  return out;
}

double cost_of_joining(double p_best, const SearchOptions& costs) {
  return (1 - p_best) * costs.wrong_join_over_missed;
}
double cost_of_calling_new(double p_new) {
  return 1 - p_new;
}

Advice advise(double p_best, double p_new, const SearchOptions& costs) {
  const double join = cost_of_joining(p_best, costs), call_new = cost_of_calling_new(p_new);
  if (costs.look_over_missed < std::min(join, call_new)) return Advice::look;
  return join <= call_new ? Advice::same : Advice::new_individual;
}

void keep_best(RankedCapture& ranked, int keep) {
  constexpr double kLeftOut = 1e-3;
  std::vector<Candidate>& all = ranked.candidates;
  std::sort(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) {
    return std::tuple(-a.probability, -a.score, a.individual) <
           std::tuple(-b.probability, -b.score, b.individual);
  });
  double left_out = 0;
  while (static_cast<int>(all.size()) > keep && left_out + all.back().probability < kLeftOut) {
    left_out += all.back().probability;
    all.pop_back();
  }
  double sum = ranked.new_probability;
  for (const Candidate& candidate : all) sum += candidate.probability;
  ranked.new_probability /= sum;
  for (Candidate& candidate : all) candidate.probability /= sum;
}

}  // namespace evet
