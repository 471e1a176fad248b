#include "matcher/belly/overlap.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

// A belly that fills the middle of a grid laid over the photo from `x` on, `cell` pixels to a grid cell.
BodyCoordinates patch(double x, double cell) {
  BodyCoordinates k;
  k.p_belly = cv::Mat1f::zeros(40, 40);
  k.p_belly(cv::Rect(10, 10, 20, 20)).setTo(0.9);
  k.photo_from_grid = {cell, 0, x, 0, cell, 0};
  return k;
}

TEST(BellyOverlap, IsOneForTheSamePatchAndFallsAsTheyPart) {
  const cv::Size photo(800, 600);
  EXPECT_DOUBLE_EQ(belly_overlap(patch(0, 10), patch(0, 10), photo), 1);
  EXPECT_NEAR(belly_overlap(patch(0, 10), patch(100, 10), photo), 1.0 / 3, 0.03);
  EXPECT_DOUBLE_EQ(belly_overlap(patch(0, 10), patch(300, 10), photo), 0);
}

TEST(BellyOverlap, DoesNotDependOnHowFineEitherGridIs) {
  const cv::Size photo(800, 600);
  BodyCoordinates fine;
  fine.p_belly = cv::Mat1f::zeros(80, 80);
  fine.p_belly(cv::Rect(20, 20, 40, 40)).setTo(0.9);
  fine.photo_from_grid = {5, 0, 0, 0, 5, 0};
  EXPECT_GT(belly_overlap(patch(0, 10), fine, photo), 0.97);
}

TEST(BellyOverlap, NothingFoundOverlapsNothing) {
  EXPECT_DOUBLE_EQ(belly_overlap({}, patch(0, 10), {800, 600}), 0);
  EXPECT_DOUBLE_EQ(belly_overlap({}, {}, {800, 600}), 0);
}

}  // namespace
}  // namespace evet
