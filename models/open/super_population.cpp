#include <algorithm>
#include <cmath>
#include <memory>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/population_size.h"
#include "models/fit/chance_estimates.h"
#include "models/open/entry_models.h"
#include "models/open/entry_quantities.h"
#include "models/open/messages.h"
#include "models/open/release_part.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

// What the fit is of, beside its layout: kept for the estimates of chances.
struct EntrySetting {
  EntryLayout at;
  std::vector<Predictor> parts;  // survival, capture
  Units units;
};

void add_entries(Likelihood& likelihood, EntryUnit& unit) {
  unit.entry = likelihood.parameters.size();
  double by_now = 0;
  for (Index i = 0; i < unit.all.newly.size(); ++i) {
    const double newly = unit.all.newly[i];
    if (newly == 0) continue;
    by_now += newly;
    if (!unit.with_newly.empty())
      likelihood.add({Quantity::entry, static_cast<int>(i), unit.levels, Parameter::Kind::inner}, Link::logit,
                     newly / by_now);
    unit.with_newly.push_back(static_cast<std::size_t>(i));
  }
}

void add_parameters(Likelihood& likelihood, EntrySetting& setting, const CaptureHistories& histories) {
  EntryLayout& at = setting.at;
  const std::size_t k = at.occasions;
  setting.parts.emplace_back(Parameter{Quantity::survival}, at.choice.survival, histories, setting.units, 0,
                             k - 1, start_per_unit(0.7, at.lengths), likelihood);
  const std::size_t from = at.first_set() ? 1 : 0, end = at.last_set() ? k - 1 : k;
  // A constant chance may still have its ends set; two occasions then leave none free.
  setting.parts.emplace_back(Parameter{Quantity::capture}, at.choice.capture, histories, setting.units, from,
                             std::max(end, from) - from, 0.5, likelihood);
  at.survival = LinearPart(setting.parts[0]);
  at.capture = LinearPart(setting.parts[1]);
  at.passing = likelihood.parameters.size();
  if (at.choice.passing)
    for (const int i : {1, 2}) likelihood.add({Quantity::passing, i}, Link::logit, 0.2);
  for (EntryUnit& unit : at.units) add_entries(likelihood, unit);
}

// Animals caught for the first time may be passing through: then they are not seen again.
template <class T>
T passing_part(const EntryLayout& at, std::size_t u, const std::vector<T>& theta,
               const typename EntryLayout::Flow<T>& flow) {
  using std::log;
  const MArray& first = at.units[u].split.first;
  const VectorXd lost_sight = first.never_again();
  std::vector<T> never(at.occasions, T(1.0));
  for (std::size_t i = at.occasions - 1; i-- > 0;) {
    const T s = at.survival_eta(theta, u, i), p = at.capture_eta(theta, u, i + 1);
    never[i] = logistic(-s) + logistic(s) * logistic(-p) * never[i + 1];
  }
  T sum = T(0.0);
  for (std::size_t i = 0; i + 1 < at.occasions; ++i) {
    const auto row = static_cast<Index>(i);
    if (first.released[row] == 0) continue;
    const T passing = at.passing_share(theta, i) * flow.came_in[i] / flow.uncaught[i];
    const double again = first.next.row(row).sum();
    if (again > 0) sum += again * log(1.0 - passing);
    if (lost_sight[row] > 0) sum += lost_sight[row] * log((passing + (1.0 - passing) * never[i]) / never[i]);
  }
  return sum;
}

template <class T>
T log_likelihood_of(const EntryLayout& at, std::size_t u, const std::vector<T>& theta) {
  using std::exp;
  using std::log;
  const EntryUnit& unit = at.units[u];
  const std::vector<T> first = at.first_captures(theta, u);
  T sum = T(0.0);
  for (const std::size_t i : unit.with_newly) sum += unit.all.newly[static_cast<Index>(i)] * log(first[i]);
  if (!at.conditional) {
    const double seen = unit.seen();
    const T unseen = exp(theta[0]), ever = at.flow(theta, u).ever;
    if (!(value_of(ever) > 1)) return T(kUndefined);  // fewer animals than were caught: out of range
    sum += log_ways(seen, unseen) + unseen * log(1.0 - 1.0 / ever) - seen * log(ever);
  }
  if (at.choice.passing) sum += passing_part(at, u, theta, at.flow(theta, u));
  std::vector<T> s, r;
  for (std::size_t i = 0; i + 1 < at.occasions; ++i) {
    s.push_back(at.survival_eta(theta, u, i));
    r.push_back(at.capture_eta(theta, u, i + 1));
  }
  return sum + release_part(unit.all, s, r);
}

