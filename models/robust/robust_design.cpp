#include "models/robust/robust_design.h"

#include <algorithm>
#include <cmath>

#include "models/base/input_error.h"
#include "models/closed/exact_distinct.h"
#include "models/fit/tape.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

struct Layout {
  std::size_t periods = 0, capture = 0, leaving = 0, staying = 0;
  std::vector<std::size_t> first_occasion;  // of each period, among all occasions
  RobustTerms terms;
  std::vector<double> lengths;  // between the periods; empty: one each

  // Over the whole interval, however long.
  template <class T>
  T survival(const std::vector<T>& theta, std::size_t interval) const {
    return logistic(over_time(theta[terms.survival_by_period ? interval : 0], length_of(lengths, interval)));
  }
  template <class T>
  T capture_eta(const std::vector<T>& theta, std::size_t period, std::size_t occasion) const {
    return theta[capture + (terms.capture_by_occasion ? first_occasion[period] + occasion
                            : terms.capture_by_period ? period
                                                      : 0)];
  }
  // Absent in period `interval` + 1 given present (or absent) in `interval`.
  template <class T>
  T absent(const std::vector<T>& theta, std::size_t interval, bool was_present) const {
    if (terms.emigration == Emigration::none) return T(0.0);
    if (terms.emigration == Emigration::random)
      return logistic(theta[leaving + (terms.emigration_by_period ? interval : 0)]);
    return logistic(theta[was_present ? leaving : staying]);
  }
  template <class T>
  T log_missed(const std::vector<T>& theta, std::size_t period, std::size_t occasions) const {
    T sum = T(0.0);
    for (std::size_t j = 0; j < occasions; ++j) sum += log_logistic(-capture_eta(theta, period, j));
    return sum;
  }
};

std::vector<double> as_vector(const VectorXd& x) {
  return {x.data(), x.data() + x.size()};
}

template <class T>
T log_likelihood_of(const RobustCounts& counts, const Layout& at, const std::vector<T>& theta) {
  using std::exp;
  using std::log;
  const std::size_t k = at.periods;
  T sum = T(0.0);
  std::vector<T> missed;  // 1 - p*
  for (std::size_t i = 0; i < k; ++i) {
    const T log_missed = at.log_missed(theta, i, counts.captures[i].size());
    missed.push_back(exp(log_missed));
    const double n = counts.periods.caught[static_cast<Index>(i)];
    if (n == 0) continue;
    for (std::size_t j = 0; j < counts.captures[i].size(); ++j) {
      const T eta = at.capture_eta(theta, i, j);
      sum += counts.captures[i][j] * log_logistic(eta) +
             (counts.exposed[i][j] - counts.captures[i][j]) * log_logistic(-eta);
    }
    sum -= n * log1m_exp(log_missed);
  }
  // Never caught again, by state just after each period; the last period leaves nothing to come.
  std::vector<T> never_present(k, T(1.0)), never_absent(k, T(1.0));
  for (std::size_t i = k - 1; i-- > 0;) {
    const T phi = at.survival(theta, i);
    const T out = at.absent(theta, i, true), stay = at.absent(theta, i, false);
    never_present[i] =
        1.0 - phi + phi * ((1.0 - out) * missed[i + 1] * never_present[i + 1] + out * never_absent[i + 1]);
    never_absent[i] =
        1.0 - phi + phi * ((1.0 - stay) * missed[i + 1] * never_present[i + 1] + stay * never_absent[i + 1]);
  }
  const VectorXd never = counts.periods.never_again();
  for (std::size_t i = 0; i + 1 < k; ++i) {
    const Index row = static_cast<Index>(i);
    if (counts.periods.released[row] == 0) continue;
    if (never[row] > 0) sum += never[row] * log(never_present[i]);
    T present = T(1.0), absent = T(0.0);  // uncaught since release, by state
    for (std::size_t j = i; j + 1 < k; ++j) {
      const T phi = at.survival(theta, j);
      const T out = at.absent(theta, j, true), stay = at.absent(theta, j, false);
      const T here = phi * ((1.0 - out) * present + (1.0 - stay) * absent);
      absent = phi * (out * present + stay * absent);
      const double m = counts.periods.next(row, static_cast<Index>(j) + 1);
      if (m > 0) sum += m * log(here * (1.0 - missed[j + 1]));
      present = here * missed[j + 1];
    }
  }
  return sum;
}

}  // namespace

