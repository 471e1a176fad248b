// Primary periods of a survey, found in its dates: nights close together, with long gaps between.
//
// Within a period animals hardly come or go; between periods they do (Pollock 1982, J. Wildl. Manage.
// 46:752-757). The limits below are common practice, no source.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/message.h"
#include "models/capture_histories.h"

namespace evet::models {

// The longest survey, in days, that is still taken for closed: adult newts stay in the water
// for longer than that.
inline constexpr double kLongestClosedDays = 45;

struct Periods {
  std::vector<int> primary;        // of each occasion, 0, 1, ...
  double longest_within_days = 0;  // between neighbouring nights of a period
  double shortest_between_days = 0;
};

// "12 days"
Message in_days(double count);

// A gap of more than so many days begins a new period.
Periods periods_by_gap(const std::vector<std::string>& dates, double gap_days);
// Periods that stand out by themselves: every gap between them at least four times as long as any within and
// ten days or more, no period longer than `kLongestClosedDays`, and most nights in periods of two or more.
// None when the nights do not fall apart so.
std::optional<Periods> periods_that_stand_out(const std::vector<std::string>& dates);

// "3 periods of 4, 4 and 4 nights (up to 2 days apart within a period, 350 or more between)"
Message said_of(const Periods& periods);

}  // namespace evet::models
