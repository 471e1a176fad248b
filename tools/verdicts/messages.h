// What verdicts refuse.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kLabelIsEmpty = MessageText("label_is_empty", "it is empty");
inline constexpr auto kGiveNameOrLeaveIt = MessageText("give_name_or_leave_it", "give a name, or leave the one that it has");
inline constexpr auto kAnotherBearsLabel = MessageText("another_bears_label", "another individual bears it, first caught on {night}");
inline constexpr auto kGiveAnotherLabel = MessageText("give_another_label", "give another label, or say that the two are the same");
inline constexpr auto kLabelOfSeveral = MessageText("label_of_several",
    "{n} individual was given the label {label}, and goes by {names}: give all but one another label, or say that they are the same.",
    "{n} individuals were given the label {label}, and go by {names}: give all but one another label, or say that they are the same.");

// clang-format on
}  // namespace evet::messages
