// What is said of a survey that is planned from a catalogue.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kNoEstimateToPlanFrom = MessageText("no_estimate_to_plan_from", "its nights give no estimate to plan from");
inline constexpr auto kSayAnimalsAndChance = MessageText("say_animals_and_chance", "say --animals and --chance");

// clang-format on
}  // namespace evet::messages
