#include "matcher/belly/measure_quality.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"

namespace evet {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

Quality good() {
  Quality q;
  q.sharpness = 0.3, q.glare_share = 0, q.dark_share = 0, q.seen_share = 0.95, q.belly_length_px = 900;
  q.bend_deg = 5, q.roll = 0, q.p_belly = 1;
  return q;
}

std::vector<std::string> said(const Quality& q) {
  std::vector<std::string> sentences;
  for (const QualityNote& note : advise(q)) sentences.push_back(note.sentence);
  return sentences;
}

TEST(Advice, AGoodPhotoGetsNone) {
  EXPECT_THAT(said(good()), IsEmpty());
  Quality soft = good();
  soft.sharpness = 0.11;  // soft, and matched as well as any
  EXPECT_THAT(said(soft), IsEmpty());
}

TEST(Advice, SharesAreSaidInPlainWordsAtBothEnds) {
  Quality q = good();
  q.seen_share = 0.002;
  EXPECT_THAT(said(q),
              ElementsAre(testing::StartsWith("nothing of the belly is plainly seen: clear fingers")));
  q.seen_share = 0.31;
  EXPECT_THAT(said(q), ElementsAre(testing::StartsWith("only 31 % of the belly is plainly seen: ")));
  q = good();
  q.glare_share = 0.999;
  EXPECT_THAT(said(q), ElementsAre(testing::StartsWith("reflected light hides all of the belly: ")));
  q = good();
  q.dark_share = 1;
  EXPECT_THAT(said(q), ElementsAre(testing::StartsWith("all of the belly is too dark")));
}

// What hides most decides what is said.
TEST(Advice, WhyABellyIsNotSeenIsSaid) {
  Quality q = good();
  q.seen_share = 0.31;
  const auto told = [&q](const UnseenShares& unseen) { return advise(q, unseen).at(0).sentence; };
  EXPECT_EQ(told({.outside = 0.4, .covered = 0.2}),
            "only 31 % of the belly is plainly seen, the rest lies beyond the edge of the picture: keep "
            "throat and vent in the picture, and photograph again before release");
  EXPECT_THAT(told({.outside = 0.2, .covered = 0.4}), testing::HasSubstr("lying over it: clear fingers"));
  EXPECT_THAT(told({.covered = 0.1, .glare = 0.5}), testing::HasSubstr("reflected light: tilt the tray"));
  EXPECT_THAT(told({.covered = 0.1, .elsewhere = 0.5}), testing::HasSubstr("could not be made out: "));
  q.roll = 0.5;
  EXPECT_THAT(told({.covered = 0.1, .elsewhere = 0.5}), testing::HasSubstr("the rest is turned away: "));
  q.seen_share = 0;
  EXPECT_THAT(told({.outside = 1}), testing::HasSubstr("is plainly seen, it lies beyond the edge"));
}

TEST(Advice, WhatBlocksComesFirst) {
  Quality q = good();
  q.bend_deg = 170, q.sharpness = 0;
  const auto notes = advise(q);
  ASSERT_EQ(notes.size(), 2u);
  EXPECT_TRUE(notes[0].blocks);
  EXPECT_EQ(notes[0].measure, "sharpness");
  EXPECT_FALSE(notes[1].blocks);
}

TEST(Advice, LimitsThatBlockBeforeTheyAdviseAreRefused) {
  QualityLimits limits;
  limits.seen_block = limits.seen_advice + 0.1;
  EXPECT_THROW(advise(good(), {}, limits), Error);
}

}  // namespace
}  // namespace evet
