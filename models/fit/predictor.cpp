#include "models/fit/predictor.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/fit/logit_shift.h"
#include "models/fit/messages.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

Message known(const auto& map) {
  std::vector<std::string> names;
  names.reserve(map.size());
  for (const auto& [name, values] : map) names.push_back(name);
  if (names.empty()) return messages::kHistoriesHaveNone;
  return {messages::kHistoriesHave, {{"names", listed(names)}}};
}

// Mean 0 and standard deviation 1, so that slopes of any unit are searched alike.
std::pair<double, double> centre_and_spread(const VectorXd& x) {
  const double mean = x.mean();
  const double sd = std::sqrt((x.array() - mean).square().mean());
  return {mean, sd > 1e-12 * (1 + std::abs(mean)) ? sd : 1};
}

}  // namespace

std::string Terms::words(const MessageText& time) const {
  std::vector<std::string> by, linear;
  if (occasion || group_by_occasion) by.push_back(Message(time).words());
  by.insert(by.end(), groups.begin(), groups.end());
  linear.insert(linear.end(), occasion_covariates.begin(), occasion_covariates.end());
  linear.insert(linear.end(), covariates.begin(), covariates.end());
  std::vector<std::string> parts;
  if (!by.empty()) {
    const MessageText& last = group_by_occasion ? messages::kEachCombination : messages::kAnd;
    parts.push_back(Message(messages::kByList, {{"by", listed(by, last)}}).words());
  }
  if (!linear.empty())
    parts.push_back(Message(messages::kLinearInList, {{"linear", listed(linear)}}).words());
  if (response) parts.push_back(Message(messages::kShiftedAfterCapture).words());
  return parts.empty() ? Message(messages::kConstant).words() : listed(parts, messages::kPartsOfTerms);
}

std::string Terms::words() const {
  return words(messages::kOccasionWord);
}

void check_terms(const Terms& terms, const CaptureHistories& histories) {
  for (const std::string& name : terms.groups)
    if (!histories.groups.contains(name))
      throw InputError(Message(messages::kItemGroupNamed, {{"name", name}}), messages::kNotInHistories,
                       known(histories.groups));
  for (const std::string& name : terms.occasion_covariates) {
    if (!histories.occasion_covariates.contains(name))
      throw InputError(Message(messages::kItemOccasionCovariateNamed, {{"name", name}}),
                       messages::kNotInHistories, known(histories.occasion_covariates));
    for (const double value : histories.occasion_covariates.at(name))
      if (!std::isfinite(value))
        throw InputError(Message(messages::kItemOccasionCovariateNamed, {{"name", name}}),
                         messages::kValueMissing, messages::kGiveForEveryOccasion);
  }
  for (const std::string& name : terms.covariates) {
    if (!histories.covariates.contains(name))
      throw InputError(Message(messages::kItemCovariateNamed, {{"name", name}}), messages::kNotInHistories,
                       known(histories.covariates));
    for (std::size_t i = 0; i < histories.animal_count(); ++i)
      if (!std::isfinite(histories.covariates.at(name)[i]))
        throw InputError(Message(messages::kItemAnimalNamed, {{"name", histories.animals[i]}}),
                         {messages::kAnimalLacks, {{"name", name}}},
                         {messages::kFillInOrLeaveOut, {{"name", name}}});
  }
  if (terms.group_by_occasion && terms.groups.empty())
    throw InputError(messages::kItemGroupByOccasion, messages::kNoGroupNamed, messages::kNameAGroup);
}

Units make_units(const CaptureHistories& histories, const std::vector<Terms>& terms) {
  std::set<std::string> groups, covariates;
  for (const Terms& t : terms) {
    check_terms(t, histories);
    groups.insert(t.groups.begin(), t.groups.end());
    covariates.insert(t.covariates.begin(), t.covariates.end());
  }
  Units units;
  std::map<std::pair<std::vector<std::string>, std::vector<double>>, std::size_t> index;
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    std::pair<std::vector<std::string>, std::vector<double>> key;
    for (const std::string& name : groups) key.first.push_back(histories.groups.at(name)[i]);
    for (const std::string& name : covariates) key.second.push_back(histories.covariates.at(name)[i]);
    const auto [at, is_new] = index.try_emplace(key, units.first_animal.size());
    if (is_new) units.first_animal.push_back(i);
    units.unit_of_animal.push_back(at->second);
  }
  return units;
}

