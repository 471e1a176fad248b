// What is said of what leaves the house.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kCannotBePacked = MessageText("cannot_be_packed", "it cannot be packed: {why}");

// clang-format on
}  // namespace evet::messages