Sentences assumptions_of(const EntryLayout& at) {
  Sentences list = {messages::kCaughtAlikeAsSaid,
                    at.choice.passing ? messages::kPassersOnOneOccasion : messages::kSurvivedLikewise,
                    messages::kLeavingIsDeath};
  if (at.choice.ends_known) list.push_back(messages::kAllCaughtAtEnds);
  return list;
}

void add_capture_estimates(FittedModel& model, const EntrySetting& setting, const CaptureHistories& histories,
                           const EntryQuantities& of, const ModelOptions& options) {
  const EntryLayout& at = setting.at;
  const bool listed = at.choice.capture.plain() && at.choice.capture.occasion;
  const auto not_told = [&](std::size_t i) {
    if (listed && !at.choice.ends_known)
      model.estimates.push_back(of.no_estimate({Quantity::capture, static_cast<int>(i) + 1}));
  };
  if (at.first_set()) not_told(0);
  add_chance_estimates(model, Quantity::capture, at.choice.capture, setting.parts[1], histories,
                       setting.units, at.first_set() ? 1 : 0, options);
  if (at.last_set()) not_told(at.occasions - 1);
}

// What the last survival is worth where the last capture was set.
void withdraw_last_survival(FittedModel& model, const EntryLayout& at, const EntryQuantities& of) {
  for (Estimate& estimate : model.estimates)
    if (at.last_confounded() && estimate.what.quantity == Quantity::survival &&
        !of.why_not_told(estimate.what).empty()) {
      Estimate none = of.no_estimate(estimate.what);
      none.warnings = estimate.warnings;
      estimate = none;
    }
}

void add_group_estimates(FittedModel& model, const EntryLayout& at, const EntryQuantities& of) {
  std::vector<EntryQuantities::Levels> done;
  for (const EntryUnit& unit : at.units)
    for (const auto& level : unit.levels) {
      const EntryQuantities::Levels one = {level};
      if (std::find(done.begin(), done.end(), one) != done.end()) continue;
      done.push_back(one);
      model.estimates.push_back(of.number_ever(one));
      for (std::size_t i = 0; i < at.occasions; ++i) model.estimates.push_back(of.number(i, one));
      for (std::size_t i = 0; i + 1 < at.occasions; ++i) model.estimates.push_back(of.growth_rate(i, one));
      if (at.occasions > 2) model.estimates.push_back(of.mean_growth(one));
    }
}

// The shares of first captures are free in every row, and an occasion without any has its share all the same:
// none. Counted once whatever the groups, so that rows with and without groups compare.
int parameters_of(const Fit& fit, const EntryLayout& at) {
  int entries = 0;
  for (const EntryUnit& unit : at.units) entries += std::max(0, static_cast<int>(unit.with_newly.size()) - 1);
  return fit.rank - entries + static_cast<int>(at.occasions) - 1;
}

// Occasion by occasion for all animals, then what groups differ in.
void add_quantities(FittedModel& model, const EntrySetting& kept, const CaptureHistories& histories,
                    const EntryQuantities& of, const ModelOptions& options) {
  const EntryLayout& at = kept.at;
  const std::size_t k = at.occasions;
  add_chance_estimates(model, Quantity::survival, at.choice.survival, kept.parts[0], histories, kept.units, 0,
                       options);
  withdraw_last_survival(model, at, of);
  add_capture_estimates(model, kept, histories, of, options);
  if (at.choice.passing)
    for (const Index i : {0, 1})
      model.estimates.push_back(natural_estimate(
          model.likelihood, model.fit, static_cast<Index>(at.passing) + i, options.level, options.profile));
  for (std::size_t i = 0; i < k; ++i) model.estimates.push_back(of.entry(i));
  for (std::size_t i = 0; i < k; ++i) model.estimates.push_back(of.number(i, {}));
  for (std::size_t i = 1; i < k; ++i) model.estimates.push_back(of.births(i));
  for (std::size_t i = 0; i + 1 < k; ++i) model.estimates.push_back(of.growth_rate(i, {}));
  if (k > 2) model.estimates.push_back(of.mean_growth({}));
  add_group_estimates(model, at, of);
}

