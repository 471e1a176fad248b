#include "matcher/catalogue/kappa.h"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/binomial.hpp>
#include <cassert>
#include <cmath>
#include <numeric>
#include <random>

namespace evet {
namespace {

using Binomial = boost::math::binomial_distribution<>;

double square(double x) {
  return x * x;
}

// Of `hits` in `cases`: the exact lower limit, one tail of (1 - level) / 2.
double lower_limit(int hits, int cases, double level) {
  return hits == 0 ? 0.0 : Binomial::find_lower_bound_on_p(cases, hits, (1 - level) / 2);
}

Interval exact(int hits, int cases, double level) {
  return {lower_limit(hits, cases, level), 1 - lower_limit(cases - hits, cases, level)};
}

// The same of a mean of shares, which need not be a whole number of cases (the beta quantiles of Clopper &
// Pearson's limits take any).
Interval exact_share(double share, double cases, double level) {
  const double hits = share * cases, tail = (1 - level) / 2;
  const auto quantile = [](double a, double b, double p) {
    return boost::math::quantile(boost::math::beta_distribution<>(a, b), p);
  };
  return {hits < 1e-9 ? 0.0 : quantile(hits, cases - hits + 1, tail),
          cases - hits < 1e-9 ? 1.0 : quantile(hits + 1, cases - hits, 1 - tail)};
}

constexpr int kDraws = 2000;

// Draws of as many cases again, with replacement; `kappa_of` gets their indices.
template <class KappaOf>
std::vector<double> drawn_again(size_t cases, const KappaOf& kappa_of) {
  std::mt19937_64 random(1960);
  std::vector<double> out;
  std::vector<size_t> drawn(cases);
  for (int draw = 0; draw < kDraws; ++draw) {
    // The remainder's bias, cases / 2^64, is nothing; a standard distribution differs between libraries.
    for (size_t& one : drawn) one = random() % cases;
    if (const std::optional<double> kappa = kappa_of(drawn)) out.push_back(*kappa);
  }
  std::sort(out.begin(), out.end());
  return out;
}

// `observed`: the exact limits of the agreement that kappa is made of.
Interval interval_of(const Kappa& kappa, const Interval& observed, const std::vector<double>& draws,
                     double level) {
  const auto beyond_chance = [&](double share) { return (share - kappa.chance) / (1 - kappa.chance); };
  Interval out{beyond_chance(observed.low), beyond_chance(observed.high)};
  if (!draws.empty()) {
    const auto at = [&](double share) {
      return draws[static_cast<size_t>(std::llround(share * static_cast<double>(draws.size() - 1)))];
    };
    out.low = std::min(out.low, at((1 - level) / 2)), out.high = std::max(out.high, at((1 + level) / 2));
  }
  return {std::clamp(out.low, -1.0, 1.0), std::clamp(out.high, -1.0, 1.0)};
}

std::optional<double> cohen_of(const std::vector<std::vector<int>>& table) {
  const size_t k = table.size();
  std::vector<double> row(k), column(k);
  double n = 0, agreed = 0, chance = 0;
  for (size_t i = 0; i < k; ++i) {
    agreed += table[i][i];
    for (size_t j = 0; j < k; ++j) row[i] += table[i][j], column[j] += table[i][j], n += table[i][j];
  }
  for (size_t i = 0; i < k; ++i) chance += row[i] / n * column[i] / n;
  if (1 - chance < 1e-12) return std::nullopt;
  return (agreed / n - chance) / (1 - chance);
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
  std::vector<std::pair<size_t, size_t>> answers;  // of each case
  for (size_t i = 0; i < k; ++i)
    for (size_t j = 0; j < k; ++j) answers.insert(answers.end(), static_cast<size_t>(table[i][j]), {i, j});
  out.observed_interval = exact(agreed, static_cast<int>(n), level);
  out.interval = interval_of(out, out.observed_interval,
                             drawn_again(answers.size(),
                                         [&](const std::vector<size_t>& drawn) {
                                           std::vector<std::vector<int>> again(k, std::vector<int>(k));
                                           for (const size_t one : drawn)
                                             ++again[answers[one].first][answers[one].second];
                                           return cohen_of(again);
                                         }),
                             level);
  return out;
}

namespace {

// Cases that several readers saw, and how far they agreed on each.
struct ManyReaders {
  std::vector<const std::vector<int>*> cases;
  std::vector<double> agreement, readers;  // by case
  std::vector<double> disagreement_on;     // by category
  int agreed = 0;                          // cases on which all do
  double n() const { return static_cast<double>(cases.size()); }
  double share(size_t one, size_t category) const { return (*cases[one])[category] / readers[one]; }
};

ManyReaders gather(std::vector<const std::vector<int>*> cases, std::vector<double>& category_shares) {
  ManyReaders all;
  all.cases = std::move(cases);
  const size_t k = category_shares.size();
  all.disagreement_on.resize(k);
  for (const auto* of_case : all.cases) {
    assert(of_case->size() == k);
    const double m = std::accumulate(of_case->begin(), of_case->end(), 0.0);
    double same = 0;
    for (size_t j = 0; j < k; ++j) {
      const double x = (*of_case)[j];
      same += x * (x - 1);
      category_shares[j] += x / m / all.n();
      all.disagreement_on[j] += x * (m - x) / (m * (m - 1)) / all.n();
    }
    all.agreement.push_back(same / (m * (m - 1)));
    all.readers.push_back(m);
    all.agreed += all.agreement.back() == 1;
  }
  return all;
}

// By each case's pull on kappa.
double standard_error(const ManyReadersKappa& kappa, const ManyReaders& all) {
  double spread = 0;
  for (size_t i = 0; i < all.cases.size(); ++i) {
    double chance_pull = 0;
    for (size_t j = 0; j < kappa.category_shares.size(); ++j)
      chance_pull += 2 * kappa.category_shares[j] * (all.share(i, j) - kappa.category_shares[j]);
    spread += square((all.agreement[i] - kappa.observed) / (1 - kappa.chance) -
                     (1 - kappa.observed) / square(1 - kappa.chance) * chance_pull);
  }
  return std::sqrt(spread / (all.n() * (all.n() - 1)));
}

// Where readers answer by chance. Fleiss, Nee & Landis 1979.
double standard_error_by_chance(const std::vector<double>& category_shares, const ManyReaders& all) {
  double pq = 0, pq_skew = 0;
  for (const double p : category_shares) pq += p * (1 - p), pq_skew += p * (1 - p) * (1 - 2 * p);
  const double m = std::accumulate(all.readers.begin(), all.readers.end(), 0.0) / all.n();
  return std::sqrt(2 / (all.n() * m * (m - 1)) * std::max(0.0, square(pq) - pq_skew)) / pq;
}

// Of cases drawn with replacement; nothing where all answers fell into one category.
std::optional<double> kappa_of(const ManyReaders& all, const std::vector<size_t>& drawn, size_t k) {
  double observed = 0, chance = 0;
  std::vector<double> shares(k);
  for (const size_t one : drawn) {
    observed += all.agreement[one] / all.n();
    for (size_t j = 0; j < k; ++j) shares[j] += all.share(one, j) / all.n();
  }
  for (const double share : shares) chance += square(share);
  if (1 - chance < 1e-12) return std::nullopt;
  return (observed - chance) / (1 - chance);
}

}  // namespace

std::optional<ManyReadersKappa> fleiss_kappa(const std::vector<std::vector<int>>& counts, double level) {
  assert(level > 0 && level < 1);
  std::vector<const std::vector<int>*> cases;
  for (const auto& of_case : counts)
    if (std::accumulate(of_case.begin(), of_case.end(), 0) >= 2) cases.push_back(&of_case);
  if (cases.empty()) return std::nullopt;
  const size_t k = cases.front()->size();
  ManyReadersKappa out;
  out.cases = cases.size();
  out.category_shares.assign(k, 0);
  const ManyReaders all = gather(std::move(cases), out.category_shares);
  out.observed = std::accumulate(all.agreement.begin(), all.agreement.end(), 0.0) / all.n();
  for (const double share : out.category_shares) out.chance += square(share);
  if (1 - out.chance < 1e-12) return std::nullopt;
  out.kappa = (out.observed - out.chance) / (1 - out.chance);
  for (size_t j = 0; j < k; ++j) {
    const double p = out.category_shares[j];
    out.by_category.push_back(
        p * (1 - p) < 1e-12 ? std::nullopt : std::optional(1 - all.disagreement_on[j] / (p * (1 - p))));
  }
  if (out.cases > 1) out.se = standard_error(out, all);
  out.se_null = standard_error_by_chance(out.category_shares, all);
  out.observed_interval = exact(all.agreed, static_cast<int>(out.cases), level);
  // Pairs of readers who agree, as if each case were one such pair or none: its spread is never larger.
  const Interval pairs = exact_share(out.observed, all.n(), level);
  const auto again = [&](const std::vector<size_t>& drawn) { return kappa_of(all, drawn, k); };
  out.interval = interval_of(out, pairs, drawn_again(out.cases, again), level);
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
