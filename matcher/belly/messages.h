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

// clang-format on
}  // namespace evet::messages
