// Bytes of a pattern that lay on a disk: what make_pattern() gives comes back as it was, and nothing that it
// never gives comes back at all, whoever wrote it.
#include "matcher/catalogue/pattern_bytes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <limits>
#include <random>

#include "matcher/pattern/describe.h"

namespace evet {
namespace {

Pattern drawn() {
  Pattern pattern;
  pattern.map.dark = cv::Mat1b(kMapRows, kMapCols, uchar{20});
  pattern.map.valid = cv::Mat1b(kMapRows, kMapCols, uchar{255});
  pattern.map.dark(cv::Rect(10, 20, 8, 9)) = 240;
  pattern.spots = {{0.1F, -0.6F, 0.004F, 1.2F, 0.5F}, {0.7F, 0.3F, 0.01F, 2.5F, -1.5F}};
  pattern.code.bits[3] = 0x1234, pattern.code.known[3] = ~0ull;
  pattern.descriptor.assign(kDescriptorLength, 1 / std::sqrt(static_cast<float>(kDescriptorLength)));
  pattern.p_head_right = 0.875;
  return pattern;
}

bool equal(const Pattern& a, const Pattern& b) {
  return bytes_of(a) == bytes_of(b);
}

TEST(PatternBytes, ComeBackAsTheyWere) {
  const auto back = pattern_of(bytes_of(drawn()));
  ASSERT_TRUE(back);
  EXPECT_TRUE(equal(*back, drawn()));
  EXPECT_EQ(back->spots.size(), 2u);
  EXPECT_EQ(back->map.dark(22, 12), 240);
  Pattern blank = drawn();
  blank.map.valid = 0, blank.spots.clear(), blank.descriptor.assign(kDescriptorLength, 0);
  EXPECT_TRUE(pattern_of(bytes_of(blank))) << "a belly of which nothing is seen has no descriptor";
}

// The alignment walks both maps by the canvas' own size: a smaller one was read and written past its end.
TEST(PatternBytes, OfAnotherSizeAreRefused) {
  for (const cv::Size size : {cv::Size(10, 10), cv::Size(kMapRows, kMapCols), cv::Size(0, 0),
                              cv::Size(kMapCols, kMapRows - 1), cv::Size(kMapCols + 1, kMapRows)})
    for (cv::Mat1b SpotMap::*map : {&SpotMap::dark, &SpotMap::valid}) {
      Pattern pattern = drawn();
      pattern.map.*map = cv::Mat1b(size, uchar{0});
      EXPECT_FALSE(pattern_of(bytes_of(pattern))) << size;
    }
}

TEST(PatternBytes, WithNumbersOutOfRangeAreRefused) {
  const float none = std::numeric_limits<float>::quiet_NaN(),
              endless = std::numeric_limits<float>::infinity();
  for (const float bad : {none, endless, -endless, 3e38F, -2.0F}) {
    const std::vector<std::function<void(Pattern&)>> changes = {
        [&](Pattern& p) { p.spots[0].u = bad; },          [&](Pattern& p) { p.spots[1].v = bad; },
        [&](Pattern& p) { p.spots[1].area = bad; },       [&](Pattern& p) { p.spots[0].elongation = bad; },
        [&](Pattern& p) { p.spots[0].angle_rad = bad; },  [&](Pattern& p) { p.descriptor[5] = bad; },
        [&](Pattern& p) { p.descriptor.back() = bad; },   [&](Pattern& p) { p.p_head_right = bad; },
        [&](Pattern& p) { p.descriptor.resize(127, 0); }, [&](Pattern& p) { p.descriptor.resize(4096, 0); },
    };
    for (size_t i = 0; i < changes.size(); ++i) {
      Pattern pattern = drawn();
      changes[i](pattern);
      EXPECT_FALSE(pattern_of(bytes_of(pattern))) << "change " << i << " to " << bad;
    }
  }
}

TEST(PatternBytes, CutShortOrChangedAreNothingOrAPattern) {
  const Bytes whole = bytes_of(drawn());
  for (size_t length = 0; length < whole.size(); ++length)
    EXPECT_FALSE(pattern_of(BytesView(whole).first(length))) << length;
  std::mt19937 random(11);
  for (int trial = 0; trial < 20000; ++trial) {
    Bytes bytes = whole;
    for (unsigned changes = 1 + random() % 3; changes > 0; --changes)
      bytes[random() % bytes.size()] = static_cast<std::byte>(random());
    if (const auto pattern = pattern_of(bytes)) {
      EXPECT_EQ(pattern->map.dark.rows, kMapRows);
      EXPECT_EQ(pattern->map.valid.cols, kMapCols);
      EXPECT_EQ(pattern->descriptor.size(), static_cast<size_t>(kDescriptorLength));
      for (const Spot& spot : pattern->spots) EXPECT_TRUE(std::isfinite(spot.u + spot.v + spot.angle_rad));
    }
  }
}

}  // namespace
}  // namespace evet
