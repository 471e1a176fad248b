// A likelihood stated for the fitter, and what fitting it gives.
//
// Parameters live on scales without ends (logit, log), with limits so far out that a parameter resting on one
// is at the boundary of its range. What the data cannot tell apart is named, never given a standard error.
#pragma once
#include <Eigen/Core>
#include <functional>
#include <string>
#include <vector>

#include "models/base/estimate_value.h"
#include "models/fit/minimise.h"

namespace evet::models {

enum class Link { logit, log, identity };

struct Likelihood {
  std::vector<Parameter> parameters;  // the natural ones, one a coordinate
  std::vector<Link> links;            // coordinate = link(natural parameter)
  Objective minus_log_likelihood;     // of the coordinates
  Eigen::VectorXd start;
  Eigen::VectorXd lower, upper;       // limits of the search
  Eigen::VectorXd low_end, high_end;  // beyond these a parameter counts as being at its boundary
  std::vector<Eigen::VectorXd> further_starts;
  int random_starts = 0;
  // The surface is known to be crooked around its top: limits of chances come from their profiles, however
  // small the standard error.
  bool crooked = false;

  // Adds a coordinate starting at a natural value, with the limits that its link suggests; returns its index.
  Eigen::Index add(const Parameter& parameter, Link link, double natural_start);
};

struct Fit {
  Eigen::VectorXd theta;        // coordinates at the maximum
  Eigen::MatrixXd covariance;   // of theta; zero rows for parameters at a boundary or not estimable
  Eigen::MatrixXd information;  // Hessian of minus the log-likelihood
  double log_likelihood = 0;
  bool converged = false;
  int rank = 0;                          // estimable directions, parameters at a boundary counted
  std::vector<Parameter> not_estimable;  // that only occur together with others
  std::vector<Parameter> at_boundary;    // whose estimate lies at the end of its range
  std::vector<bool> boundary;            // by coordinate
  std::vector<bool> unidentified;        // by coordinate: in not_estimable
  Eigen::MatrixXd flat;                  // columns: directions of theta that leave the likelihood as it is
  double overdispersion = 1;             // taken into the covariance already

  Sentences warnings() const;  // in a surveyor's words
};

struct FitOptions {
  std::uint64_t seed = 1;
  bool warm_start = true;
  double overdispersion = 1;  // Burnham et al. (1987): variances times it
};

Fit fit(const Likelihood& likelihood, const FitOptions& options = {});

double natural(Link link, double coordinate);

// Limits that are symmetric on the logit scale are too wide towards the middle where a chance is poorly known: a
// high estimate comes with a standard error that grows without end. There the profile is traced, as long as
// that is quick. `sd` is on the logit scale.
bool worth_a_profile(const Fit& fit, double sd);

// The natural value of one coordinate with its standard error (delta method) and an interval that is
// symmetric on the link scale. At a boundary the standard error is 0 and the interval comes from the profile,
// or without `profile` holds the whole range.
Estimate natural_estimate(const Likelihood& likelihood, const Fit& fit, Eigen::Index which, double level,
                          bool profile = true);
// Why a smooth function of theta has no estimate: the search did not settle, or the function changes along a
// direction in which the likelihood is flat. Empty when it has one.
Remark why_undefined(const Fit& fit, const std::function<double(const Eigen::VectorXd&)>& function);
// Variance of a smooth function of theta by the delta method.
double delta_variance(const Fit& fit, const std::function<double(const Eigen::VectorXd&)>& function);

// Profile-likelihood limits of one coordinate, on its own scale: where twice the drop from the maximum
// reaches the chi-square point. -infinity or +infinity where it never does before the limit of the scale.
Interval profile_interval(const Likelihood& likelihood, const Fit& fit, Eigen::Index which, double level);
// The same for weights . theta, a linear predictor on the logit scale.
Interval profile_interval(const Likelihood& likelihood, const Fit& fit, const Eigen::VectorXd& weights,
                          double level);
// Twice the drop of the profile log-likelihood at each value of the coordinate.
std::vector<double> profile_drop(const Likelihood& likelihood, const Fit& fit, Eigen::Index which,
                                 const std::vector<double>& at);

}  // namespace evet::models
