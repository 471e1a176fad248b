// The logarithm of the number of ways to choose k of n, also where n and k are no whole numbers.
#pragma once
#include <cmath>

namespace evet::models {

inline double log_choose(double n, double k) {
  return std::lgamma(n + 1) - std::lgamma(k + 1) - std::lgamma(n - k + 1);
}

}  // namespace evet::models