namespace {

// Adds a predictor's coordinates to the likelihood, in this order: those by column, those by unit, then cells of
// groups by occasion; and gathers what each of them is multiplied by.
struct Coordinates {
  const Parameter& what;
  const Terms& terms;
  const CaptureHistories& histories;
  const Units& units;
  std::size_t from, columns;
  double start;
  Likelihood& likelihood;
  std::vector<double> scale{};
  std::vector<VectorXd> of_columns{}, of_units{};

  void add_chance(const Parameter& parameter) {
    likelihood.add(parameter, Link::logit, start);
    scale.push_back(1);
  }
  void add_shift(const Parameter& parameter, double its_scale) {
    add_logit_shift(likelihood, parameter);
    scale.push_back(its_scale);
  }

  Parameter by_occasion(std::size_t j) const {
    Parameter one = what;
    one.index = static_cast<int>(from + j) + 1;
    return one;
  }

  Parameter further(Parameter::Kind kind, const std::string& about) const {
    Parameter one = what;
    one.kind = kind;
    one.about = about;
    return one;
  }

  void by_column() {
    const auto k = static_cast<Index>(columns);
    if (terms.occasion && !terms.group_by_occasion) {
      for (std::size_t j = 0; j < columns; ++j) {
        of_columns.push_back(VectorXd::Unit(k, static_cast<Index>(j)));
        add_chance(by_occasion(j));
      }
    } else if (!terms.group_by_occasion) {
      of_columns.push_back(VectorXd::Ones(k));
      add_chance(what);
    }
    for (const std::string& name : terms.occasion_covariates) {
      const std::vector<double>& values = histories.occasion_covariates.at(name);
      VectorXd x(k);
      for (Index j = 0; j < k; ++j) x[j] = values[from + static_cast<std::size_t>(j)];
      const auto [mean, sd] = centre_and_spread(x);
      of_columns.push_back((x.array() - mean) / sd);
      add_shift(further(Parameter::Kind::slope, name), sd);
    }
  }

  // A shift for each level but the first.
  void by_group() {
    if (terms.group_by_occasion) return;
    for (const std::string& name : terms.groups) {
      const std::vector<std::string>& level_of = histories.groups.at(name);
      const std::set<std::string> levels(level_of.begin(), level_of.end());
      for (const std::string& level : levels) {
        if (level == *levels.begin()) continue;
        VectorXd x(static_cast<Index>(units.first_animal.size()));
        for (Index u = 0; u < x.size(); ++u)
          x[u] = level_of[units.first_animal[static_cast<std::size_t>(u)]] == level ? 1 : 0;
        of_units.push_back(x);
        add_shift(further(Parameter::Kind::shift, name + " " + level), 1);
      }
    }
  }

  std::vector<std::pair<std::string, double>> by_covariate() {
    std::vector<std::pair<std::string, double>> means;
    for (const std::string& name : terms.covariates) {
      const std::vector<double>& values = histories.covariates.at(name);
      const auto [mean, sd] =
          centre_and_spread(Eigen::Map<const VectorXd>(values.data(), static_cast<Index>(values.size())));
      VectorXd x(static_cast<Index>(units.first_animal.size()));
      for (Index u = 0; u < x.size(); ++u)
        x[u] = (values[units.first_animal[static_cast<std::size_t>(u)]] - mean) / sd;
      of_units.push_back(x);
      means.emplace_back(name, mean);
      add_shift(further(Parameter::Kind::slope, name), sd);
    }
    return means;
  }