RobustCounts robust_counts(const CaptureHistories& histories) {
  histories.check();
  if (histories.primary.empty() || histories.primary_count() < 2)
    throw InputError("robust design", "the occasions are not gathered into two or more primary periods",
                     "head the columns 1.1, 1.2, 2.1, ... or add a row #period");
  const std::size_t k = static_cast<std::size_t>(histories.primary_count());
  CaptureHistories by_period = histories;
  by_period.occasions.clear();
  by_period.dates.clear();
  by_period.primary.clear();
  by_period.unsettled.clear();
  by_period.occasion_covariates.clear();
  by_period.caught.assign(histories.animal_count() * k, 0);
  for (std::size_t i = 0; i < k; ++i) by_period.occasions.push_back(std::to_string(i + 1));
  RobustCounts counts;
  counts.captures.resize(k);
  counts.exposed.resize(k);
  for (const int period : histories.primary) {
    counts.captures[static_cast<std::size_t>(period)].push_back(0);
    counts.exposed[static_cast<std::size_t>(period)].push_back(0);
  }
  for (std::size_t a = 0; a < histories.animal_count(); ++a) {
    std::size_t last = 0;
    for (std::size_t j = 0; j < histories.occasion_count(); ++j)
      if (histories.was_caught(a, j)) {
        by_period.caught[a * k + static_cast<std::size_t>(histories.primary[j])] = 1;
        last = j;
      }
    std::size_t within = 0;
    for (std::size_t j = 0; j < histories.occasion_count(); ++j) {
      within = j > 0 && histories.primary[j] == histories.primary[j - 1] ? within + 1 : 0;
      const auto period = static_cast<std::size_t>(histories.primary[j]);
      if (!by_period.caught[a * k + period] || (histories.was_lost(a) && j > last)) continue;
      ++counts.exposed[period][within];
      counts.captures[period][within] += histories.was_caught(a, j);
    }
  }
  counts.periods = m_array(by_period);
  counts.by_period = by_period;
  return counts;
}

