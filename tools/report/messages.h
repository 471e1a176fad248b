// What is said of reports that cannot be made.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kHoldsNoCaptureYet = MessageText("holds_no_capture_yet", "it holds no capture yet");
inline constexpr auto kTakeNightInWithEvet = MessageText("take_night_in_with_evet", "take a night in with 'evet intake'");
inline constexpr auto kNothingWasWorkedThereThen = MessageText("nothing_was_worked_there_then", "nothing was worked there then, as far as the sheets say");
inline constexpr auto kNewestNightIs = MessageText("newest_night_is", "the newest night is {night}");
inline constexpr auto kSeveralPlacesWereWorkedThen = MessageText("several_places_were_worked_then", "several places were worked then");
inline constexpr auto kNameOneWithSite = MessageText("name_one_with_site", "name one with --site: {list}");
inline constexpr auto kIsNotProbability = MessageText("is_not_probability", "{p} is not a probability");
inline constexpr auto kRankNightAgain = MessageText("rank_night_again", "rank the night again");
inline constexpr auto kCapturesAreToldOfBut = MessageText("captures_are_told_of_but", "{told} captures are told of, but the sheet has {captures_on_sheet}");
inline constexpr auto kEachCaptureOfSheetBelongs = MessageText("each_capture_of_sheet_belongs", "each capture of the sheet belongs in exactly one list");

// clang-format on
}  // namespace evet::messages
