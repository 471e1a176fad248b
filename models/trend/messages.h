// What a trend of yearly numbers rests on.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kYearsAboutALine = MessageText("years_about_a_line", "Yearly numbers lie about one line of ln N; each year's departure from it is independent of the last's.");
inline constexpr auto kTheseYearsAlone = MessageText("these_years_alone", "A trend of so few years speaks of these years alone.");

// clang-format on
}  // namespace evet::messages
