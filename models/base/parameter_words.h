// What people are told that an estimate is of: in their language, with dates instead of bare numbers of occasions.
// Programs go by Parameter itself, and by its name().
#pragma once
#include <string>
#include <vector>

#include "matcher/base/message.h"
#include "models/base/moment.h"
#include "models/base/parameter.h"

namespace evet::models {

Message words_of(Quantity quantity);                 // "survival"
std::string parameter_words(const Parameter& what);  // "survival 3: male"

// `moments` are those of EstimateReport. "N, 2031-05-14"; "survival, 2031-05-14 to 2031-06-13"; parameter_words
// where an index has no date of its own.
std::string dated_words(const Parameter& what, const std::vector<Moment>& moments);
// The time alone: "2031-05-14"; empty where the parameter is the same throughout.
std::string time_words(const Parameter& what, const std::vector<Moment>& moments);

}  // namespace evet::models
