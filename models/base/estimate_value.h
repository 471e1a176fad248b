// One estimated quantity as a surveyor or a reviewer must see it: never a bare number.
#pragma once
#include <limits>
#include <map>
#include <string>
#include <vector>

#include "models/base/parameter.h"
#include "models/base/remark.h"

namespace evet::models {

inline constexpr double kInfinity = std::numeric_limits<double>::infinity();
inline constexpr double kUndefined = std::numeric_limits<double>::quiet_NaN();

// Confidence limits. An infinite upper limit is a legal answer: the data set no bound on that side.
struct Interval {
  double lower = kUndefined;
  double upper = kUndefined;
  double level = 0.95;
  Remark method;  // "log-normal", "profile likelihood", "exact hypergeometric", ...
};

struct Estimate {
  Parameter what;
  std::string parameter;  // its name: "N", "survival 2", ...
  double value = kUndefined;
  double standard_error = kUndefined;
  std::vector<Interval> intervals;        // the recommended one first
  Sentences assumptions;                  // one sentence each
  Sentences warnings;                     // in a surveyor's words
  std::string source;                     // the published source of the method
  std::map<std::string, double> at;       // covariates of the animals at which it is given
  Remark undefined;                       // why value or standard_error is not a number; else empty
  std::map<std::string, double> details;  // further named figures of the method, e.g. a second standard error
};
Estimate estimate_of(const Parameter& what);  // nothing but named

// Interval for a number N of which `seen` have been seen: f0 = N - seen, C = exp(z sqrt(ln(1 + se^2/f0^2))),
// [seen + f0/C, seen + f0 C]. Burnham, Anderson, White, Brownie & Pollock (1987), Am. Fish. Soc. Monogr. 5.
Interval log_normal_interval(double value, double standard_error, double seen, double level);
// value -+ z standard_error, not truncated.
Interval normal_interval(double value, double standard_error, double level);
// Two-sided standard normal point, 1.959964 for 0.95. Level must lie in (0, 1).
double normal_point(double level);

}  // namespace evet::models
