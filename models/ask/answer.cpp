#include "models/ask/answer.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <set>

#include "models/ask/messages.h"
#include "models/ask/registry.h"
#include "models/base/figure_text.h"
#include "models/base/messages.h"
#include "models/base/parameter_words.h"
#include "models/choice/averaged_limits.h"
#include "models/choice/effective_error.h"
#include "models/choice/information.h"
#include "models/fit/messages.h"

namespace evet::models {
namespace {

constexpr double kWorthNaming = 0.05;  // weight of a model whose value counts among the lowest and highest
constexpr double kEnoughToTell = 0.5;  // of the weight, for a figure that not every model can tell

// What an averaged answer gives of a family.
const std::vector<Quantity>& quantities_of(const std::string& family) {
  static const std::vector<Quantity> number = {Quantity::number};
  for (const ModelEntry& entry : registry())
    if (entry.family == family) return entry.quantities;
  return number;
}

// Only with itself may a chance be averaged: one of an interval alone with one of that interval alone. A row that
// takes all intervals for alike says nothing of one of them, and in the average it would take their differences away
// with limits far too narrow for any.
bool speaks_of(const Estimate& estimate, const Parameter& what) {
  return answers(estimate.what, what) && (has_total(what.quantity) || estimate.what.index == what.index);
}

const Estimate* figure_for(const ModelRow& row, const Parameter& what) {
  for (const Estimate& estimate : row.estimates)
    if (speaks_of(estimate, what)) return &estimate;
  return nullptr;
}

using Levels = std::vector<std::pair<std::string, std::string>>;

// What the averaged rows of a family tell of one quantity.
struct Available {
  std::set<std::optional<int>> indices;
  std::vector<Levels> levels;  // in the order in which they come
  std::set<std::pair<Levels, std::optional<int>>> both;
  double all = 0, alike = 0,
         without_groups = 0;  // weight: of all rows; of those alike on all occasions; ungrouped

