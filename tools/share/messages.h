// What is said of what leaves the house.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kCannotBePacked = MessageText("cannot_be_packed", "it cannot be packed: {why}");
inline constexpr auto kNoScientificName = MessageText("no_scientific_name", "{species} is no scientific name");
inline constexpr auto kWriteGenusAndSpecies = MessageText("write_genus_and_species", "write genus and species, as in --species \"Genus species\"");
inline constexpr auto kPondWithoutSite = MessageText("pond_without_site", "it is named without its site");
inline constexpr auto kIsNoDateToShare = MessageText("is_no_date_to_share", "{date} is not a date");
inline constexpr auto kNoNightToShare = MessageText("no_night_to_share", "it has no night of what was asked for");
inline constexpr auto kSeeWhatThereIs = MessageText("see_what_there_is", "'evet individuals' and 'evet histories' show what it has");

// clang-format on
}  // namespace evet::messages
