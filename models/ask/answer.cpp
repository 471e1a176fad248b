#include "models/ask/answer.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "models/choice/information.h"

namespace evet::models {
namespace {

constexpr const char* kNoFiniteEstimate = "it has no finite estimate";

// "survival 3: male" is survival, 3, male; a missing number is 0.
struct Name {
  std::string base, level;
  int number = 0;

  explicit Name(std::string text) {
    if (const std::size_t colon = text.find(": "); colon != std::string::npos) {
      level = text.substr(colon + 2);
      text.resize(colon);
    }
    const std::size_t space = text.rfind(' ');
    if (space != std::string::npos && space + 1 < text.size() &&
        text.find_first_not_of("0123456789", space + 1) == std::string::npos) {
      number = std::stoi(text.substr(space + 1));
      text.resize(space);
    }
    base = text;
  }
  std::string text(int with_number, const std::string& with_level) const {
    return base + (with_number ? " " + std::to_string(with_number) : "") +
           (with_level.empty() ? "" : ": " + with_level);
  }
  bool is_slope() const { return level.starts_with("slope on") || level.starts_with("shift for"); }
};

const std::vector<std::string>& quantities_of(const std::string& family) {
  static const std::vector<std::string> number = {"N"}, survival = {"survival", "recapture"},
                                        ever = {"N ever", "N"}, growth = {"growth rate"},
                                        robust = {"survival", "N"};
  if (family == "survival") return survival;
  if (family == "super-population") return ever;
  if (family == "growth") return growth;
  if (family == "robust") return robust;
  return number;
}

// Names of a quantity at the finest grain that any averaged row of the family has.
std::vector<std::string> names_of(const std::vector<const ModelRow*>& rows, const std::string& quantity) {
  std::set<int> numbers;
  std::vector<std::string> levels;
  bool found = false;
  for (const ModelRow* row : rows)
    for (const Estimate& estimate : row->estimates) {
      const Name name(estimate.parameter);
      if (name.base != quantity || name.is_slope()) continue;
      found = true;
      if (name.number) numbers.insert(name.number);
      if (!name.level.empty() && std::find(levels.begin(), levels.end(), name.level) == levels.end())
        levels.push_back(name.level);
    }
  std::vector<std::string> names;
  if (!found) return names;
  if (numbers.empty()) numbers.insert(0);
  // The total comes before its parts; a probability has no total.
  if (levels.empty() || quantity == "N") levels.insert(levels.begin(), "");
  for (const std::string& level : levels)
    for (const int number : numbers) names.push_back(Name(quantity).text(number, level));
  return names;
}

bool usable(const Estimate* estimate) {
  return estimate && std::isfinite(estimate->value) && std::isfinite(estimate->standard_error);
}

Interval averaged_interval(const std::string& quantity, double value, double se, double floor, double level) {
  if (quantity == "N" || quantity == "N ever") return log_normal_interval(value, se, floor, level);
  const double z = normal_point(level);
  if (quantity == "growth rate") {
    const double half = z * se / std::max(1e-300, value);
    return {value * std::exp(-half), value * std::exp(half), level, "normal on the log scale"};
  }
  const double centre = std::log(value / (1 - value)), half = z * se / (value * (1 - value));
  return {1 / (1 + std::exp(half - centre)), 1 / (1 + std::exp(-half - centre)), level,
          "normal on the logit scale"};
}

// A probability of 0 or 1: its standard error is no guide to an interval.
bool at_end(const std::string& quantity, double value) {
  const bool probability = quantity == "survival" || quantity == "recapture";
  return probability && (value < 5e-5 || value > 1 - 5e-5);
}

// What was counted, below which a number cannot lie: the lowest limit of the rows' intervals.
double floor_of(const Estimate& estimate) {
  const auto counted = estimate.details.find("counted");
  return counted == estimate.details.end() ? 0 : counted->second;
}

std::string why_not_averaged(const FittedRow& fitted, const std::vector<FittedRow*>& family) {
  const ModelRow& row = fitted.row;
  if (!fitted.model->fit.converged) return "the search for the best fit did not settle";
  if (!std::isfinite(row.aicc)) return "the data are too few for so many parameters";
  const double first = row.estimates.front().value;
  if (std::isinf(first)) return kNoFiniteEstimate;
  const bool of_a_number = row.family != "survival" && row.family != "robust" && row.family != "growth";
  if (std::isnan(first) && of_a_number) return "the data cannot tell its number apart from the rest of it";
  for (const FittedRow* other : family)
    if (other != &fitted && other->row.not_averaged.empty() &&
        std::abs(other->row.log_likelihood - row.log_likelihood) < 1e-3 &&
        other->model->fit.theta.size() < fitted.model->fit.theta.size())
      return "it adds nothing to: " + other->row.description;
  return {};
}

// Share of the weight, were all models weighed, of those without a finite estimate.
double unbounded_share(const std::vector<const ModelRow*>& rows) {
  double all = 0, unbounded = 0;
  for (const ModelRow* row : rows) {
    const bool endless = row->not_averaged == kNoFiniteEstimate;
    if (!std::isfinite(row->delta) || !(endless || row->not_averaged.empty())) continue;
    all += std::exp(-row->delta / 2);
    if (endless) unbounded += std::exp(-row->delta / 2);
  }
  return all > 0 ? unbounded / all : 0;
}

Estimate average_of(const std::string& parameter, const std::vector<const ModelRow*>& rows, double level) {
  std::vector<double> values, errors, weights;
  double weight = 0;
  const Estimate* only = nullptr;
  Interval widest{kUndefined, kUndefined, level, "widest of the models'"};
  for (const ModelRow* row : rows) {
    const Estimate* one = find_estimate(*row, parameter);
    if (!usable(one) || !(row->weight > 0)) continue;
    values.push_back(one->value);
    errors.push_back(one->standard_error);
    weights.push_back(row->weight);
    weight += row->weight;
    if (!only || row->weight >= *std::max_element(weights.begin(), weights.end())) only = one;
    if (one->intervals.empty()) continue;
    const Interval& its = one->intervals.front();
    widest.lower = std::fmin(widest.lower, its.lower);
    widest.upper = std::fmax(widest.upper, its.upper);
  }
  Estimate mean;
  mean.parameter = parameter;
  const std::string quantity = Name(parameter).base;
  if (!only) {
    const Estimate* first = rows.empty() ? nullptr : find_estimate(*rows.front(), parameter);
    if (first) {
      mean = *first;
      mean.parameter = parameter;
    }
    if (mean.undefined.empty()) mean.undefined = "no model of the table gives it a finite estimate";
    return mean;
  }
  for (double& w : weights) w /= weight;
  const Averaged average_value = average(values, errors, weights);
  mean.value = average_value.value;
  mean.standard_error = average_value.se_sum_of_roots;
  mean.intervals = {averaged_interval(quantity, mean.value, mean.standard_error, floor_of(*only), level)};
  if (values.size() == 1)
    mean.intervals = only->intervals;
  else if (at_end(quantity, mean.value))
    mean.intervals = {widest};
  mean.source =
      "Burnham & Anderson (2002), Model Selection and Multimodel Inference, 2nd ed., sections 4.2-4.3";
  double low = kInfinity, high = -kInfinity;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (weights[i] < 0.05) continue;
    low = std::min(low, values[i]);
    high = std::max(high, values[i]);
  }
  mean.details = {{"best", only->value},
                  {"models", static_cast<double>(values.size())},
                  {"lowest", low},
                  {"highest", high},
                  {"counted", floor_of(*only)}};
  if (weight < 0.95)
    mean.warnings.push_back(
        "Models with " + std::to_string(static_cast<int>(std::lround(100 * (1 - weight)))) +
        " % of the weight give no finite estimate of " + parameter + " and are left out of it.");
  return mean;
}

// When the models that set no upper limit fit best, the averaged answer has none either.
void open_upwards(std::vector<Estimate>& answer, const std::string& quantity,
                  const std::vector<const ModelRow*>& rows) {
  const double share = unbounded_share(rows);
  if (share < 0.05) return;
  for (Estimate& estimate : answer) {
    if (estimate.parameter != quantity || !std::isfinite(estimate.value)) continue;
    estimate.warnings.push_back(
        "Models without a finite estimate would hold " + std::to_string(std::lround(100 * share)) +
        " % of the weight: " +
        (share > 0.5 ? "the data set no upper limit." : "do not trust the upper limit."));
    if (share <= 0.5) continue;
    estimate.details["average_of_finite"] = estimate.value;
    estimate.value = kInfinity;
    estimate.standard_error = kUndefined;
    estimate.undefined = "the models that fit best have no finite estimate";
    estimate.intervals.front().upper = kInfinity;
    for (const ModelRow* row : rows)
      if (row->not_averaged == kNoFiniteEstimate)
        estimate.intervals.front().lower =
            std::min(estimate.intervals.front().lower, row->estimates.front().intervals.front().lower);
  }
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

const Estimate* find_estimate(const ModelRow& row, const std::string& parameter) {
  const Name name(parameter);
  for (const std::string& wanted :
       {parameter, name.text(0, name.level), name.text(name.number, ""), name.text(0, "")}) {
    // A group's number is no part of what another model says of the total.
    if (name.base.starts_with("N") && wanted != parameter) continue;
    for (const Estimate& estimate : row.estimates)
      if (estimate.parameter == wanted) return &estimate;
  }
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

std::vector<Estimate> averaged_answer(const std::vector<FittedRow>& rows, double level) {
  std::vector<std::string> families, done;
  for (const FittedRow& fitted : rows)
    if (fitted.row.has_likelihood &&
        std::find(families.begin(), families.end(), fitted.row.family) == families.end())
      families.push_back(fitted.row.family);
  std::vector<Estimate> answer;
  for (const std::string& family : families) {
    std::vector<const ModelRow*> members;
    for (const FittedRow& fitted : rows)
      if (fitted.row.has_likelihood && fitted.row.family == family) members.push_back(&fitted.row);
    for (const std::string& quantity : quantities_of(family)) {
      if (std::find(done.begin(), done.end(), quantity) != done.end()) continue;
      done.push_back(quantity);
      std::vector<const ModelRow*> weighty;
      for (const ModelRow* row : members)
        if (row->weight > 0) weighty.push_back(row);
      for (const std::string& parameter :
           names_of(weighty.empty() ? std::vector<const ModelRow*>{members.front()} : weighty, quantity))
        answer.push_back(average_of(parameter, weighty.empty() ? members : weighty, level));
      if (quantity == "N" || quantity == "N ever") open_upwards(answer, quantity, members);
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