FittedModel fit_entries(EntrySetting setting, const CaptureHistories& histories,
                        const ModelOptions& options) {
  EntryLayout& layout = setting.at;
  const std::size_t k = layout.occasions;
  if (layout.choice.ends_known && k < 3)
    throw InputError(messages::kItemSuperPopulation, messages::kTwoOccasionsOnly,
                     messages::kGiveThreeForEnds);
  FittedModel model;
  model.name = "super-population";
  model.description =
      Message(layout.choice.passing ? messages::kEntryModelPassing : messages::kEntryModel,
              {{"survival", layout.choice.survival.words()}, {"capture", layout.choice.capture.words()}})
          .words();
  Likelihood& likelihood = model.likelihood;
  double seen = 0;
  for (const EntryUnit& unit : layout.units) seen += unit.seen();
  if (!layout.conditional) {
    add_population_size(likelihood, seen, 0.3 * seen);
    likelihood.parameters[0] = {Quantity::number_ever};
  }
  add_parameters(likelihood, setting, histories);
  const auto kept = std::make_shared<const EntrySetting>(setting);
  const EntryLayout& at = kept->at;
  likelihood.minus_log_likelihood = [kept](const VectorXd& x, VectorXd* gradient) {
    return evaluate(
        [&](const auto& theta) {
          auto sum = log_likelihood_of(kept->at, 0, theta);
          for (std::size_t u = 1; u < kept->at.units.size(); ++u)
            sum += log_likelihood_of(kept->at, u, theta);
          return -sum;
        },
        x, gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  model.parameters = parameters_of(model.fit, at);
  model.log_likelihood = model.fit.log_likelihood;
  for (const EntryUnit& unit : at.units) model.sample_size += unit.all.caught.sum();

  const EntryQuantities of(at, model, options);
  Estimate n = of.number_ever({});
  if (!at.conditional && n.undefined.empty()) {
    n = population_estimate(model, 0, seen, options);
    n.what = {Quantity::number_ever};
    n.parameter = n.what.name();
  }
  n.warnings = model.fit.warnings();
  n.source = "Schwarz & Arnason (1996), Biometrics 52:860-873; Crosbie & Manly (1985), Biometrics 41:385-398";
  n.assumptions = assumptions_of(at);
  model.estimates = {n};
  add_quantities(model, *kept, histories, of, options);
  return model;
}

}  // namespace

FittedModel fit_super_population(const MArray& array, const EntryTerms& terms, const ModelOptions& options) {
  CaptureHistories labels;  // carries only the occasions
  for (int j = 0; j < array.occasions(); ++j) labels.occasions.push_back(std::to_string(j + 1));
  EntrySetting setting;
  setting.at.occasions = labels.occasion_count();
  setting.at.choice.survival.occasion = terms.survival_by_occasion;
  setting.at.choice.capture.occasion = terms.capture_by_occasion;
  setting.at.choice.ends_known = terms.ends_known;
  setting.at.conditional = terms.conditional;
  setting.at.lengths = options.interval_lengths;
  setting.at.units = {EntryUnit{array, {}, {}}};
  setting.units = {{}, {0}};
  return fit_entries(std::move(setting), labels, options);
}

FittedModel fit_super_population(const CaptureHistories& histories, const EntryChoice& choice,
                                 const ModelOptions& options) {
  histories.check();
  for (const Terms* terms : {&choice.survival, &choice.capture})
    if (!terms->covariates.empty())
      throw InputError(messages::kItemSuperPopulation,
                       {messages::kLinearInAnimals, {{"covariate", terms->covariates.front()}}},
                       messages::kGroupsOrUseSurvival);
  EntrySetting setting;
  Terms numbers;
  numbers.groups = choice.numbers_by;
  setting.units = make_units(histories, {choice.survival, choice.capture, numbers});
  std::vector<std::string> names = choice.numbers_by;
  for (const Terms* terms : {&choice.survival, &choice.capture})
    for (const std::string& name : terms->groups)
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  setting.at.occasions = histories.occasion_count();
  setting.at.choice = choice;
  setting.at.lengths = options.interval_lengths;
  const std::vector<MArray> arrays = m_arrays(histories, setting.units);
  const std::vector<SplitReleases> split = split_releases(histories, setting.units);
  for (std::size_t u = 0; u < arrays.size(); ++u) {
    EntryUnit unit{arrays[u], split[u], {}};
    for (const std::string& name : names)
      unit.levels.emplace_back(name, histories.groups.at(name)[setting.units.first_animal[u]]);
    setting.at.units.push_back(unit);
  }
  return fit_entries(std::move(setting), histories, options);
}

}  // namespace evet::models
