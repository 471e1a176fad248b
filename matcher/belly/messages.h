// What is said of bellies that cannot be found or measured.
#pragma once
#include "matcher/base/message.h"

namespace evet::messages {
// clang-format off

inline constexpr auto kAnswersInAnotherShape = MessageText("answers_in_another_shape", "answers in another shape");
inline constexpr auto kUse1X11X = MessageText("use_1_x_11_x", "use 1 x 11 x 128 x 128, or 1 x 7 without the parts of the body");
inline constexpr auto kHasOnePointOnly = MessageText("has_one_point_only", "has one point only");
inline constexpr auto kGiveThroatFoldFirstAnd = MessageText("give_throat_fold_first_and", "give the throat fold first and the vent last");
inline constexpr auto kHasPointIsNotNumber = MessageText("has_point_is_not_number", "has a point that is not a number");
inline constexpr auto kGivePixelsAsXY = MessageText("give_pixels_as_x_y", "give pixels as x,y");
inline constexpr auto kHasNoPixels = MessageText("has_no_pixels", "has no pixels");
inline constexpr auto kIsBelowOnePixelModule = MessageText("is_below_one_pixel_module", "is below one pixel a module");
inline constexpr auto kUse6OrMore = MessageText("use_6_or_more", "use 6 or more");
inline constexpr auto kIsNotPositive = MessageText("is_not_positive", "is not positive");
inline constexpr auto kIsNotBetween0And = MessageText("is_not_between_0_and", "is not between 0 and 1");
inline constexpr auto kHasScaleIsNotPositive = MessageText("has_scale_is_not_positive", "has a scale that is not positive");
inline constexpr auto kIsBelow1 = MessageText("is_below_1", "is below 1");
inline constexpr auto kBlockBeforeTheyAdvise = MessageText("block_before_they_advise", "block before they advise");
inline constexpr auto kPutBlockingLimitBeyondAdvising = MessageText("put_blocking_limit_beyond_advising", "put the blocking limit beyond the advising one");
inline constexpr auto kHasPoints = MessageText("has_points", "has {midline} points");
inline constexpr auto kLiesOutsidePicture = MessageText("lies_outside_picture", "lies outside the picture");
inline constexpr auto kGiveUpPointsInPixels = MessageText("give_up_points_in_pixels", "give up to {most_midline_points} points in pixels of the full-size upright picture");
inline constexpr auto kHasFewerThanTwoDistinct = MessageText("has_fewer_than_two_distinct", "has fewer than two distinct points");
inline constexpr auto kGiveThroatFoldFirstVent = MessageText("give_throat_fold_first_vent", "give the throat fold first, the vent last, and a few points between");
inline constexpr auto kGivePointsInPixelsOf = MessageText("give_points_in_pixels_of", "give points in pixels of the full-size upright picture");
inline constexpr auto kIsLongerThanAnyBelly = MessageText("is_longer_than_any_belly", "is longer than any belly in the picture");
inline constexpr auto kUseOnnxOfBelly = MessageText("use_onnx_of_belly", "use an ONNX file with 1 x 3 x 256 x 256 in and 1 x 11 x 128 x 128 out");

// Findings about a photo: what is wrong, and what to do.
inline constexpr auto kBellyNotClear = MessageText("belly_not_clear", "it is not clear that this is a large newt's belly: photograph the belly alone and whole, square on, and filling most of the picture");
inline constexpr auto kGlareHides = MessageText("glare_hides", "reflected light hides {part}: tilt the tray or shade the lamp, and photograph again before release");
inline constexpr auto kBellyBlurred = MessageText("belly_blurred", "the belly is blurred: focus on the belly, hold the camera still or use more light, and photograph again before release");
inline constexpr auto kBellyTooShort = MessageText("belly_too_short", "the belly is only {pixels} pixels long: go closer, so that the animal fills the picture, and photograph again before release");
inline constexpr auto kBellyTooDark = MessageText("belly_too_dark", "{part} is too dark to tell spots from ground: add light from the side, and photograph again before release");
inline constexpr auto kBellyBent = MessageText("belly_bent", "the animal is strongly bent: wait a moment for it to straighten, and photograph again only if it does so quickly");
inline constexpr auto kOnItsSide = MessageText("on_its_side", "the animal lies on its side, so that part of the belly is out of sight: take a second photo when it lies flat or shows the other side");
inline constexpr auto kNoNewtFound = MessageText("no_newt_found", "no newt found in this picture: photograph it belly-up or through the floor of a clear tray, whole and filling most of the picture, or mark the midline by hand");
inline constexpr auto kNoSpotsShown = MessageText("no_spots_shown", "the underside shows no spots to tell animals apart by, as in small species: if it is a large newt, photograph its belly closer and in better light, or mark the midline by hand");
inline constexpr auto kNoBellyFound = MessageText("no_belly_found", "no belly found: if there is a newt in this picture, it may show its back, or lie too small, too dark or too much covered; photograph it belly-up or through the floor of a clear tray, whole and filling most of the picture, or mark the midline by hand");
inline constexpr auto kEndsNotMadeOut = MessageText("ends_not_made_out", "there may be a belly, but its ends and edges could not be made out: photograph the animal whole, straighter and square on, or mark the midline by hand");
inline constexpr auto kMaybeSmallSpecies = MessageText("maybe_small_species", "this may be a small species, by its pale and unspotted skin: check the animal, and leave the photo out if it is one");
inline constexpr auto kPartOfBelly = MessageText("part_of_belly", "{percent} % of the belly");
inline constexpr auto kAllOfBelly = MessageText("all_of_belly", "all of the belly");
inline constexpr auto kLittleOfBelly = MessageText("little_of_belly", "a little of the belly");
inline constexpr auto kNothingOfBelly = MessageText("nothing_of_belly", "nothing of the belly");
inline constexpr auto kSeenAlone = MessageText("seen_alone", "only {part} is plainly seen: {advice}");
inline constexpr auto kSeenBecause = MessageText("seen_because", "only {part} is plainly seen, the rest {cause}: {advice}");
inline constexpr auto kNotSeen = MessageText("not_seen", "{part} is plainly seen: {advice}");
inline constexpr auto kNotSeenBecause = MessageText("not_seen_because", "{part} is plainly seen, it {cause}: {advice}");
inline constexpr auto kBeyondEdge = MessageText("beyond_edge", "lies beyond the edge of the picture");
inline constexpr auto kCovered = MessageText("covered", "has something lying over it");
inline constexpr auto kHiddenByGlare = MessageText("hidden_by_glare", "is hidden by reflected light");
inline constexpr auto kTurnedAway = MessageText("turned_away", "is turned away");
inline constexpr auto kNotMadeOut = MessageText("not_made_out", "could not be made out");
inline constexpr auto kClearAndKeepIn = MessageText("clear_and_keep_in", "clear fingers, net and leaves away, keep throat and vent in the picture, and photograph again before release");
inline constexpr auto kKeepEndsIn = MessageText("keep_ends_in", "keep throat and vent in the picture, and photograph again before release");
inline constexpr auto kClearAway = MessageText("clear_away", "clear fingers, net and leaves away, and photograph again before release");
inline constexpr auto kShadeTheLamp = MessageText("shade_the_lamp", "tilt the tray or shade the lamp, and photograph again before release");
inline constexpr auto kWaitUntilFlat = MessageText("wait_until_flat", "photograph again when the animal lies flat or shows the other side");
inline constexpr auto kWholeOrByHand = MessageText("whole_or_by_hand", "photograph the animal whole, straighter and square on, or mark the midline by hand");

// clang-format on
}  // namespace evet::messages
