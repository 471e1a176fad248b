// What follows from a fit of the super-population: numbers, entries, growth, of all animals and by group.
#pragma once
#include "models/fit/off_the_end.h"
#include "models/open/entry_layout.h"

namespace evet::models {

class EntryQuantities {
 public:
  EntryQuantities(const EntryLayout& at, const FittedModel& model, const ModelOptions& options)
      : at_(at),
        model_(model),
        options_(options),
        off_the_end_(model.likelihood, options.profile ? model.fit : Fit{}, options.level) {}

  using Levels = std::vector<std::pair<std::string, std::string>>;  // empty: all animals
  Estimate number_ever(const Levels& levels) const;
  Estimate number(std::size_t occasion, const Levels& levels) const;
  Estimate entry(std::size_t i) const;
  Estimate births(std::size_t i) const;
  // From those left after an occasion to those there at the next, per unit of time.
  Estimate growth_rate(std::size_t interval, const Levels& levels) const;
  Estimate mean_growth(const Levels& levels) const;
  // A chance that the model has set or cannot tell has no estimate.
  Estimate no_estimate(const Parameter& what) const;
  // Why the model cannot tell it, whatever the data.
  Remark why_not_told(const Parameter& what) const;

 private:
  using OfTheta = OffTheEnd::OfTheta;
  std::vector<std::size_t> units_of(const Levels& levels) const;
  double ever(const Eigen::VectorXd& x, std::size_t unit) const;
  double came_in(const Eigen::VectorXd& x, std::size_t unit, std::size_t i) const;
  double present(const Eigen::VectorXd& x, std::size_t unit, std::size_t occasion) const;
  double spread_beyond_fit(const Eigen::VectorXd& x, std::size_t unit, std::size_t occasion) const;
  Estimate count(const Parameter& what, const OfTheta& function, double floor, double extra) const;
  Estimate of_growth(const Parameter& what, const OfTheta& log_growth) const;
  Estimate may_be_negative(const Parameter& what, const OfTheta& function) const;

  const EntryLayout& at_;
  const FittedModel& model_;
  const ModelOptions& options_;
  OffTheEnd off_the_end_;
};

}  // namespace evet::models
