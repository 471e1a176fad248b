// What is said of figures that carry the doubt about who is who.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kMostDrawsWithout = MessageText("most_draws_without", "more than half of the draws have no estimate");
inline constexpr auto kDrawsSetNoBound = MessageText("draws_set_no_bound", "Some of the draws set no bound to the estimate.");
inline constexpr auto kFirstStopsBefore = MessageText("first_stops_before", "The first figure stops before {occasion}, for captures of it are not settled; the second takes all occasions in, with those identities drawn from the program's probabilities.");
inline constexpr auto kDrawsHoldMore = MessageText("draws_hold_more", "The draws hold more different animals than the record: some captures placed with a known animal may be of another, and the first figure counts these as one.");
inline constexpr auto kDrawsHoldFewer = MessageText("draws_hold_fewer", "The draws hold fewer different animals than the record: some captures taken for new animals may be of known ones, and the first figure counts these twice.");
inline constexpr auto kDrawsHoldAsMany = MessageText("draws_hold_as_many", "The draws hold as many different animals as the record; what the identities leave open shows in the second interval alone.");
inline constexpr auto kNothingSettledYet = MessageText("nothing_settled_yet", "Nothing is settled yet.");
inline constexpr auto kNoCertainFigure = MessageText("no_certain_figure", "There is no figure without the doubt about identities: {why}");
inline constexpr auto kNothingInDoubt = MessageText("nothing_in_doubt", "No capture rests on the program alone, and none that it has ranked waits to be settled.");
inline constexpr auto kTooManyHistories = MessageText("too_many_histories", "There are too many histories to estimate them over and over: choose one place or fewer nights.");
inline constexpr auto kOccasionNotSettled = MessageText("occasion_not_settled", "its occasion is not settled");
inline constexpr auto kDrawnTimes = MessageText("drawn_times", "In doubt: who is who was drawn {draws} times from the probabilities of the program, for {n} capture that no person has settled; each draw was estimated by itself, and the estimates were combined (Rubin 1987). What people said and sheets know is taken as certain.", "In doubt: who is who was drawn {draws} times from the probabilities of the program, for {n} captures that no person has settled; each draw was estimated by itself, and the estimates were combined (Rubin 1987). What people said and sheets know is taken as certain.");
inline constexpr auto kDrawsStopBefore = MessageText("draws_stop_before", "Captures of {occasion} have no ranking to be drawn from: every draw stops before it.");

// The two figures side by side.
inline constexpr auto kNotTold = MessageText("not_told", "not told");
inline constexpr auto kWhoIsWho = MessageText("who_is_who", "Who is who");
inline constexpr auto kColumnQuantity = MessageText("column_quantity", "quantity");
inline constexpr auto kColumnCertain = MessageText("column_certain", "identities as certain");
inline constexpr auto kColumnWithDoubt = MessageText("column_with_doubt", "with their doubt");

// clang-format on
}  // namespace evet::messages
