// What every picture promises: the same bytes for the same seeds, and truth that agrees with the skin.
#include "tools/render/scene.h"

#include <gtest/gtest.h>

#include <cmath>
#include <opencv2/imgproc.hpp>
#include <optional>
#include <thread>

#include "tools/render/individual.h"

namespace evet::render {
namespace {

CaptureSpec spec_of(std::uint32_t individual, Difficulty difficulty = Difficulty::middle,
                    std::uint32_t capture = 0) {
  CaptureSpec spec;
  spec.world_seed = 71;
  spec.individual = individual;
  spec.capture = capture;
  spec.size = {320, 240};
  spec.conditions.difficulty = difficulty;
  return spec;
}

bool same(const cv::Mat& a, const cv::Mat& b) {
  return a.size() == b.size() && a.type() == b.type() && std::equal(a.datastart, a.dataend, b.datastart);
}

TEST(Scene, SameSeedsGiveTheSameBytesOnAnyThread) {
  const CaptureSpec spec = spec_of(3);
  const RenderedPhoto here = render(spec);
  RenderedPhoto there[2];
  std::thread first([&] { there[0] = render(spec); }), second([&] { there[1] = render(spec); });
  first.join();
  second.join();
  for (const RenderedPhoto& photo : there) {
    EXPECT_TRUE(same(here.bgr, photo.bgr));
    EXPECT_TRUE(same(here.truth.belly, photo.truth.belly));
    EXPECT_TRUE(same(here.truth.clear, photo.truth.clear));
    EXPECT_TRUE(same(here.truth.dark, photo.truth.dark));
  }
}

TEST(Scene, SharingTheAnimalChangesNothing) {
  const CaptureSpec spec = spec_of(4);
  const Individual animal = make_individual(spec.world_seed, spec.individual);
  EXPECT_TRUE(same(render(spec).bgr, render(animal, spec).bgr));
}

TEST(Scene, DarkIsWhatTheSkinSaysAtEachPixel) {
  for (std::uint32_t i = 0; i < 6; ++i) {
    const CaptureSpec spec = spec_of(i, Difficulty::hardest);
    const RenderedPhoto photo = render(spec);
    const cv::Mat1b skin = skin_pattern(spec.world_seed, i, spec.years, {640, 1792});
    int belly = 0, agree = 0;
    for (int y = 0; y < spec.size.height; ++y)
      for (int x = 0; x < spec.size.width; ++x) {
        if (!photo.truth.belly(y, x)) continue;
        const cv::Vec2f uv = photo.truth.uv(y, x);
        ASSERT_GE(uv[0], 0);
        ASSERT_LE(uv[0], 1);
        ASSERT_LE(std::abs(uv[1]), 1);
        const int r = std::min(skin.rows - 1, static_cast<int>(uv[0] * static_cast<float>(skin.rows)));
        const int c =
            std::min(skin.cols - 1, static_cast<int>((uv[1] + 1) / 2 * static_cast<float>(skin.cols)));
        ++belly;
        agree += (skin(r, c) != 0) == (photo.truth.dark(y, x) != 0);
      }
    ASSERT_GT(belly, 500);
    // They can differ only where a pixel's centre falls within a cell of an edge.
    EXPECT_GT(agree, 0.97 * belly) << "individual " << i;
  }
}

TEST(Scene, MasksNest) {
  for (std::uint32_t i = 0; i < 6; ++i) {
    const Truth t = render(spec_of(i, Difficulty::hardest)).truth;
    EXPECT_EQ(cv::countNonZero(t.clear & ~t.belly), 0);
    EXPECT_EQ(cv::countNonZero(t.belly & ~t.animal), 0);
    EXPECT_EQ(cv::countNonZero(t.dark & ~t.belly), 0);
    ASSERT_EQ(t.midline.size(), 65U);
  }
}

// Mean pixel of one part, or nothing where too little of it is seen.
std::optional<cv::Point2d> middle_of(const Truth& truth, BodyPart part) {
  const cv::Mat1b mask = truth.part == static_cast<std::uint8_t>(part);
  const cv::Moments m = cv::moments(mask, true);
  if (m.m00 < 30) return std::nullopt;
  return cv::Point2d(m.m10 / m.m00, m.m01 / m.m00);
}

TEST(Scene, PartsCoverTheAnimalInTheirOrder) {
  int heads = 0, tails = 0, limbs = 0;
  for (std::uint32_t i = 0; i < 8; ++i) {
    const Truth truth = render(spec_of(i)).truth;
    EXPECT_TRUE(same(truth.animal, truth.part > 0));
    const cv::Mat1b ends = (truth.part == static_cast<std::uint8_t>(BodyPart::head)) |
                           (truth.part == static_cast<std::uint8_t>(BodyPart::tail));
    EXPECT_EQ(cv::countNonZero(truth.belly & ends), 0);
    // The head lies nearer to the throat than to the vent, the tail and the hind limbs the other way round.
    const auto nearer_to_throat = [&](BodyPart part) -> std::optional<bool> {
      const auto at = middle_of(truth, part);
      if (!at) return std::nullopt;
      return cv::norm(*at - truth.midline.front()) < cv::norm(*at - truth.midline.back());
    };
    if (const auto near = nearer_to_throat(BodyPart::head)) heads += *near ? 1 : -99;
    if (const auto near = nearer_to_throat(BodyPart::fore_limb)) limbs += *near ? 1 : -99;
    if (const auto near = nearer_to_throat(BodyPart::hind_limb)) limbs += *near ? -99 : 1;
    if (const auto near = nearer_to_throat(BodyPart::tail)) tails += *near ? -99 : 1;
  }
  EXPECT_GE(heads, 6);
  EXPECT_GE(tails, 6);
  EXPECT_GE(limbs, 8);
}

// The midline of the truth lies where uv says that v = 0, and u grows along it.
TEST(Scene, MidlineAgreesWithBodyCoordinates) {
  for (std::uint32_t i = 10; i < 16; ++i) {
    const Truth t = render(spec_of(i, Difficulty::gentle)).truth;
    int checked = 0;
    for (int k = 2; k <= 62; k += 4) {
      const cv::Point2d p = t.midline[static_cast<std::size_t>(k)];
      const cv::Point at(static_cast<int>(p.x), static_cast<int>(p.y));
      if (at.x < 0 || at.y < 0 || at.x >= t.uv.cols || at.y >= t.uv.rows || std::isnan(t.uv(at)[0])) continue;
      EXPECT_NEAR(t.uv(at)[0], k / 64.0, 1.5 / t.length_px + 0.003);
      EXPECT_NEAR(t.uv(at)[1], 0, 0.08);
      ++checked;
    }
    EXPECT_GT(checked, 12);
  }
}

// Seen with the head up, v grows to the right: skin is never mirrored.
TEST(Scene, VGrowsToTheRightOfTheHead) {
  for (std::uint32_t i = 20; i < 30; ++i) {
    const Truth t = render(spec_of(i)).truth;
    const cv::Point2d up = t.midline[24] - t.midline[40];
    const cv::Point2d right(-up.y, up.x);  // x right, y down: a quarter turn clockwise
    cv::Point2d left_side(0, 0), right_side(0, 0);
    int left = 0, rights = 0;
    for (int y = 0; y < t.uv.rows; ++y)
      for (int x = 0; x < t.uv.cols; ++x) {
        const cv::Vec2f uv = t.uv(y, x);
        if (std::isnan(uv[0]) || uv[0] < 0.4F || uv[0] > 0.6F) continue;
        (uv[1] < 0 ? left_side : right_side) += cv::Point2d(x, y);
        ++(uv[1] < 0 ? left : rights);
      }
    ASSERT_GT(left, 0);
    ASSERT_GT(rights, 0);
    EXPECT_GT((right_side / rights - left_side / left).dot(right), 0);
  }
}

TEST(Scene, LooksTheSameAtAnySize) {
  for (std::uint32_t i = 40; i < 44; ++i) {
    CaptureSpec small = spec_of(i, Difficulty::gentle), large = small;
    large.size = {960, 720};
    const RenderedPhoto a = render(small), b = render(large);
    cv::Mat3b reduced;
    cv::resize(b.bgr, reduced, small.size, 0, 0, cv::INTER_AREA);
    const cv::Scalar difference = cv::mean(cv::Mat(cv::abs(cv::Mat3i(a.bgr) - cv::Mat3i(reduced))));
    EXPECT_LT((difference[0] + difference[1] + difference[2]) / 3, 9.0) << "individual " << i;
    for (std::size_t k = 0; k < 65; ++k)
      EXPECT_LT(cv::norm(a.truth.midline[k] * 3 - b.truth.midline[k]), 1.0);
  }
}

TEST(Scene, SubjectsThatAreNotABellyHaveNone) {
  for (const Subject subject : {Subject::back, Subject::empty_tray, Subject::leaf, Subject::small_newt}) {
    CaptureSpec spec = spec_of(50);
    spec.subject = subject;
    const RenderedPhoto photo = render(spec);
    EXPECT_EQ(cv::countNonZero(photo.truth.belly), 0);
    EXPECT_EQ(cv::countNonZero(photo.truth.clear), 0);
    EXPECT_TRUE(photo.truth.midline.empty());
    const bool animal = subject == Subject::back || subject == Subject::small_newt;
    EXPECT_EQ(cv::countNonZero(photo.truth.animal) > 0, animal);
  }
  CaptureSpec blurred = spec_of(51);
  blurred.subject = Subject::blurred;
  const Truth t = render(blurred).truth;
  EXPECT_GT(cv::countNonZero(t.belly), 0);
  EXPECT_EQ(cv::countNonZero(t.clear), 0);
}

TEST(Scene, WithoutListsAreKeptAndUnknownNamesRefused) {
  CaptureSpec spec = spec_of(60);
  spec.conditions.without_backgrounds = backgrounds();
  spec.conditions.without_backgrounds.pop_back();
  spec.conditions.only_lights = {"sun"};
  spec.conditions.only_mechanisms = {"net"};
  const Truth t = render(spec).truth;
  EXPECT_EQ(t.background, backgrounds().back());
  EXPECT_EQ(t.light, "sun");
  EXPECT_EQ(t.mechanism, "net");
  spec.conditions.only_lights = {"moonlight"};
  EXPECT_THROW(render(spec), std::invalid_argument);
  spec.conditions.only_lights = {};
  spec.conditions.without_lights = lights();
  EXPECT_THROW(render(spec), std::invalid_argument);
}

}  // namespace
}  // namespace evet::render
