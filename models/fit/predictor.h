// How a probability varies, said in plain terms, and the linear predictor on the logit scale that follows.
//
// Animals that the terms cannot tell apart share a unit, so work grows with distinct units, not with animals.
#pragma once
#include <Eigen/Core>
#include <string>
#include <vector>

#include "matcher/base/message.h"
#include "models/capture_histories.h"
#include "models/fit/likelihood.h"

namespace evet::models {

struct Terms {
  bool occasion = false;                 // a value for each occasion (or interval)
  std::vector<std::string> groups = {};  // a shift for each level after the first
  bool group_by_occasion = false;        // instead: a value for each combination of levels on each occasion
  std::vector<std::string> occasion_covariates = {};  // a slope on each ("effort", "temperature")
  std::vector<std::string> covariates = {};           // a slope on each of the animals' ("svl_mm")
  bool response = false;  // closed models: a shift once the animal has been caught

  bool plain() const { return groups.empty() && covariates.empty() && occasion_covariates.empty(); }
  bool by_occasion() const { return occasion || group_by_occasion; }
  std::string words() const;                         // "by occasion and sex, linear in svl_mm"; "constant"
  std::string words(const MessageText& time) const;  // with another word for the occasion: "by period"
};

// Throws InputError naming a group or covariate that the histories lack, or an animal whose
// covariate is missing.
void check_terms(const Terms& terms, const CaptureHistories& histories);

// Units: sets of animals equal in every group and covariate that any of the terms use.
struct Units {
  std::vector<std::size_t> unit_of_animal;
  std::vector<std::size_t> first_animal;  // one animal of each unit
};
Units make_units(const CaptureHistories& histories, const std::vector<Terms>& terms);

// eta(unit, column) for columns that stand for occasions of the histories:
// `from` ... `from + columns - 1`.
class Predictor {
 public:
  // Adds its coordinates to the likelihood: of `what` by occasion, shifts for groups, slopes on covariates.
  Predictor(const Parameter& what, const Terms& terms, const CaptureHistories& histories, const Units& units,
            std::size_t from, std::size_t columns, double start, Likelihood& likelihood);

  Eigen::MatrixXd eta(const Eigen::VectorXd& theta) const;  // units x columns
  // The same with every covariate of animals at its mean over the animals.
  Eigen::MatrixXd eta_at_means(const Eigen::VectorXd& theta) const;
  // Adds to `gradient` what follows from d value / d eta.
  void chain(const Eigen::MatrixXd& slope, Eigen::VectorXd& gradient) const;
  Eigen::Index first() const { return first_; }
  Eigen::Index size() const { return size_; }
  // The mean of a covariate over the animals, at which it counts as nought.
  const std::vector<std::pair<std::string, double>>& means() const { return means_; }
  // The coordinate of a slope is per standard deviation of its covariate; this one is per unit of it.
  double scale(Eigen::Index coordinate) const {
    return scale_[static_cast<std::size_t>(coordinate - first_)];
  }

 private:
  Eigen::Index first_ = 0, size_ = 0;
  Eigen::MatrixXd by_column_;              // columns x coordinates of this kind
  Eigen::MatrixXd by_unit_;                // units x coordinates of this kind
  std::vector<std::size_t> cell_of_unit_;  // combination of levels, for group_by_occasion
  Eigen::Index cells_ = 0, columns_ = 0;
  Eigen::Index group_columns_ = 0;  // of by_unit_; those of covariates follow
  std::vector<double> scale_;
  std::vector<std::pair<std::string, double>> means_;
};

}  // namespace evet::models
