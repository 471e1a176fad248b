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
inline constexpr auto kLookAtPicturesAgain = MessageText("look_at_pictures_again", "look at the pictures again; if it is so all the same, say why");

// What speaks against a verdict.
inline constexpr auto kWouldBeSureBut = MessageText("would_be_sure_but", "it would be sure, but {objection}");
inline constexpr auto kInHandThatNight = MessageText("in_hand_that_night", "{animal} was in hand on {night} already, as capture {capture} at {place}: two animals in hand the same night are rarely one");
inline constexpr auto kNeverCaughtThere = MessageText("never_caught_there", "{animal} was never caught at {site}: all its captures are of {other}");
inline constexpr auto kNotReleasedThen = MessageText("not_released_then", "capture {capture} died or was not released, and {later} was caught later");
inline constexpr auto kKnownUnderTwoNames = MessageText("known_under_two_names", "the sheets know {capture} as {individual} and {other} as {another}");
inline constexpr auto kNobodyCanSeeWho = MessageText("nobody_can_see_who", "no photo of capture {capture} can be matched, so that nobody can see by it who it is, now or ever: it can be closed as not identifiable");
inline constexpr auto kPhotosOfTwoAnimals = MessageText("photos_of_two_animals", "the photos of capture {capture} look like two animals: see whether one of them was put to the wrong capture");
inline constexpr auto kCaptureWasClosed = MessageText("capture_was_closed", "capture {capture} was closed by {by} on {on}: {as}");
inline constexpr auto kBelongsByProgram = MessageText("belongs_by_program", "capture {capture} belongs to {individual} by the program");
inline constexpr auto kBelongsByPerson = MessageText("belongs_by_person", "capture {capture} belongs to {individual}, and whoever said so is not undone by this");
inline constexpr auto kHasUsablePhoto = MessageText("has_usable_photo", "capture {capture} has a photo that can be matched");
inline constexpr auto kHasBellyInPhoto = MessageText("has_belly_in_photo", "capture {capture} has a photo that can be matched: a belly was found in it");
inline constexpr auto kOfDifferentNights = MessageText("of_different_nights", "{capture} and {other} are of different nights: the animal was let go in between");
inline constexpr auto kPhotosLookLikeTwo = MessageText("photos_look_like_two", "the photos of {capture} and {other} look like two animals");
inline constexpr auto kSexDiffers = MessageText("sex_differs", "sex: {sex} on {night}, {other} on {later}");
inline constexpr auto kLengthShrank = MessageText("length_shrank", "length: {mm} mm on {night}, only {other} mm on {later}");
inline constexpr auto kStageWentBack = MessageText("stage_went_back", "stage: {stage} on {night}, {other} on {later}");
inline constexpr auto kLineOffBelly = MessageText("line_off_belly", "{percent} % of the drawn line lies where no belly is seen: it has to run along the middle of the belly, from the throat fold to the vent");
inline constexpr auto kOtherTitle = MessageText("other_title", "this catalogue is called {title}, the other {other}, and neither is a copy of the other: what came in stays in");

// objections.cpp
inline constexpr auto kAndAlso = MessageText("and_also", "{some}; and {last}");

// verdict_reason.cpp
inline constexpr auto kSameWithProbability = MessageText("same_with_probability", "same with probability {p}");
inline constexpr auto kNewWithProbability = MessageText("new_with_probability", "new with probability {p}");

// clang-format on
}  // namespace evet::messages
