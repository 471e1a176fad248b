// What is said of strips and patterns that cannot be used.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kUse1X = MessageText("use_1_x", "use 1 x 128");
inline constexpr auto kMinSpotAreaMustLie = MessageText("min_spot_area_must_lie", "min_spot_area must lie in (0, 1), as a share of the canvas");
inline constexpr auto kIsNotOfSizeAll = MessageText("is_not_of_size_all", "it is not of the size that all strips have");
inline constexpr auto kGiveRowsAndColumnsWith = MessageText("give_rows_and_columns_with", "give 512 rows and 160 columns with a mask of the same size");
inline constexpr auto kMinPSeenMustLie = MessageText("min_p_seen_must_lie", "min_p_seen must lie in [0, 1]");
inline constexpr auto kMinValidShareMustLie = MessageText("min_valid_share_must_lie", "min_valid_share must lie in (0, 1]");
inline constexpr auto kUse1X2X = MessageText("use_1_x_2_x", "use 1 x 2 x 256 x 80");

// clang-format on
}  // namespace evet::messages
