// The trend of numbers over years with its doubt, to which the ponds' own ups and downs add.
//
// ln N of each year lies about a straight line, off by its own error of estimation, of known variance, and by a
// process of unknown variance, independent from year to year (Burnham, Anderson, White, Brownie & Pollock 1987, Am.
// Fish. Soc. Monogr. 5, part 5; Link & Nichols 1994, Oikos 69:539-544; both from memory). The process variance is the
// one with which the weighted squares about the line come to their degrees of freedom (Paule & Mandel 1982, J. Res.
// Natl. Bur. Stand. 87:377-385); its limits are those at which they come to the points of chi-square (Viechtbauer
// 2007, Stat. Med. 26:37-52). The slope is that of the regression weighed by both variances, with limits by Student's
// t (Knapp & Hartung 2003, Stat. Med. 22:2693-2710, the variance never taken below the one that the weights imply).
//
// Not for fewer than four years, nor for numbers that depend on each other as those of a random walk do.
#pragma once
#include <string>
#include <vector>

#include "models/base/estimate_value.h"
#include "models/base/moment.h"

namespace evet::models {

struct VarianceComponents {
  double process_variance = 0;
  double lower = 0, upper = 0;  // of it; `upper` infinite where not even a large one is refused
  double squares = 0;           // weighted, about the line, with no process variance
  double mean = 0, slope = 0;   // the line at the weighted mean of `at`, and its slope; no slope: 0
  double mean_error = 0, slope_error = 0;
  double degrees_of_freedom = 0;
};

// Values with known sampling variances about a line over `at`, or about one mean where `at` is empty. Needs more
// values than the line has parameters.
VarianceComponents variance_components(const std::vector<double>& values,
                                       const std::vector<double>& variances, const std::vector<double>& at,
                                       double level = 0.95);

struct YearlyNumber {
  double years = 0;  // since the first
  double number = 0, standard_error = 0;
};
// "yearly trend", the factor by which numbers change in a year, and "spread between years", the standard deviation of
// ln N about the line once the errors of estimation are taken off. Empty for fewer than four years, or where one has
// no number above nought with a standard error.
std::vector<Estimate> yearly_trend(const std::vector<YearlyNumber>& numbers, double level = 0.95);

// The numbers of all animals in an answer, by the dates of its moments; empty unless they lie half a year or
// more apart from each other.
std::vector<YearlyNumber> yearly_numbers(const std::vector<Estimate>& answer,
                                         const std::vector<Moment>& moments);

}  // namespace evet::models
