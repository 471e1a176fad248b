// What is said of trials that cannot be made.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kHasNoIdentityPersonConfirmed = MessageText("has_no_identity_person_confirmed", "it has no identity that a person confirmed or a sheet knew, so there is nothing to try the program on");
inline constexpr auto kSettleCapturesWithEvetReview = MessageText("settle_captures_with_evet_review", "settle captures with 'evet review', or give identities known by other means in the sheet's column 'individual'");
inline constexpr auto kAllIsConfirmedIsOne = MessageText("all_is_confirmed_is_one", "all that is confirmed is one individual, and one can be mistaken for nobody");
inline constexpr auto kConfirmAtLeastTwoOne = MessageText("confirm_at_least_two_one", "confirm at least two, one of them on two nights");

// clang-format on
}  // namespace evet::messages
