#include "models/robust/robust_design.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/exact_distinct.h"
#include "models/fit/chance_estimates.h"
#include "models/fit/linear_part.h"
#include "models/fit/messages.h"
#include "models/fit/tape.h"
#include "models/open/time_between.h"
#include "models/robust/messages.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

struct RobustLayout {
  std::size_t periods = 0, leaving = 0, staying = 0;
  std::vector<std::size_t> first_occasion;  // of each period, among all occasions
  RobustChoice choice;
  LinearPart survival_part, capture_part;
  std::vector<double> lengths;  // between the periods; empty: one each

  // Over the whole interval, however long.
  template <class T>
  T survival(const std::vector<T>& theta, std::size_t u, std::size_t interval) const {
    return logistic(over_time(survival_part.eta(theta, u, interval), length_of(lengths, interval)));
  }
  template <class T>
  T capture_eta(const std::vector<T>& theta, std::size_t u, std::size_t period, std::size_t occasion) const {
    return capture_part.eta(theta, u, choice.capture_by_period ? period : first_occasion[period] + occasion);
  }
  // Absent in period `interval` + 1 given present (or absent) in `interval`.
  template <class T>
  T absent(const std::vector<T>& theta, std::size_t interval, bool was_present) const {
    if (choice.emigration == Emigration::none) return T(0.0);
    if (choice.emigration == Emigration::random)
      return logistic(theta[leaving + (choice.emigration_by_period ? interval : 0)]);
    return logistic(theta[was_present ? leaving : staying]);
  }
  template <class T>
  T log_missed(const std::vector<T>& theta, std::size_t u, std::size_t period, std::size_t occasions) const {
    T sum = T(0.0);
    for (std::size_t j = 0; j < occasions; ++j) sum += log_logistic(-capture_eta(theta, u, period, j));
    return sum;
  }
};

