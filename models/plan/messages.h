// What is said of a survey that is planned.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kOutsideRange = MessageText("outside_range", "{value} is out of range");
inline constexpr auto kGiveFromTo = MessageText("give_from_to", "give a number from {low} to {high}");
inline constexpr auto kNoNightsNamed = MessageText("no_nights_named", "none is named");
inline constexpr auto kGiveNights = MessageText("give_nights", "give one or more numbers of nights");
inline constexpr auto kNoneComesWithin = MessageText("none_comes_within", "None of these surveys comes within {wanted}: plan more nights, more traps, or a coarser answer.");
inline constexpr auto kNightsAreEnough = MessageText("nights_are_enough", "{nights} nights are enough: the estimate then lies {error} from the truth, root mean square.");
inline constexpr auto kNightsOfTrapsAreEnough = MessageText("nights_of_traps_are_enough", "{nights} nights of {traps} traps are enough: the estimate then lies {error} from the truth, root mean square.");
inline constexpr auto kAsManyAsAssumed = MessageText("as_many_as_assumed", "There are as many animals as assumed, and none comes or goes between the first and the last night.");
inline constexpr auto kDifferAsAssumed = MessageText("differ_as_assumed", "Animals differ in their chance of being caught as much as assumed.");
inline constexpr auto kAllAlikeEveryNight = MessageText("all_alike_every_night", "Every animal has the same chance of being caught on every night.");
inline constexpr auto kRecognisedWithoutMistake = MessageText("recognised_without_mistake", "Every animal is recognised without a mistake.");
inline constexpr auto kTrapsCatchAlone = MessageText("traps_catch_alone", "Each trap catches by itself, however many there are.");

// The drawing.
inline constexpr auto kPlanTitle = MessageText("plan_title", "Precision by nights");
inline constexpr auto kAxisNights = MessageText("axis_nights", "nights");
inline constexpr auto kAxisError = MessageText("axis_error", "error of the estimate");
inline constexpr auto kWantedLine = MessageText("wanted_line", "wanted");
inline constexpr auto kTrapsLine = MessageText("traps_line", "{traps} traps");

// clang-format on
}  // namespace evet::messages