  bool tells(const Levels& level, std::optional<int> index) const { return both.contains({level, index}); }
};

Available available_in(const std::vector<const ModelRow*>& rows, Quantity quantity) {
  Available given;
  for (const ModelRow* row : rows) {
    given.all += row->weight;
    bool is_alike = false, is_ungrouped = false;
    for (const Estimate& estimate : row->estimates) {
      const Parameter& what = estimate.what;
      if (what.quantity != quantity || what.kind != Parameter::Kind::value) continue;
      given.both.emplace(what.groups, what.index);
      is_alike = is_alike || !what.index;
      is_ungrouped = is_ungrouped || (!what.index && what.groups.empty());
      if (what.index) given.indices.insert(what.index);
      if (!what.groups.empty() &&
          std::find(given.levels.begin(), given.levels.end(), what.groups) == given.levels.end())
        given.levels.push_back(what.groups);
    }
    if (is_alike) given.alike += row->weight;
    if (is_ungrouped) given.without_groups += row->weight;
  }
  return given;
}

// A chance is given of a group, and of an interval, only where a row tells that group from others in that interval;
// of all animals together where none does, and beside the groups where most of the weight takes them for alike.
bool gives_chance(const Available& given, const Levels& level, std::optional<int> index) {
  if (!level.empty() || given.levels.empty()) return given.levels.empty() || given.tells(level, index);
  const bool of_a_group = std::any_of(given.levels.begin(), given.levels.end(),
                                      [&](const Levels& one) { return given.tells(one, index); });
  return given.tells({}, index) &&
         (!of_a_group || (!index && given.without_groups > kEnoughToTell * given.all));
}

// A quantity as the averaged rows of the family give it: a chance that is alike in all intervals before those of
// single intervals, which are other figures.
std::vector<Parameter> parameters_of(const std::vector<const ModelRow*>& rows, Quantity quantity) {
  Available given = available_in(rows, quantity);
  std::vector<Parameter> parameters;
  if (given.both.empty()) return parameters;
  if (given.indices.empty() || (!has_total(quantity) && given.alike > kEnoughToTell * given.all))
    given.indices.insert(std::nullopt);
  std::vector<Levels> levels = given.levels;
  levels.insert(levels.begin(), Levels{});                  // all together before the groups
  if (quantity == Quantity::growth_rate) levels.resize(1);  // by interval and group it would fill pages
  for (const Levels& level : levels)
    for (const auto& index : given.indices)
      if (has_total(quantity) || gives_chance(given, level, index))
        parameters.push_back({quantity, index, level});
  return parameters;
}

bool usable(const Estimate* estimate) {
  return estimate && std::isfinite(estimate->value) && estimate->undefined.empty() &&
         !estimate->intervals.empty();
}

Range range_of(Quantity quantity) {
  if (is_count(quantity)) return Range::above;
  return has_total(quantity) ? Range::positive : Range::from_0_to_1;
}

// A profile without an end says that the model alone sets no limit; in an average it would make all others'
// limits worthless, so there the row comes in with another interval of its own that has an end.
const Interval& bounded_interval(const Estimate& estimate) {
  for (const Interval& interval : estimate.intervals)
    if (std::isfinite(interval.upper)) return interval;
  return estimate.intervals.front();
}

// What was counted, below which a number cannot lie: the lowest limit of the rows' intervals.
double floor_of(const Estimate& estimate) {
  const auto counted = estimate.details.find("counted");
  return counted == estimate.details.end() ? 0 : counted->second;
}

bool tells_nothing(const ModelRow& row) {
  const std::vector<Quantity>& wanted = quantities_of(row.family);
  return std::none_of(row.estimates.begin(), row.estimates.end(), [&](const Estimate& estimate) {
    return std::isfinite(estimate.value) &&
           std::find(wanted.begin(), wanted.end(), estimate.what.quantity) != wanted.end();
  });
}

Remark why_not_averaged(const FittedRow& fitted, const std::vector<FittedRow*>& family) {
  const ModelRow& row = fitted.row;
  if (!fitted.model->fit.converged) return messages::kSearchNotSettled;
  if (!std::isfinite(row.aicc)) return messages::kTooFewData;
  const double first = row.estimates.front().value;
  if (std::isinf(first)) return messages::kNoFiniteEstimate;
  const bool of_a_number = row.family != "survival" && row.family != "robust" && row.family != "growth" &&
                           row.family != "movement";
  if (of_a_number && tells_nothing(row)) return messages::kNumberNotTold;
  for (const FittedRow* other : family)
    if (other != &fitted && other->row.not_averaged.empty() &&
        std::abs(other->row.log_likelihood - row.log_likelihood) < 1e-3 &&
        other->model->fit.theta.size() < fitted.model->fit.theta.size())
      return Message(messages::kAddsNothingTo, {{"model", other->row.description}});
  return {};
}

std::string whole_percent(double share) {
  return std::to_string(std::lround(100 * share));
}

bool holds_estimate_of(const std::vector<Estimate>& answer, const Parameter& what) {
  return std::any_of(answer.begin(), answer.end(), [&](const Estimate& one) { return one.what == what; });
}

// Share of the weight, were all models weighed, of those without a finite estimate.
double unbounded_share(const std::vector<const ModelRow*>& rows) {
  double all = 0, unbounded = 0;
  for (const ModelRow* row : rows) {
    const bool endless = row->not_averaged.code() == messages::kNoFiniteEstimate.code;
    if (!std::isfinite(row->delta) || !(endless || row->not_averaged.empty())) continue;
    all += std::exp(-row->delta / 2);
    if (endless) unbounded += std::exp(-row->delta / 2);
  }
  return all > 0 ? unbounded / all : 0;
}

// Do animals that only pass through have parameters of their own in it?
bool allows_passing(const ModelRow& row) {
  return std::any_of(row.estimates.begin(), row.estimates.end(), [](const Estimate& estimate) {
    return estimate.what.quantity == Quantity::passing ||
           (estimate.what.quantity == Quantity::survival && estimate.what.kind == Parameter::Kind::inner);
  });
}

// Models in which some pass through hold most of the weight of a family.
bool some_pass_through(const std::vector<FittedRow>& rows) {
  std::map<std::string, double> weight;
  for (const FittedRow& fitted : rows)
    if (fitted.row.has_likelihood && allows_passing(fitted.row))
      weight[fitted.row.family] += fitted.row.weight;
  return std::any_of(weight.begin(), weight.end(),
                     [](const auto& family) { return family.second > kEnoughToTell; });
}

// Why the average has no figure where no row says why it has none itself.
Remark why_not_given(const Parameter& what, const std::vector<const ModelRow*>& rows) {
  bool given = false;
  for (const ModelRow* row : rows) {
    if (!usable(figure_for(*row, what))) continue;
    if (!row->not_averaged.empty())
      return Message(messages::kOnlyLeftOutGiveIt, {{"why", row->not_averaged.words()}});
    given = true;
  }
  return given ? messages::kMostHaveNone : messages::kNoModelGivesIt;
}

// No model of enough weight can tell it: its own reason where there is one.
Estimate not_given(const Parameter& what, const std::vector<const ModelRow*>& rows, double usable_share,
                   double level) {
  Estimate estimate = estimate_of(what);
  const Estimate* best = nullptr;
  double weight = -1;
  for (const ModelRow* row : rows) {
    const Estimate* one = figure_for(*row, what);
    if (!one || usable(one) || row->weight <= weight) continue;
    best = one;
    weight = row->weight;
  }
  if (best) {
    estimate.details = best->details;
    estimate.intervals = best->intervals;
    estimate.undefined = best->undefined;
    if (!(usable_share > 0)) estimate.value = best->value;
  }
  if (estimate.undefined.empty()) estimate.undefined = why_not_given(what, rows);
  if (estimate.intervals.empty())
    estimate.intervals = {
        {0, has_total(what.quantity) ? kInfinity : 1, level, messages::kIntervalNoInformation}};
  if (usable_share > 0)
    estimate.undefined = Message(messages::kToldByFew, {{"why", estimate.undefined.words()},
                                                        {"percent", whole_percent(usable_share)}});
  return estimate;
}

Estimate average_of(const Parameter& what, const std::vector<const ModelRow*>& rows, double level) {
  std::vector<double> values, errors, weights;
  std::vector<WeighedLimits> limits;
  double weight = 0, all = 0;
  const Estimate* only = nullptr;
  for (const ModelRow* row : rows) {
    const Estimate* one = figure_for(*row, what);
    if (one || has_total(what.quantity)) all += row->weight;
    if (!usable(one) || !(row->weight > 0)) continue;
    values.push_back(one->value);
    errors.push_back(effective_error(*one));
    weights.push_back(row->weight);
    weight += row->weight;
    if (!only || row->weight >= *std::max_element(weights.begin(), weights.end())) only = one;
    const Interval& its = bounded_interval(*one);
    limits.push_back({row->weight, one->value, its.lower, its.upper});
  }
  if (!only || weight < kEnoughToTell * all) return not_given(what, rows, only ? weight / all : 0, level);
  Estimate mean = estimate_of(what);
  for (double& w : weights) w /= weight;
  for (WeighedLimits& one : limits) one.weight /= weight;
  const Averaged average_value = average(values, errors, weights);
  mean.value = average_value.value;
  mean.standard_error = average_value.se_sum_of_roots;
  mean.intervals = {averaged_limits(limits, range_of(what.quantity), floor_of(*only), level)};
  mean.intervals.front().lower = std::min(mean.intervals.front().lower, mean.value);
  mean.intervals.front().upper = std::max(mean.intervals.front().upper, mean.value);
  if (values.size() == 1) {
    mean.intervals = only->intervals;
    mean.standard_error = only->standard_error;
  }
  mean.source =
      "Burnham & Anderson (2002), Model Selection and Multimodel Inference, 2nd ed., sections 4.2-4.3";
  double low = kInfinity, high = -kInfinity;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (weights[i] < kWorthNaming) continue;
    low = std::min(low, values[i]);
    high = std::max(high, values[i]);
  }
  mean.details = {{"best", only->value},
                  {"models", static_cast<double>(values.size())},
                  {"lowest", low},
                  {"highest", high},
                  {"counted", floor_of(*only)}};
  mean.at = only->at;
  if (weight < 0.95 * all)
    mean.warnings.push_back(
        {messages::kLeftOutOfAverage,
         {{"percent", whole_percent(1 - weight / all)}, {"parameter", parameter_words(mean.what)}}});
  return mean;
}

// When the models that set no upper limit fit best, the averaged answer has none either.
void open_upwards(std::vector<Estimate>& answer, Quantity quantity,
                  const std::vector<const ModelRow*>& rows) {
  const double share = unbounded_share(rows);
  if (share < 0.05) return;
  for (Estimate& estimate : answer) {
    if (estimate.what != Parameter{quantity} || !std::isfinite(estimate.value)) continue;
    estimate.warnings.push_back({share > 0.5 ? messages::kNoUpperLimit : messages::kMistrustUpperLimit,
                                 {{"percent", whole_percent(share)}}});
    if (share <= 0.5) continue;
    estimate.details["average_of_finite"] = estimate.value;
    estimate.value = kInfinity;
    estimate.standard_error = kUndefined;
    estimate.undefined = messages::kBestHaveNone;
    estimate.intervals.front().upper = kInfinity;
    for (const ModelRow* row : rows)
      if (row->not_averaged.code() == messages::kNoFiniteEstimate.code)
        estimate.intervals.front().lower =
            std::min(estimate.intervals.front().lower, row->estimates.front().intervals.front().lower);
  }
}

bool has(const ModelRow& row, const std::function<bool(const Parameter&)>& wanted) {
  return std::any_of(row.estimates.begin(), row.estimates.end(),
                     [&](const Estimate& estimate) { return wanted(estimate.what); });
}

bool allows_staying_away(const ModelRow& row) {
  return has(row, [](const Parameter& what) { return what.quantity == Quantity::staying_away; });
}

bool has_survival_by_interval(const ModelRow& row) {
  return has(row, [](const Parameter& what) { return what.quantity == Quantity::survival && what.index; });
}

// With a value of its own it rests on animals caught for the first time alone, of which those that passed through
// cannot be told from those that died; in later intervals animals caught before tell.
bool is_first_survival(const Parameter& what) {
  return what.quantity == Quantity::survival && what.index == 1;
}

// One chance of moving for all pairs of places.
bool takes_moves_for_alike(const ModelRow& row) {
  return has(row, [](const Parameter& what) {
    return what.quantity == Quantity::moving && what.kind == Parameter::Kind::inner;
  });
}

// Can the row tell what is asked better than the others?
bool allows_for(const ModelRow& row, const Parameter& what) {
  if (what.quantity == Quantity::moving) return !takes_moves_for_alike(row);
  if (is_first_survival(what) && allows_passing(row) && figure_for(row, what)) return true;
  return (what.quantity == Quantity::survival && allows_staying_away(row)) ||
         (what.quantity == Quantity::growth_rate && has_survival_by_interval(row));
}

// Of a chance in one group: those in which it may differ from that in the others.
std::vector<const ModelRow*> rows_telling_groups(const Parameter& what,
                                                 const std::vector<const ModelRow*>& rows) {
  if (what.groups.empty() || has_total(what.quantity)) return rows;
  std::vector<const ModelRow*> telling;
  for (const ModelRow* row : rows)
    if (const Estimate* one = figure_for(*row, what); one && one->what.groups == what.groups)
      telling.push_back(row);
  return telling.empty() ? rows : telling;
}

// Rows that a figure rests on where any of them is there. Animals that stay away as they did before look dead to a
// model in which they do not, animals that pass through to one in which none does, and the data seldom tell the two
// apart: survival rests on the rows that allow for it. Growth over one interval is made of survival and entry: it
// rests on rows in which both may differ between intervals. Moving from one place to another is a figure of that
// direction: rows with one chance for all directions say nothing of it, and would draw each towards the other. So are
// the chances of single groups.
std::vector<const ModelRow*> rows_for(const Parameter& what, const std::vector<const ModelRow*>& rows) {
  const std::vector<const ModelRow*> telling = rows_telling_groups(what, rows);
  std::vector<const ModelRow*> allowing;
  for (const ModelRow* row : telling)
    if (allows_for(*row, what)) allowing.push_back(row);
  return allowing.empty() ? telling : allowing;
}

// Most of what the rows say of the first survival takes all for animals that stayed.
bool hardly_allows_passing(const Parameter& what, const std::vector<const ModelRow*>& rows) {
  double all = 0, allowing = 0;
  for (const ModelRow* row : rows) {
    if (!usable(figure_for(*row, what))) continue;
    all += row->weight;
    if (allows_passing(*row)) allowing += row->weight;
  }
  return allowing < kEnoughToTell * all;
}

Estimate not_told_from_passing(const Parameter& what, double level) {
  Estimate none = estimate_of(what);
  none.intervals = {{0, 1, level, messages::kIntervalNoInformation}};
  none.undefined = messages::kNotToldFromPassing;
  return none;
}

}  // namespace

