#include "matcher/catalogue/kappa.h"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cassert>
#include <cmath>
#include <numeric>

namespace evet {
namespace {

using Binomial = boost::math::binomial_distribution<>;

double square(double x) {
  return x * x;
}

double z_of(double level) {
  return boost::math::quantile(boost::math::normal(), 0.5 + level / 2);
}

// Of `hits` in `cases`: the exact lower limit, one tail of (1 - level) / 2.
double lower_limit(int hits, int cases, double level) {
  return hits == 0 ? 0.0 : Binomial::find_lower_bound_on_p(cases, hits, (1 - level) / 2);
}

Interval interval_of(const Kappa& kappa, double level, int agreed, int cases) {
  if (agreed == cases) {
    const double observed = lower_limit(agreed, cases, level);
    return {std::max(-1.0, (observed - kappa.chance) / (1 - kappa.chance)), 1};
  }
  const double half = z_of(level) * kappa.se;
  return {std::max(-1.0, kappa.kappa - half), std::min(1.0, kappa.kappa + half)};
}

}  // namespace

std::optional<Kappa> cohen_kappa(const std::vector<std::vector<int>>& table, double level) {
  assert(level > 0 && level < 1);
  const size_t k = table.size();
  std::vector<double> row(k), column(k);
  double n = 0;
  for (size_t i = 0; i < k; ++i) {
    assert(table[i].size() == k);
    for (size_t j = 0; j < k; ++j) row[i] += table[i][j], column[j] += table[i][j], n += table[i][j];
  }
  if (n == 0) return std::nullopt;
  Kappa out;
  int agreed = 0;
  for (size_t i = 0; i < k; ++i) {
    row[i] /= n, column[i] /= n;
    agreed += table[i][i];
    out.chance += row[i] * column[i];
  }
  out.observed = agreed / n;
  if (1 - out.chance < 1e-12) return std::nullopt;
  out.kappa = (out.observed - out.chance) / (1 - out.chance);

  // Fleiss, Cohen & Everitt 1969, equations 13 and 14.
  double on = 0, off = 0, null = 0;
  for (size_t i = 0; i < k; ++i) {
    on += table[i][i] / n * square(1 - (row[i] + column[i]) * (1 - out.kappa));
    null += row[i] * column[i] * (row[i] + column[i]);
    for (size_t j = 0; j < k; ++j)
      if (i != j) off += table[i][j] / n * square(column[i] + row[j]);
  }
  const double variance = on + square(1 - out.kappa) * off - square(out.kappa - out.chance * (1 - out.kappa));
  out.se = std::sqrt(std::max(0.0, variance)) / ((1 - out.chance) * std::sqrt(n));
  out.se_null =
      std::sqrt(std::max(0.0, out.chance + square(out.chance) - null)) / ((1 - out.chance) * std::sqrt(n));
  out.interval = interval_of(out, level, agreed, static_cast<int>(n));
  return out;
}

std::optional<ManyReadersKappa> fleiss_kappa(const std::vector<std::vector<int>>& counts, double level) {
  assert(level > 0 && level < 1);
  std::vector<const std::vector<int>*> cases;
  for (const auto& of_case : counts)
    if (std::accumulate(of_case.begin(), of_case.end(), 0) >= 2) cases.push_back(&of_case);
  if (cases.empty()) return std::nullopt;
  const double n = static_cast<double>(cases.size());
  const size_t k = cases.front()->size();
  ManyReadersKappa out;
  out.cases = cases.size();
  out.category_shares.assign(k, 0);
  std::vector<double> agreement, readers;
  std::vector<double> disagreement_on(k);
  int agreed = 0;
  for (const auto* of_case : cases) {
    assert(of_case->size() == k);
    const double m = std::accumulate(of_case->begin(), of_case->end(), 0.0);
    double same = 0;
    for (size_t j = 0; j < k; ++j) {
      const double x = (*of_case)[j];
      same += x * (x - 1);
      out.category_shares[j] += x / m / n;
      disagreement_on[j] += x * (m - x) / (m * (m - 1)) / n;
    }
    agreement.push_back(same / (m * (m - 1)));
    readers.push_back(m);
    agreed += agreement.back() == 1;
  }
  out.observed = std::accumulate(agreement.begin(), agreement.end(), 0.0) / n;
  for (const double share : out.category_shares) out.chance += square(share);
  if (1 - out.chance < 1e-12) return std::nullopt;
  out.kappa = (out.observed - out.chance) / (1 - out.chance);
  for (size_t j = 0; j < k; ++j) {
    const double p = out.category_shares[j];
    out.by_category.push_back(p * (1 - p) < 1e-12 ? std::nullopt
                                                  : std::optional(1 - disagreement_on[j] / (p * (1 - p))));
  }

  double spread = 0;  // of each case's pull on kappa
  for (size_t i = 0; i < cases.size(); ++i) {
    double chance_pull = 0;
    for (size_t j = 0; j < k; ++j)
      chance_pull += 2 * out.category_shares[j] * ((*cases[i])[j] / readers[i] - out.category_shares[j]);
    spread += square((agreement[i] - out.observed) / (1 - out.chance) -
                     (1 - out.observed) / square(1 - out.chance) * chance_pull);
  }
  if (cases.size() > 1) out.se = std::sqrt(spread / (n * (n - 1)));
  double pq = 0, pq_skew = 0;  // Fleiss, Nee & Landis 1979
  for (const double p : out.category_shares) pq += p * (1 - p), pq_skew += p * (1 - p) * (1 - 2 * p);
  const double m = std::accumulate(readers.begin(), readers.end(), 0.0) / n;
  out.se_null = std::sqrt(2 / (n * m * (m - 1)) * std::max(0.0, square(pq) - pq_skew)) / pq;
  out.interval = interval_of(out, level, agreed, static_cast<int>(n));
  return out;
}

ErrorRate error_rate(int errors, int trials, double level) {
  assert(0 <= errors && errors <= trials);
  ErrorRate out{errors, trials, {}, {0, 1}};
  if (trials == 0) return out;
  out.rate = static_cast<double>(errors) / trials;
  out.interval = {lower_limit(errors, trials, level), 1 - lower_limit(trials - errors, trials, level)};
  return out;
}

}  // namespace evet