  // A chance for each combination of levels and each column; which combination a unit is of.
  std::pair<Index, std::vector<std::size_t>> by_cell() {
    if (!terms.group_by_occasion) return {0, {}};
    std::vector<std::vector<std::string>> key_of_unit;
    for (const std::size_t animal : units.first_animal) {
      key_of_unit.emplace_back();
      for (const std::string& name : terms.groups)
        key_of_unit.back().push_back(histories.groups.at(name)[animal]);
    }
    std::map<std::vector<std::string>, std::size_t> combinations;
    for (const auto& key : key_of_unit) combinations.try_emplace(key, 0);
    std::size_t number = 0;
    for (auto& [key, index] : combinations) {
      index = number++;
      for (std::size_t j = 0; j < columns; ++j) {
        Parameter one = by_occasion(j);
        for (std::size_t g = 0; g < key.size(); ++g) one.groups.emplace_back(terms.groups[g], key[g]);
        add_chance(one);
      }
    }
    std::vector<std::size_t> cells;
    for (const auto& key : key_of_unit) cells.push_back(combinations.at(key));
    return {static_cast<Index>(number), cells};
  }
};

MatrixXd beside_each_other(const std::vector<VectorXd>& columns, Index rows) {
  MatrixXd all(rows, static_cast<Index>(columns.size()));
  for (std::size_t c = 0; c < columns.size(); ++c) all.col(static_cast<Index>(c)) = columns[c];
  return all;
}

}  // namespace

Predictor::Predictor(const Parameter& what, const Terms& terms, const CaptureHistories& histories,
                     const Units& units, std::size_t from, std::size_t columns, double start,
                     Likelihood& likelihood)
    : first_(likelihood.start.size()), columns_(static_cast<Index>(columns)) {
  Coordinates coordinates{what, terms, histories, units, from, columns, start, likelihood};
  coordinates.by_column();
  coordinates.by_group();
  group_columns_ = static_cast<Index>(coordinates.of_units.size());
  means_ = coordinates.by_covariate();
  by_column_ = beside_each_other(coordinates.of_columns, columns_);
  by_unit_ = beside_each_other(coordinates.of_units, static_cast<Index>(units.first_animal.size()));
  std::tie(cells_, cell_of_unit_) = coordinates.by_cell();
  scale_ = coordinates.scale;
  size_ = likelihood.start.size() - first_;
}

MatrixXd Predictor::eta_at_means(const VectorXd& theta) const {
  VectorXd without = theta;
  without.segment(first_ + by_column_.cols() + group_columns_, by_unit_.cols() - group_columns_).setZero();
  return eta(without);
}

MatrixXd Predictor::eta(const VectorXd& theta) const {
  MatrixXd eta(by_unit_.rows(), columns_);
  const VectorXd by_column = by_column_ * theta.segment(first_, by_column_.cols());
  const VectorXd by_unit = by_unit_ * theta.segment(first_ + by_column_.cols(), by_unit_.cols());
  for (Index j = 0; j < columns_; ++j) eta.col(j) = by_unit.array() + by_column[j];
  if (cells_ > 0) {
    const Index base = first_ + by_column_.cols() + by_unit_.cols();
    for (Index u = 0; u < eta.rows(); ++u)
      eta.row(u) +=
          theta
              .segment(base + static_cast<Index>(cell_of_unit_[static_cast<std::size_t>(u)]) * columns_,
                       columns_)
              .transpose();
  }
  return eta;
}

void Predictor::chain(const MatrixXd& slope, VectorXd& gradient) const {
  gradient.segment(first_, by_column_.cols()) += by_column_.transpose() * slope.colwise().sum().transpose();
  if (by_unit_.cols() > 0)
    gradient.segment(first_ + by_column_.cols(), by_unit_.cols()) +=
        by_unit_.transpose() * slope.rowwise().sum();
  if (cells_ > 0) {
    const Index base = first_ + by_column_.cols() + by_unit_.cols();
    for (Index u = 0; u < slope.rows(); ++u)
      gradient.segment(base + static_cast<Index>(cell_of_unit_[static_cast<std::size_t>(u)]) * columns_,
                       columns_) += slope.row(u).transpose();
  }
}

}  // namespace evet::models