void weigh_rows(std::vector<FittedRow>& rows, double overdispersion, bool is_estimated) {
  std::set<std::string> families;
  for (FittedRow& fitted : rows) {
    ModelRow& row = fitted.row;
    if (!row.has_likelihood) continue;
    families.insert(row.family);
    row.aicc = qaicc(row.log_likelihood, row.parameters, row.sample_size, overdispersion,
                     is_estimated && overdispersion > 1);
  }
  for (const std::string& family : families) {
    std::vector<FittedRow*> members;
    for (FittedRow& fitted : rows)
      if (fitted.row.has_likelihood && fitted.row.family == family) members.push_back(&fitted);
    double least = kInfinity;
    for (FittedRow* member : members) {
      if (std::isfinite(member->row.aicc)) least = std::min(least, member->row.aicc);
      member->row.not_averaged = why_not_averaged(*member, members);
    }
    std::vector<double> criterion;
    for (FittedRow* member : members) {
      member->row.delta = member->row.aicc - least;
      criterion.push_back(member->row.not_averaged.empty() ? member->row.aicc : kInfinity);
    }
    const std::vector<double> weights = akaike_weights(criterion);
    for (std::size_t i = 0; i < members.size(); ++i) members[i]->row.weight = weights[i];
  }
}

const Estimate* find_estimate(const ModelRow& row, const Parameter& what) {
  for (const Estimate& estimate : row.estimates)
    if (answers(estimate.what, what)) return &estimate;
  return nullptr;
}

