// Both ways to draw hold to one convention of body coordinates and truth (scene.h, body_coordinates.h).
#include <gtest/gtest.h>

#include <cmath>
#include <opencv2/imgproc.hpp>

#include "tools/render/scene.h"

namespace evet::render {
namespace {

class Conventions : public ::testing::TestWithParam<World> {
 protected:
  CaptureSpec spec_of(std::uint32_t individual, Difficulty difficulty = Difficulty::middle) const {
    CaptureSpec spec;
    spec.world_seed = 73;
    spec.individual = individual;
    spec.size = {320, 240};
    spec.conditions.difficulty = difficulty;
    spec.world = GetParam();
    return spec;
  }
};

cv::Point pixel_of(const cv::Point2d& p) {
  return {cvFloor(p.x), cvFloor(p.y)};
}
bool holds(const cv::Mat& picture, const cv::Point& p) {
  return p.x >= 0 && p.y >= 0 && p.x < picture.cols && p.y < picture.rows;
}

TEST_P(Conventions, MidlineRunsFromThroatToVentWhereVIsZero) {
  for (std::uint32_t i = 0; i < 6; ++i) {
    const Truth t = render(spec_of(i, Difficulty::gentle)).truth;
    ASSERT_EQ(t.midline.size(), 65U);
    int checked = 0;
    for (int k = 2; k <= 62; k += 4) {
      const cv::Point at = pixel_of(t.midline[static_cast<std::size_t>(k)]);
      if (!holds(t.uv, at) || std::isnan(t.uv(at)[0])) continue;
      EXPECT_NEAR(t.uv(at)[0], k / 64.0, 1.5 / t.length_px + 0.006);
      EXPECT_NEAR(t.uv(at)[1], 0, 0.1);
      ++checked;
    }
    EXPECT_GT(checked, 12);
    double length = 0;
    for (std::size_t k = 1; k < t.midline.size(); ++k) length += cv::norm(t.midline[k] - t.midline[k - 1]);
    EXPECT_NEAR(t.length_px, length, 1e-6 * length);
  }
}

// Skin is never mirrored: du x dv has one sign all over the belly, u grows downwards and v to the right when
// the head is up.
TEST_P(Conventions, BodyCoordinatesHaveOneHandedness) {
  for (std::uint32_t i = 10; i < 18; ++i) {
    const Truth t = render(spec_of(i, Difficulty::hardest)).truth;
    int right_handed = 0, counted = 0;
    for (int y = 1; y + 1 < t.uv.rows; ++y)
      for (int x = 1; x + 1 < t.uv.cols; ++x) {
        if (!t.belly(y, x) || !t.belly(y, x - 1) || !t.belly(y, x + 1) || !t.belly(y - 1, x) ||
            !t.belly(y + 1, x))
          continue;
        const cv::Vec2f dx = t.uv(y, x + 1) - t.uv(y, x - 1), dy = t.uv(y + 1, x) - t.uv(y - 1, x);
        ++counted;
        // With the head up: dv/dx > 0, du/dy > 0.
        right_handed += dx[1] * dy[0] - dx[0] * dy[1] > 0;
      }
    ASSERT_GT(counted, 300) << "individual " << i;
    EXPECT_GT(right_handed, 0.99 * counted) << "individual " << i;
  }
}

TEST_P(Conventions, VIsOneAtTheBellysEdgeAndGoesOnOverTheFlanks) {
  int beyond = 0;
  for (std::uint32_t i = 20; i < 26; ++i) {
    const Truth t = render(spec_of(i)).truth;
    for (int y = 0; y < t.uv.rows; ++y)
      for (int x = 0; x < t.uv.cols; ++x) {
        const cv::Vec2f uv = t.uv(y, x);
        if (std::isnan(uv[0])) {
          EXPECT_EQ(t.belly(y, x), 0);
          continue;
        }
        EXPECT_GE(uv[0], 0);
        EXPECT_LE(uv[0], 1);
        EXPECT_EQ(t.belly(y, x) != 0, std::abs(uv[1]) <= 1);
        EXPECT_NE(t.animal(y, x), 0);
        beyond += std::abs(uv[1]) > 1;
      }
  }
  EXPECT_GT(beyond, 100);
}

// `roll` > 0: the pattern lies towards +v, so the ridge shows v = -roll; the middle of
// what is seen follows it.
TEST_P(Conventions, RollMovesThePatternTowardsPlusV) {
  double same_way = 0, counted = 0;
  for (std::uint32_t i = 30; i < 60; ++i) {
    CaptureSpec spec = spec_of(i, Difficulty::hardest);
    spec.size = {240, 180};
    const Truth t = render(spec).truth;
    if (std::abs(t.roll) < 0.15 || t.cut_off) continue;
    double sum = 0;
    int n = 0;
    for (const cv::Vec2f& uv : t.uv)
      if (uv[0] > 0.3F && uv[0] < 0.7F) sum += uv[1], ++n;
    ASSERT_GT(n, 50);
    ++counted;
    same_way += (sum / n < 0) == (t.roll > 0);
  }
  ASSERT_GT(counted, 8);
  EXPECT_GT(same_way, 0.9 * counted);
}

TEST_P(Conventions, TurnIsThatOfTheChordFromVentToThroat) {
  for (std::uint32_t i = 60; i < 66; ++i) {
    CaptureSpec spec = spec_of(i, Difficulty::gentle);
    const Truth t = render(spec).truth;
    const cv::Point2d chord = t.midline.front() - t.midline.back();
    const double seen = std::atan2(chord.x, -chord.y) * 180 / CV_PI;
    EXPECT_NEAR(std::remainder(seen - t.turn_deg, 360.0), 0, 6) << "individual " << i;
  }
}

TEST_P(Conventions, DarkIsWhatTheSkinSaysAtEachPixel) {
  for (std::uint32_t i = 70; i < 74; ++i) {
    CaptureSpec spec = spec_of(i, Difficulty::hardest);
    spec.years = 2;
    const Truth t = render(spec).truth;
    const cv::Mat1b skin = skin_pattern(spec.world_seed, i, spec.years, {640, 1792}, {}, GetParam());
    int belly = 0, agree = 0;
    for (int y = 0; y < t.uv.rows; ++y)
      for (int x = 0; x < t.uv.cols; ++x) {
        if (!t.belly(y, x)) continue;
        const cv::Vec2f uv = t.uv(y, x);
        const int r = std::min(skin.rows - 1, static_cast<int>(uv[0] * static_cast<float>(skin.rows))),
                  c = std::min(skin.cols - 1,
                               static_cast<int>((uv[1] + 1) / 2 * static_cast<float>(skin.cols)));
        ++belly;
        agree += (skin(r, c) != 0) == (t.dark(y, x) != 0);
      }
    ASSERT_GT(belly, 500);
    EXPECT_GT(agree, 0.97 * belly) << "individual " << i;
  }
}

// Head, trunk and tail follow each other along the body; u, where there is any, lies on the trunk.
TEST_P(Conventions, PartsLieInOrder) {
  for (std::uint32_t i = 80; i < 86; ++i) {
    const Truth t = render(spec_of(i)).truth;
    cv::Mat1b head = t.part == static_cast<int>(BodyPart::head),
              tail = t.part == static_cast<int>(BodyPart::tail);
    const cv::Point2d throat = t.midline.front(), vent = t.midline.back();
    const auto nearest = [](const cv::Mat1b& mask, const cv::Point2d& to) {
      double least = 1e9;
      for (int y = 0; y < mask.rows; ++y)
        for (int x = 0; x < mask.cols; ++x)
          if (mask(y, x)) least = std::min(least, std::hypot(x + 0.5 - to.x, y + 0.5 - to.y));
      return least;
    };
    if (cv::countNonZero(head) > 20) {
      EXPECT_LT(nearest(head, throat), nearest(head, vent));
    }
    if (cv::countNonZero(tail) > 20) {
      EXPECT_LT(nearest(tail, vent), nearest(tail, throat));
    }
    for (int y = 0; y < t.part.rows; ++y)
      for (int x = 0; x < t.part.cols; ++x) EXPECT_EQ(t.part(y, x) != 0, t.animal(y, x) != 0);
  }
}

TEST_P(Conventions, MasksNest) {
  for (std::uint32_t i = 90; i < 94; ++i) {
    const Truth t = render(spec_of(i, Difficulty::hardest)).truth;
    EXPECT_EQ(cv::countNonZero(t.clear & ~t.belly), 0);
    EXPECT_EQ(cv::countNonZero(t.belly & ~t.animal), 0);
    EXPECT_EQ(cv::countNonZero(t.dark & ~t.belly), 0);
  }
}

TEST_P(Conventions, SubjectsThatAreNotABellyHaveNone) {
  for (const Subject subject : {Subject::back, Subject::empty_tray, Subject::leaf, Subject::small_newt})
    for (std::uint32_t i = 100; i < 103; ++i) {
      CaptureSpec spec = spec_of(i);
      spec.subject = subject;
      const Truth t = render(spec).truth;
      EXPECT_EQ(cv::countNonZero(t.belly) + cv::countNonZero(t.clear) + cv::countNonZero(t.dark), 0);
      EXPECT_TRUE(t.midline.empty());
      const bool animal = subject == Subject::back || subject == Subject::small_newt;
      EXPECT_EQ(cv::countNonZero(t.animal) > 0, animal);
    }
}

INSTANTIATE_TEST_SUITE_P(BothWorlds, Conventions, ::testing::Values(World::drawn, World::solid),
                         [](const auto& world) { return world.param == World::drawn ? "Drawn" : "Solid"; });

}  // namespace
}  // namespace evet::render
