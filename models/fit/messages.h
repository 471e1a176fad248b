// What is said of a search for the best fit and of the terms of a model.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kSearchNotSettled = MessageText("search_not_settled", "the search for the best fit did not settle");
inline constexpr auto kNotToldApart = MessageText("not_told_apart", "the data cannot tell it apart from other parameters");
inline constexpr auto kDoNotRely = MessageText("do_not_rely", "The search for the best fit did not settle: do not rely on these figures.");
inline constexpr auto kBeyondBounds = MessageText("beyond_bounds", "it is beyond all bounds at the best fit");

inline constexpr auto kNotInHistories = MessageText("not_in_histories", "it is not in the histories");
inline constexpr auto kHistoriesHaveNone = MessageText("histories_have_none", "the histories have none");
inline constexpr auto kHistoriesHave = MessageText("histories_have", "the histories have {names}");
inline constexpr auto kValueMissing = MessageText("value_missing", "a value is missing");
inline constexpr auto kGiveForEveryOccasion = MessageText("give_for_every_occasion", "give one for every occasion");
inline constexpr auto kAnimalLacks = MessageText("animal_lacks", "it has no {name}");
inline constexpr auto kFillInOrLeaveOut = MessageText("fill_in_or_leave_out", "fill it in, leave the animal out, or leave {name} out of the model");
inline constexpr auto kNoGroupNamed = MessageText("no_group_named", "no group is named");
inline constexpr auto kNameAGroup = MessageText("name_a_group", "name one, for example sex");

// How a probability varies; {by} and {linear} are lists of names.
inline constexpr auto kConstant = MessageText("constant", "constant");
inline constexpr auto kByList = MessageText("by_list", "by {by}");
inline constexpr auto kLinearInList = MessageText("linear_in_list", "linear in {linear}");
inline constexpr auto kShiftedAfterCapture = MessageText("shifted_after_capture", "shifted after first capture");
inline constexpr auto kOccasionWord = MessageText("occasion_word", "occasion");
inline constexpr auto kPeriodWord = MessageText("period_word", "period");
inline constexpr auto kEachCombination = MessageText("each_combination", "{first} x {last}");
inline constexpr auto kPartsOfTerms = MessageText("parts_of_terms", "{first}, {last}");

// clang-format on
}  // namespace evet::messages