const FittedRow* best_row(const std::vector<FittedRow>& rows, const std::string& family) {
  const FittedRow* best = nullptr;
  for (const FittedRow& fitted : rows)
    if (fitted.row.has_likelihood && fitted.row.family == family && fitted.row.weight > 0 &&
        (!best || fitted.row.weight > best->row.weight))
      best = &fitted;
  return best;
}

const FittedRow* best_row(const std::vector<FittedRow>& rows) {
  for (const FittedRow& fitted : rows)
    if (fitted.row.has_likelihood)
      if (const FittedRow* best = best_row(rows, fitted.row.family)) return best;
  return nullptr;
}

std::vector<const ModelRow*> rows_behind(const Parameter& what, const std::vector<const ModelRow*>& family) {
  std::vector<const ModelRow*> rows;
  for (const ModelRow* row : rows_for(what, family))
    if (figure_for(*row, what)) rows.push_back(row);
  return rows;
}

std::vector<Estimate> averaged_answer(const std::vector<FittedRow>& rows, double level) {
  std::vector<std::string> families;
  std::vector<Quantity> done;
  for (const FittedRow& fitted : rows)
    if (fitted.row.has_likelihood &&
        std::find(families.begin(), families.end(), fitted.row.family) == families.end())
      families.push_back(fitted.row.family);
  std::vector<Estimate> answer;
  const bool some_pass = some_pass_through(rows);
  for (const std::string& family : families) {
    std::vector<const ModelRow*> members;
    for (const FittedRow& fitted : rows)
      if (fitted.row.has_likelihood && fitted.row.family == family) members.push_back(&fitted.row);
    for (const Quantity quantity : quantities_of(family)) {
      // An earlier family's figure stands; this one adds parts of it that the other cannot tell.
      const bool parts_alone = std::find(done.begin(), done.end(), quantity) != done.end();
      done.push_back(quantity);
      std::vector<const ModelRow*> weighty;
      for (const ModelRow* row : members)
        if (row->weight > 0) weighty.push_back(row);
      for (const Parameter& what : parameters_of(
               weighty.empty() ? std::vector<const ModelRow*>{members.front()} : weighty, quantity)) {
        if (parts_alone && (what.groups.empty() || holds_estimate_of(answer, what))) continue;
        const std::vector<const ModelRow*>& speaking = weighty.empty() ? members : weighty;
        answer.push_back(some_pass && is_first_survival(what) && hardly_allows_passing(what, speaking)
                             ? not_told_from_passing(what, level)
                             : average_of(what, rows_for(what, speaking), level));
      }
      if (is_count(quantity) && !parts_alone) open_upwards(answer, quantity, members);
    }
  }
  if (answer.empty() && !rows.empty()) {
    const ModelRow& first = rows.front().row;
    answer = first.name == "jolly-seber" || first.name == "closed-by-period"
                 ? first.estimates
                 : std::vector<Estimate>{first.estimates.front()};
  }
  return answer;
}

}  // namespace evet::models