FittedModel fit_robust(const RobustCounts& counts, const RobustTerms& terms, const ModelOptions& options) {
  const std::size_t k = counts.captures.size();
  FittedModel model;
  model.name = "robust";
  const char* const away[] = {"no temporary emigration", "random temporary emigration",
                              "temporary emigration depending on the period before"};
  model.description =
      std::string("survival ") + (terms.survival_by_period ? "by period" : "constant") + ", capture " +
      (terms.capture_by_occasion ? "by occasion"
       : terms.capture_by_period ? "by period"
                                 : "constant") +
      ", " + away[static_cast<int>(terms.emigration)] +
      (terms.emigration == Emigration::random && terms.emigration_by_period ? " by period" : "");
  Layout at;
  at.periods = k;
  at.terms = terms;
  at.lengths = options.interval_lengths;
  Likelihood& likelihood = model.likelihood;
  const auto add = [&](const Parameter& what, bool many, std::size_t count, double start) {
    for (std::size_t i = 0; i < (many ? count : 1); ++i) {
      Parameter one = what;
      if (many) one.index = static_cast<int>(i) + 1;
      likelihood.add(one, Link::logit, start);
    }
  };
  add({Quantity::survival}, terms.survival_by_period, k - 1, start_per_unit(0.7, at.lengths));
  at.capture = likelihood.parameters.size();
  std::size_t occasions = 0;
  for (std::size_t i = 0; i < k; ++i) {
    at.first_occasion.push_back(occasions);
    occasions += counts.captures[i].size();
  }
  add({Quantity::capture}, terms.capture_by_occasion || terms.capture_by_period,
      terms.capture_by_occasion ? occasions : k, 0.3);
  at.leaving = likelihood.parameters.size();
  if (terms.emigration == Emigration::random)
    add({Quantity::leaving, {}, {}, Parameter::Kind::value, {}, "absent"}, terms.emigration_by_period, k - 1,
        0.2);
  if (terms.emigration == Emigration::markov) {
    add({Quantity::leaving}, false, 1, 0.2);
    at.staying = likelihood.parameters.size();
    add({Quantity::staying_away}, false, 1, 0.5);
    VectorXd start = likelihood.start;
    start[static_cast<Index>(at.staying)] = 1.5;
    likelihood.further_starts = {start};
  }
  likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
    return evaluate([&](const auto& theta) { return -log_likelihood_of(counts, at, theta); }, x, gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  model.sample_size = counts.periods.released.sum();
  for (const auto& period : counts.captures)
    for (const double captures : period) model.sample_size += captures;

  for (Index i = 0; i < model.fit.theta.size(); ++i)
    model.estimates.push_back(natural_estimate(likelihood, model.fit, i, options.level, options.profile));
  for (std::size_t i = 0; i < k; ++i) {
    const double n = counts.periods.caught[static_cast<Index>(i)];
    const std::size_t secondary = counts.captures[i].size();
    const auto number = [=](const VectorXd& x) {
      return n / -std::expm1(at.log_missed(as_vector(x), i, secondary));
    };
    Estimate estimate = estimate_of({Quantity::number, static_cast<int>(i) + 1});
    estimate.details["counted"] = n;
    if (n > 0) estimate.undefined = why_undefined(model.fit, number);
    if (!estimate.undefined.empty()) {
      estimate.intervals = {{n, kInfinity, options.level, "no information"}};
      model.estimates.push_back(estimate);
      continue;
    }
    estimate.value = number(model.fit.theta);
    const double star = n > 0 ? n / estimate.value : 1;
    estimate.standard_error = std::sqrt(n * (1 - star) / (star * star) + delta_variance(model.fit, number));
    estimate.intervals = {log_normal_interval(estimate.value, estimate.standard_error, n, options.level)};
    widen_if_certain(estimate, counts.captures[i], n, options.level);
    if (n == 0) estimate.warnings = {"Nothing was caught in this period."};
    model.estimates.push_back(estimate);
  }
  Estimate& first = model.estimates.front();
  first.warnings = model.fit.warnings();
  first.source =
      "Kendall, Nichols & Hines (1997), Ecology 78:563-578; Pollock (1982), J. Wildl. Manage. 46:752-757";
  first.assumptions = {
      "Within a primary period no animal came or went.",
      "Every animal present had the same chance of capture, as far as the model does not say otherwise.",
      "Every animal had the same chance of surviving to the next period, present or away; no animal lost its "
      "identity."};
  if (terms.emigration == Emigration::none)
    first.assumptions.push_back("No animal was away in one period and back in a later one.");
  return model;
}

std::vector<Estimate> closed_by_period(const RobustCounts& counts, double level) {
  std::vector<Estimate> estimates;
  for (std::size_t i = 0; i < counts.captures.size(); ++i) {
    const double n = counts.periods.caught[static_cast<Index>(i)];
    double captures = 0, exposed = 0;
    for (std::size_t j = 0; j < counts.captures[i].size(); ++j) {
      captures += counts.captures[i][j];
      exposed += counts.exposed[i][j];
    }
    const double s = static_cast<double>(counts.captures[i].size());
    Estimate estimate = estimate_of({Quantity::number, static_cast<int>(i) + 1});
    estimate.source = "Pollock (1982), J. Wildl. Manage. 46:752-757; Huggins (1989), Biometrika 76:133-140";
    if (i == 0)
      estimate.assumptions = {
          "Within a primary period no animal came or went.",
          "Within a primary period every animal had the same chance of capture on every occasion.",
          "No animal lost its identity: each recapture was recognised as one."};
    estimate.intervals = {{n, kInfinity, level, "no information"}};
    Likelihood likelihood;
    likelihood.add({Quantity::capture}, Link::logit,
                   std::clamp(captures / std::max(1.0, 1.3 * exposed), 0.02, 0.95));
    likelihood.minus_log_likelihood = [=](const VectorXd& x, VectorXd* gradient) {
      return evaluate(
          [&](const auto& theta) {
            return -(captures * log_logistic(theta[0]) + (exposed - captures) * log_logistic(-theta[0]) -
                     n * log1m_exp(s * log_logistic(-theta[0])));
          },
          x, gradient);
    };
    const bool informative = s > 1 && captures > n;
    if (informative) {
      const Fit one = fit(likelihood);
      const auto number = [=](const VectorXd& x) { return n / -std::expm1(s * log_logistic(-x[0])); };
      const double star = -std::expm1(s * log_logistic(-one.theta[0]));
      estimate.value = n / star;
      estimate.standard_error = std::sqrt(n * (1 - star) / (star * star) + delta_variance(one, number));
      estimate.intervals = {log_normal_interval(estimate.value, estimate.standard_error, n, level)};
      widen_if_certain(estimate, counts.captures[i], n, level);
      estimate.details["p"] = logistic(one.theta[0]);
    } else {
      estimate.undefined = "no animal was caught twice within this period";
    }
    estimates.push_back(estimate);
  }
  return estimates;
}

Eigen::MatrixXd robust_cells(int periods, double survival, double p_star, double leaving,
                             double staying_away) {
  Eigen::MatrixXd cells = Eigen::MatrixXd::Zero(periods - 1, periods + 1);
  for (int i = 0; i + 1 < periods; ++i) {
    double present = 1, absent = 0, again = 0;
    for (int j = i + 1; j < periods; ++j) {
      const double here = survival * ((1 - leaving) * present + (1 - staying_away) * absent);
      absent = survival * (leaving * present + staying_away * absent);
      cells(i, j) = here * p_star;
      again += cells(i, j);
      present = here * (1 - p_star);
    }
    cells(i, periods) = 1 - again;
  }
  return cells;
}

}  // namespace evet::models