template <class T>
T log_likelihood_of(const RobustCounts& counts, const RobustLayout& at, std::size_t u,
                    const std::vector<T>& theta) {
  using std::exp;
  using std::log;
  const std::size_t k = at.periods;
  T sum = T(0.0);
  std::vector<T> missed;  // 1 - p*
  for (std::size_t i = 0; i < k; ++i) {
    const T log_missed = at.log_missed(theta, u, i, counts.captures[i].size());
    missed.push_back(exp(log_missed));
    const double n = counts.periods.caught[static_cast<Index>(i)];
    if (n == 0) continue;
    for (std::size_t j = 0; j < counts.captures[i].size(); ++j) {
      const T eta = at.capture_eta(theta, u, i, j);
      sum += counts.captures[i][j] * log_logistic(eta) +
             (counts.exposed[i][j] - counts.captures[i][j]) * log_logistic(-eta);
    }
    sum -= n * log1m_exp(log_missed);
  }
  // Never caught again, by state just after each period; the last period leaves nothing to come.
  std::vector<T> never_present(k, T(1.0)), never_absent(k, T(1.0));
  for (std::size_t i = k - 1; i-- > 0;) {
    const T phi = at.survival(theta, u, i);
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
      const T phi = at.survival(theta, u, j);
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
    throw InputError(messages::kItemRobustDesign, messages::kNoPeriods, messages::kHeadByPeriod);
  const std::size_t k = static_cast<std::size_t>(histories.primary_count());
  CaptureHistories by_period = histories;
  by_period.occasions.clear();
  by_period.dates.clear();
  by_period.primary.clear();
  by_period.unsettled.clear();
  by_period.places.clear();
  by_period.place.clear();
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

namespace {

using Levels = std::vector<std::pair<std::string, std::string>>;

// Animals that the model cannot tell apart: a level of each group.
struct RobustUnit {
  RobustCounts counts;
  Levels levels;
};

struct RobustSetting {
  RobustLayout at;
  std::vector<RobustUnit> units;
  Units told_apart;
};

const MessageText& emigration_of(const RobustChoice& choice) {
  if (choice.emigration == Emigration::markov) return messages::kMarkovEmigration;
  if (choice.emigration == Emigration::none) return messages::kNoEmigration;
  return choice.emigration_by_period ? messages::kRandomEmigrationByPeriod : messages::kRandomEmigration;
}

std::string words_of(const RobustChoice& choice) {
  Terms capture = choice.capture;
  capture.occasion = capture.occasion || choice.capture_by_period;
  const MessageText& time = choice.capture_by_period ? messages::kPeriodWord : messages::kOccasionWord;
  return Message(messages::kRobustModel, {{"survival", choice.survival.words(messages::kPeriodWord)},
                                          {"capture", capture.words(time)},
                                          {"away", Message(emigration_of(choice))}})
      .words();
}

void add_emigration(Likelihood& likelihood, RobustLayout& at) {
  at.leaving = likelihood.parameters.size();
  if (at.choice.emigration == Emigration::random)
    for (std::size_t i = 0; i < (at.choice.emigration_by_period ? at.periods - 1 : 1); ++i) {
      Parameter one{Quantity::leaving, {}, {}, Parameter::Kind::value, {}, &messages::kAbsent};
      if (at.choice.emigration_by_period) one.index = static_cast<int>(i) + 1;
      likelihood.add(one, Link::logit, 0.2);
    }
  if (at.choice.emigration == Emigration::markov) {
    likelihood.add({Quantity::leaving}, Link::logit, 0.2);
    at.staying = likelihood.parameters.size();
    likelihood.add({Quantity::staying_away}, Link::logit, 0.5);
    VectorXd start = likelihood.start;
    start[static_cast<Index>(at.staying)] = 1.5;
    likelihood.further_starts = {start};
    // From low survival with few away a ridge leads to high survival with many away for long, and the curvature
    // at its foot does not show it.
    likelihood.crooked = true;
  }
}

// Numbers present in each period, of all animals or of a level.
class Present {
 public:
  Present(const RobustSetting& setting, const FittedModel& model, const ModelOptions& options,
          const Levels& levels)
      : setting_(setting), model_(model), options_(options), levels_(levels) {
    for (std::size_t u = 0; u < setting.units.size(); ++u) {
      const Levels& its = setting.units[u].levels;
      if (std::all_of(levels.begin(), levels.end(),
                      [&](const auto& one) { return std::find(its.begin(), its.end(), one) != its.end(); }))
        units_.push_back(u);
    }
  }

  Estimate number(std::size_t period) const {
    const double n = caught(period);
    const auto function = [=, this](const VectorXd& x) { return at(x, period); };
    Estimate estimate = estimate_of({Quantity::number, static_cast<int>(period) + 1, levels_});
    estimate.details["counted"] = n;
    if (n > 0) estimate.undefined = why_undefined(model_.fit, function);
    if (estimate.undefined.empty() && endless(period)) estimate.undefined = messages::kBeyondBounds;
    if (!estimate.undefined.empty()) {
      estimate.intervals = {{n, kInfinity, options_.level, messages::kIntervalNoInformation}};
      return estimate;
    }
    estimate.value = function(model_.fit.theta);
    estimate.standard_error = std::sqrt(spread_given_fit(period) + delta_variance(model_.fit, function));
    estimate.intervals = {log_normal_interval(estimate.value, estimate.standard_error, n, options_.level)};
    widen_if_certain(estimate, captures(period), n, options_.level);
    if (n == 0) estimate.warnings = {messages::kNothingInPeriod};
    return estimate;
  }

  Estimate mean_growth() const {
    Estimate estimate = estimate_of({Quantity::mean_growth, {}, levels_});
    estimate.intervals = {{0, kInfinity, options_.level, messages::kIntervalNoInformation}};
    const std::size_t k = setting_.at.periods;
    for (std::size_t i = 0; i < k; ++i) {
      if (caught(i) == 0) estimate.undefined = messages::kNothingInOnePeriod;
      if (endless(i)) estimate.undefined = messages::kBeyondBounds;
    }
    const auto slope = [=, this](const VectorXd& x) {
      std::vector<double> numbers;
      for (std::size_t i = 0; i < k; ++i) numbers.push_back(at(x, i));
      return log_slope(numbers, setting_.at.lengths);
    };
    if (estimate.undefined.empty()) estimate.undefined = why_undefined(model_.fit, slope);
    if (!estimate.undefined.empty()) return estimate;
    double variance = delta_variance(model_.fit, slope);
    for (std::size_t i = 0; i < k; ++i) {  // the slope is linear in each ln N
      std::vector<double> one(k, 1.0);
      one[i] = std::exp(1.0);
      const double weight = log_slope(one, setting_.at.lengths), n = at(model_.fit.theta, i);
      variance += weight * weight * spread_given_fit(i) / (n * n);
    }
    const double log_value = slope(model_.fit.theta),
                 half = normal_point(options_.level) * std::sqrt(variance);
    estimate.value = std::exp(log_value);
    estimate.standard_error = estimate.value * std::sqrt(variance);
    estimate.intervals = {{std::exp(log_value - half), std::exp(log_value + half), options_.level,
                           messages::kIntervalNormalOnLog}};
    return estimate;
  }

 private:
  const RobustCounts& of(std::size_t u) const { return setting_.units[u].counts; }
  double caught_of(std::size_t u, std::size_t period) const {
    return of(u).periods.caught[static_cast<Index>(period)];
  }
  double caught(std::size_t period) const {
    double n = 0;
    for (const std::size_t u : units_) n += caught_of(u, period);
    return n;
  }
  std::vector<double> captures(std::size_t period) const {
    std::vector<double> sum(of(0).captures[period].size(), 0.0);
    for (const std::size_t u : units_)
      for (std::size_t j = 0; j < sum.size(); ++j) sum[j] += of(u).captures[period][j];
    return sum;
  }
  double at(const VectorXd& x, std::size_t period) const {
    double n = 0;
    for (const std::size_t u : units_) n += caught_of(u, period) / star(x, u, period);
    return n;
  }
  double star(const VectorXd& x, std::size_t u, std::size_t period) const {
    return -std::expm1(setting_.at.log_missed(as_vector(x), u, period, of(u).captures[period].size()));
  }
  // A chance of capture at the lower end of its range, as when no animal of a period was caught twice within it:
  // the number that follows is as large as the search went, and means nothing.
  bool endless(std::size_t period) const {
    constexpr double kLeastCaught = 1e-4;  // share of those present, in the whole period
    return std::any_of(units_.begin(), units_.end(), [&](std::size_t u) {
      return caught_of(u, period) > 0 && star(model_.fit.theta, u, period) < kLeastCaught;
    });
  }
  // Of the number caught, were the chances known.
  double spread_given_fit(std::size_t period) const {
    double variance = 0;
    for (const std::size_t u : units_) {
      const double caught_chance = star(model_.fit.theta, u, period);
      variance += caught_of(u, period) * (1 - caught_chance) / (caught_chance * caught_chance);
    }
    return variance;
  }

  const RobustSetting& setting_;
  const FittedModel& model_;
  const ModelOptions& options_;
  Levels levels_;
  std::vector<std::size_t> units_;
};

void add_numbers(FittedModel& model, const RobustSetting& setting, const ModelOptions& options) {
  std::vector<Levels> all = {{}};
  for (const RobustUnit& unit : setting.units)
    for (const auto& level : unit.levels)
      if (std::find(all.begin(), all.end(), Levels{level}) == all.end()) all.push_back({level});
  for (const Levels& levels : all) {
    const Present present(setting, model, options, levels);
    for (std::size_t i = 0; i < setting.at.periods; ++i) model.estimates.push_back(present.number(i));
    if (setting.at.periods > 2) model.estimates.push_back(present.mean_growth());
  }
}

// `periods` and `nights` carry the groups and the covariates by period and by night.
FittedModel fit_periods(RobustSetting setting, const CaptureHistories& periods,
                        const CaptureHistories& nights, const ModelOptions& options) {
  RobustLayout& layout = setting.at;
  FittedModel model;
  model.name = "robust";
  model.description = words_of(layout.choice);
  layout.periods = setting.units.front().counts.captures.size();
  layout.lengths = options.interval_lengths;
  std::size_t occasions = 0;
  for (const auto& period : setting.units.front().counts.captures) {
    layout.first_occasion.push_back(occasions);
    occasions += period.size();
  }
  Likelihood& likelihood = model.likelihood;
  const Units& units = setting.told_apart;
  const Predictor survival({Quantity::survival}, layout.choice.survival, periods, units, 0,
                           layout.periods - 1, start_per_unit(0.7, layout.lengths), likelihood);
  Terms capture_terms = layout.choice.capture;
  if (layout.choice.capture_by_period && !capture_terms.group_by_occasion) capture_terms.occasion = true;
  const Predictor capture({Quantity::capture}, capture_terms,
                          layout.choice.capture_by_period ? periods : nights, units, 0,
                          layout.choice.capture_by_period ? layout.periods : occasions, 0.3, likelihood);
  layout.survival_part = LinearPart(survival);
  layout.capture_part = LinearPart(capture);
  const Index chances = likelihood.start.size();
  add_emigration(likelihood, layout);
  const auto kept = std::make_shared<const RobustSetting>(setting);
  likelihood.minus_log_likelihood = [kept](const VectorXd& x, VectorXd* gradient) {
    return evaluate(
        [&](const auto& theta) {
          auto sum = log_likelihood_of(kept->units[0].counts, kept->at, 0, theta);
          for (std::size_t u = 1; u < kept->units.size(); ++u)
            sum += log_likelihood_of(kept->units[u].counts, kept->at, u, theta);
          return -sum;
        },
        x, gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  for (const RobustUnit& unit : kept->units) {
    model.sample_size += unit.counts.periods.released.sum();
    for (const auto& period : unit.counts.captures)
      for (const double captures : period) model.sample_size += captures;
  }
  add_chance_estimates(model, Quantity::survival, kept->at.choice.survival, survival, periods, units, 0,
                       options);
  add_chance_estimates(model, Quantity::capture, capture_terms, capture, nights, units, 0, options);
  for (Index i = chances; i < model.fit.theta.size(); ++i)
    model.estimates.push_back(natural_estimate(likelihood, model.fit, i, options.level, options.profile));
  add_numbers(model, *kept, options);
  Estimate& first = model.estimates.front();
  first.warnings = model.fit.warnings();
  first.source =
      "Kendall, Nichols & Hines (1997), Ecology 78:563-578; Pollock (1982), J. Wildl. Manage. 46:752-757";
  first.assumptions = {messages::kClosedWithinPeriods, messages::kCaughtAlikeInPeriod,
                       messages::kSurvivedPresentOrAway};
  if (kept->at.choice.emigration == Emigration::none) first.assumptions.push_back(messages::kNoneAway);
  return model;
}

// Covariates of nights as their means over each period.
CaptureHistories with_period_covariates(CaptureHistories by_period, const CaptureHistories& histories) {
  const auto k = by_period.occasion_count();
  for (const auto& [name, values] : histories.occasion_covariates) {
    std::vector<double> sums(k, 0.0), nights(k, 0.0);
    for (std::size_t j = 0; j < values.size(); ++j) {
      sums[static_cast<std::size_t>(histories.primary[j])] += values[j];
      ++nights[static_cast<std::size_t>(histories.primary[j])];
    }
    for (std::size_t i = 0; i < k; ++i) sums[i] /= nights[i];
    by_period.occasion_covariates[name] = sums;
  }
  return by_period;
}

}  // namespace

FittedModel fit_robust(const RobustCounts& counts, const RobustTerms& terms, const ModelOptions& options) {
  CaptureHistories periods, nights;  // carry only the occasions
  for (std::size_t i = 0; i < counts.captures.size(); ++i) {
    periods.occasions.push_back(std::to_string(i + 1));
    for (std::size_t j = 0; j < counts.captures[i].size(); ++j)
      nights.occasions.push_back(std::to_string(i + 1) + "." + std::to_string(j + 1));
  }
  RobustSetting setting;
  setting.at.choice.emigration = terms.emigration;
  setting.at.choice.emigration_by_period = terms.emigration_by_period;
  setting.at.choice.survival.occasion = terms.survival_by_period;
  setting.at.choice.capture.occasion = terms.capture_by_occasion;
  setting.at.choice.capture_by_period = terms.capture_by_period && !terms.capture_by_occasion;
  setting.units = {{counts, {}}};
  setting.told_apart = {{}, {0}};
  return fit_periods(std::move(setting), periods, nights, options);
}

FittedModel fit_robust(const CaptureHistories& histories, const RobustChoice& choice,
                       const ModelOptions& options) {
  const RobustCounts all = robust_counts(histories);
  for (const Terms* terms : {&choice.survival, &choice.capture})
    if (!terms->covariates.empty())
      throw InputError(messages::kItemRobustDesign,
                       {messages::kLinearInAnimals, {{"covariate", terms->covariates.front()}}},
                       messages::kMakeClasses);
  if (choice.capture_by_period && !choice.capture.occasion_covariates.empty())
    throw InputError(messages::kItemRobustDesign, messages::kByPeriodAndLinear, messages::kSayOneOfTwo);
  RobustSetting setting;
  setting.at.choice = choice;
  Terms numbers;
  numbers.groups = choice.numbers_by;
  setting.told_apart = make_units(histories, {choice.survival, choice.capture, numbers});
  std::vector<std::string> names = choice.numbers_by;
  for (const Terms* terms : {&choice.survival, &choice.capture})
    for (const std::string& name : terms->groups)
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  std::vector<std::vector<std::size_t>> animals(setting.told_apart.first_animal.size());
  for (std::size_t i = 0; i < histories.animal_count(); ++i)
    animals[setting.told_apart.unit_of_animal[i]].push_back(i);
  for (std::size_t u = 0; u < animals.size(); ++u) {
    RobustUnit unit{animals.size() == 1 ? all : robust_counts(select_animals(histories, animals[u])), {}};
    for (const std::string& name : names)
      unit.levels.emplace_back(name, histories.groups.at(name)[setting.told_apart.first_animal[u]]);
    setting.units.push_back(unit);
  }
  return fit_periods(std::move(setting), with_period_covariates(all.by_period, histories), histories,
                     options);
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
      estimate.assumptions = {messages::kClosedWithinPeriods, messages::kOneChanceInPeriod,
                              messages::kEachRecognised};
    estimate.intervals = {{n, kInfinity, level, messages::kIntervalNoInformation}};
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
      estimate.undefined = messages::kNoneTwiceInPeriod;
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
