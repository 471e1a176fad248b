// What the closed models need of the histories: a few sums, however many animals there are.
#pragma once
#include <vector>

#include "models/capture_histories.h"

namespace evet::models {

struct ClosedCounts {
  int occasions = 0;
  double seen = 0;                  // distinct animals, S
  std::vector<double> caught;       // n_j
  std::vector<double> newly;        // u_j, caught for the first time
  std::vector<double> lost_before;  // animals lost on capture before occasion j
  std::vector<double> frequencies;  // f_1 ... f_t, animals caught k times

  // Animals by captures and by the occasions on which they could be caught (fewer when lost).
  struct Class {
    int captures, exposed;
    double animals;
  };
  std::vector<Class> classes;
  // Animals by occasion of first capture (from 0), recaptures, and occasions after the first
  // on which they could.
  struct FirstClass {
    int first, recaptures, exposed_after;
    double animals;
  };
  std::vector<FirstClass> first_classes;

  double captures() const;                           // sum of n_j
  double marked_before(std::size_t occasion) const;  // sum of u_i, i < j
};

ClosedCounts closed_counts(const CaptureHistories& histories);
// From capture frequencies and totals by occasion alone, for data published that way: no first captures.
ClosedCounts closed_counts(const std::vector<double>& frequencies, const std::vector<double>& caught);

}  // namespace evet::models
