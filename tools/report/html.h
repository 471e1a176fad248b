// The little that every section of the report needs to write HTML safely.
#pragma once
#include <optional>
#include <string>

#include "tools/words/markup.h"

namespace evet::report {

// The calibrated words of Mastrandrea et al. (2010), Guidance Note for Lead Authors of the IPCC Fifth
// Assessment Report on Consistent Treatment of Uncertainties, table 1: "virtually certain" from 99 %, "very
// likely" from 90 %, "likely" from 66 %, "about as likely as not" from 33 %, "unlikely" from 10 %, "very
// unlikely" from 1 %, "exceptionally unlikely".
std::string in_words(double probability);

// A figure with the digits it deserves: "143", "14.3", "1.43"; "not bounded" for infinity,
// "not defined" for NaN.
std::string figure(double value);

// "2031-05-14" -> "14 May 2031"; anything else comes back as it is.
std::string long_date(const std::string& date);

}  // namespace evet::report
