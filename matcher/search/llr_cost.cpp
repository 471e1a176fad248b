#include "matcher/search/llr_cost.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evet {
namespace {

// log(1 + e^x) without overflow, in bits.
double soft_bits(double x) {
  return (std::max(x, 0.0) + std::log1p(std::exp(-std::abs(x)))) / std::numbers::ln2;
}

struct Pool {
  double same = 0, different = 0;
  double share() const { return same / (same + different); }
};

}  // namespace

double trial_cost(const LlrTrial& trial) {
  return soft_bits(trial.same ? -trial.llr : trial.llr);
}

LlrCost llr_cost(std::vector<LlrTrial> trials) {
  double same = 0, different = 0;
  for (const LlrTrial& t : trials) (t.same ? same : different) += t.weight;
  if (same <= 0 || different <= 0) return {};
  LlrCost out;
  for (const LlrTrial& t : trials) out.total += t.weight / (t.same ? same : different) * trial_cost(t) / 2;
  // At a tie the same-trials come first, so that the pools cannot use an order that the scores do not give.
  std::sort(trials.begin(), trials.end(), [](const LlrTrial& a, const LlrTrial& b) {
    return a.llr != b.llr ? a.llr < b.llr : a.same > b.same;
  });
  std::vector<Pool> pools;
  for (const LlrTrial& t : trials) {
    pools.push_back(t.same ? Pool{t.weight / same, 0} : Pool{0, t.weight / different});
    while (pools.size() > 1 && pools[pools.size() - 2].share() >= pools.back().share()) {
      pools[pools.size() - 2].same += pools.back().same;
      pools[pools.size() - 2].different += pools.back().different;
      pools.pop_back();
    }
  }
  for (const Pool& pool : pools) {
    if (pool.same > 0) out.discrimination -= pool.same * std::log2(pool.share()) / 2;
    if (pool.different > 0) out.discrimination -= pool.different * std::log2(1 - pool.share()) / 2;
  }
  return out;
}

}  // namespace evet
