// Limits of what rests on a chance that was estimated as 0 or 1, or on a rate that was estimated as 0.
//
// A coordinate at the end of its range has no variance, so that the delta method takes it for known: of the growth over
// a last interval whose survival is estimated as 1, it gave limits that held the truth in 3 of 55 surveys. Here the
// coordinate is brought off its end in steps, down to its own profile limit, and all others are fitted anew each time.
// Twice the drop of the likelihood there, and the delta method over the other coordinates from there, tell how far the
// function may lie: its profile limits, but for the other coordinates being taken as normal.
#pragma once
#include "models/fit/likelihood.h"

namespace evet::models {

class OffTheEnd {
 public:
  using OfTheta = std::function<double(const Eigen::VectorXd&)>;

  // Coordinates that lie at an end, as long as they are few; nothing is done where there are none.
  OffTheEnd(const Likelihood& likelihood, const Fit& fit, double level);

  bool changes(const OfTheta& function) const;
  // Wider than those of the delta method alone, or the same.
  Interval limits(const OfTheta& function) const;

 private:
  struct Slice {
    Eigen::VectorXd theta;
    Eigen::MatrixXd covariance;  // of the coordinates that lie at no end
    double drop = 0;             // twice, from the maximum
  };
  void bring_in(const Likelihood& likelihood, const Fit& fit, Eigen::Index which);

  std::vector<Slice> slices_;  // the first is the maximum itself
  double level_, critical_;
};

}  // namespace evet::models
