#include <gtest/gtest.h>

#include <thread>

#include "matcher/base/error.h"
#include "matcher/search/compare.h"
#include "matcher/search/join_patterns.h"
#include "matcher/search/rank.h"
#include "tests/matcher/search/synthetic_maps.h"

namespace evet {
namespace {

SpotMap seen(unsigned individual, unsigned capture) {
  const SpotMap map = synthetic::spotted(individual * 7919 + 1, 15 + static_cast<int>(individual % 25));
  const double shift = 0.01 * (capture % 5) - 0.02;
  return synthetic::warped(map, {.u_shift = shift, .v_shift = 4 * shift}, 0.006, individual * 31 + capture);
}

GalleryEntry entry(unsigned individual, unsigned capture) {
  const std::string id = std::to_string(individual), c = id + "-" + std::to_string(capture);
  return {IndividualId("animal " + id),
          CaptureId("capture " + c),
          PhotoId("photo " + c),
          pattern_of(seen(individual, capture), 1),
          {}};
}

QueryCapture query(unsigned individual, unsigned first_capture, int photos = 1) {
  QueryCapture out{CaptureId("query " + std::to_string(individual)), {}, {}};
  for (int i = 0; i < photos; ++i) {
    const unsigned capture = first_capture + static_cast<unsigned>(i);
    out.photos.push_back(
        {PhotoId("query photo " + std::to_string(capture)), pattern_of(seen(individual, capture), 1)});
  }
  return out;
}

std::vector<GalleryEntry> entries(unsigned individuals) {
  std::vector<GalleryEntry> out;
  for (unsigned i = 0; i < individuals; ++i) {
    out.push_back(entry(i, 0));
    if (i % 2) out.push_back(entry(i, 1));
  }
  return out;
}

double total(const RankedCapture& ranked) {
  double sum = ranked.new_probability;
  for (const Candidate& c : ranked.candidates) sum += c.probability;
  return sum;
}

TEST(Gallery, RanksTheSameAnimalFirstAndUnknownOnesAsNew) {
  const Gallery gallery(entries(40));
  for (unsigned i = 0; i < 40; i += 3) {
    const RankedCapture ranked = gallery.rank(query(i, 7));
    ASSERT_GE(ranked.candidates.size(), 10U);
    EXPECT_EQ(ranked.candidates[0].individual.value, "animal " + std::to_string(i));
    EXPECT_GT(ranked.candidates[0].probability, 0.9) << i;
    EXPECT_GT(ranked.candidates[0].matched_spots, 5) << i;
    EXPECT_NEAR(total(ranked), 1, 1e-12);
  }
  for (unsigned i = 100; i < 110; ++i) {
    const RankedCapture ranked = gallery.rank(query(i, 7));
    EXPECT_GT(ranked.new_probability, 0.7) << i;
    EXPECT_NEAR(total(ranked), 1, 1e-12);
  }
}

// The oracle: a gallery that never held them.
TEST(Gallery, WhatASearchLeavesOutMightAsWellNotBeThere) {
  std::vector<GalleryEntry> all = entries(16), without_animal, without_captures;
  LeaveOut one_animal{{}, IndividualId("animal 3")},
      night{{CaptureId("capture 3-1"), CaptureId("capture 4-0")}, {}};
  for (const GalleryEntry& e : all) {
    if (e.individual != one_animal.individual) without_animal.push_back(e);
    if (!night.captures.contains(e.capture)) without_captures.push_back(e);
  }
  const Gallery gallery(all);
  const auto expect_equal = [](const RankedCapture& a, const RankedCapture& b) {
    ASSERT_EQ(a.candidates.size(), b.candidates.size());
    for (size_t i = 0; i < a.candidates.size(); ++i) {
      EXPECT_EQ(a.candidates[i].individual, b.candidates[i].individual);
      EXPECT_EQ(a.candidates[i].best_photo, b.candidates[i].best_photo);
      EXPECT_DOUBLE_EQ(a.candidates[i].score, b.candidates[i].score);
      EXPECT_DOUBLE_EQ(a.candidates[i].probability, b.candidates[i].probability);
    }
    EXPECT_DOUBLE_EQ(a.new_probability, b.new_probability);
  };
  expect_equal(gallery.rank(query(3, 7), one_animal), Gallery(without_animal).rank(query(3, 7)));
  expect_equal(gallery.rank(query(3, 7), night), Gallery(without_captures).rank(query(3, 7)));
  expect_equal(gallery.rank(query(3, 7)), Gallery(all).rank(query(3, 7)));
}

// The oracle: the ranking of everybody, conditioned on its not being them.
TEST(Gallery, WhoIsRuledOutLeavesTheOthersInProportion) {
  SearchOptions options;
  options.keep = 40;
  const Gallery gallery(entries(16), options);
  const RankedCapture all = gallery.rank(query(3, 7));
  ASSERT_EQ(all.candidates[0].individual, IndividualId("animal 3"));
  const std::set<IndividualId> two{all.candidates[0].individual, all.candidates[4].individual};
  const RankedCapture rest = gallery.rank(query(3, 7), {.ruled_out = two});
  ASSERT_EQ(rest.candidates.size() + 2, all.candidates.size());
  EXPECT_NEAR(total(rest), 1, 1e-12);
  for (const Candidate& one : rest.candidates) {
    ASSERT_FALSE(two.contains(one.individual));
    const auto before =
        std::find_if(all.candidates.begin(), all.candidates.end(),
                     [&](const Candidate& other) { return other.individual == one.individual; });
    EXPECT_DOUBLE_EQ(one.score, before->score);
    EXPECT_NEAR(one.probability / rest.new_probability, before->probability / all.new_probability, 1e-9);
  }
  EXPECT_NE(rest.advice, Advice::same);
}

TEST(Gallery, TheCatalogueCalibrationActsOnThePatternAloneAndOrderStays) {
  SearchOptions timid;
  timid.calibration = {0.5, -0.5};
  const RankedCapture as_shipped = Gallery(entries(12)).rank(query(3, 7)),
                      mapped = Gallery(entries(12), timid).rank(query(3, 7));
  ASSERT_EQ(as_shipped.candidates[0].individual, mapped.candidates[0].individual);
  EXPECT_DOUBLE_EQ(as_shipped.candidates[0].pattern_llr, mapped.candidates[0].pattern_llr);
  EXPECT_DOUBLE_EQ(as_shipped.candidates[0].score, as_shipped.candidates[0].pattern_llr) << "no facts here";
  EXPECT_LT(mapped.candidates[0].score, as_shipped.candidates[0].score);
  EXPECT_THROW(Gallery({}, {.calibration = {0, 0}}), Error);
}

TEST(Gallery, AnEmptyGallerySaysNew) {
  const RankedCapture ranked = Gallery({}).rank(query(1, 0));
  EXPECT_TRUE(ranked.candidates.empty());
  EXPECT_EQ(ranked.new_probability, 1);
  EXPECT_EQ(ranked.advice, Advice::new_individual);
}

TEST(Gallery, ACaptureWithoutPhotosIsRefusedByName) {
  const Gallery gallery(entries(2));
  try {
    gallery.rank({CaptureId("c9"), {}, {}});
    FAIL() << "nothing was thrown";
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::bad_input);
    EXPECT_NE(std::string(error.what()).find("c9"), std::string::npos);
  }
}

TEST(Gallery, TheShortlistGivesTheSameBestAsComparingEveryone) {
  const Gallery all(entries(40), {.shortlist = 1000}), few(entries(40), {.shortlist = 10});
  for (unsigned i = 1; i < 40; i += 5)
    EXPECT_EQ(all.rank(query(i, 9)).candidates[0].individual, few.rank(query(i, 9)).candidates[0].individual);
}

TEST(Gallery, TheOrderOfTheEntriesDoesNotMatter) {
  std::vector<GalleryEntry> forward = entries(15), backward(forward.rbegin(), forward.rend());
  const RankedCapture a = Gallery(forward).rank(query(3, 8, 2)), b = Gallery(backward).rank(query(3, 8, 2));
  ASSERT_EQ(a.candidates.size(), b.candidates.size());
  for (size_t i = 0; i < a.candidates.size(); ++i) {
    EXPECT_EQ(a.candidates[i].individual, b.candidates[i].individual);
    EXPECT_EQ(a.candidates[i].probability, b.candidates[i].probability);
    EXPECT_EQ(a.candidates[i].best_photo, b.candidates[i].best_photo);
  }
}

TEST(Gallery, ManyThreadsGiveTheSameBytesAsOne) {
  const Gallery gallery(entries(20));
  std::vector<RankedCapture> alone(8), together(8);
  for (unsigned i = 0; i < 8; ++i) alone[i] = gallery.rank(query(i, 5));
  std::vector<std::thread> threads;
  for (unsigned i = 0; i < 8; ++i) threads.emplace_back([&, i] { together[i] = gallery.rank(query(i, 5)); });
  for (std::thread& thread : threads) thread.join();
  for (unsigned i = 0; i < 8; ++i) {
    ASSERT_EQ(alone[i].candidates.size(), together[i].candidates.size());
    EXPECT_EQ(alone[i].new_probability, together[i].new_probability);
    for (size_t k = 0; k < alone[i].candidates.size(); ++k)
      EXPECT_EQ(alone[i].candidates[k].score, together[i].candidates[k].score);
  }
}

// The oracle: the same photos, and what they show together, each searched as a capture of its own.
TEST(Gallery, PhotosOfOneCaptureCountAsTheirMeanBesideWhatTheyShowTogether) {
  const Gallery gallery(entries(12));
  const SpotMap skin = seen(4, 7);
  const Pattern upper = pattern_of(synthetic::covered(skin, {0, 120, 80, 136}), 1),
                lower = pattern_of(synthetic::covered(seen(4, 9), {0, 0, 80, 70}), 1);
  const auto of_animal = [&](std::vector<QueryPhoto> photos) {
    const RankedCapture ranked = gallery.rank({CaptureId("c"), std::move(photos), {}});
    EXPECT_EQ(ranked.candidates[0].individual.value, "animal 4");
    return ranked.candidates[0];
  };
  const JoinedPattern joined = join_patterns({upper, lower});
  ASSERT_EQ(joined.used.size(), 2U);
  const QueryPhoto a{PhotoId("upper"), upper}, b{PhotoId("lower"), lower};
  const Candidate both = of_animal({a, b});
  const double alone = (of_animal({a}).pattern_llr + of_animal({b}).pattern_llr) / 2,
               together = of_animal({{PhotoId("joined"), joined.pattern}}).pattern_llr;
  EXPECT_NEAR(both.pattern_llr, (alone + together) / 2, 1e-9);
  EXPECT_TRUE(both.query_photo.value == "upper" || both.query_photo.value == "lower")
      << "the evidence shown is a photo's, not what was made of both";
}

TEST(Gallery, TheSamePhotoTwiceCountsAsOne) {
  const Gallery gallery(entries(12));
  QueryCapture once = query(5, 7), twice = once;
  twice.photos.push_back(twice.photos[0]);
  EXPECT_NEAR(gallery.rank(once).candidates[0].pattern_llr, gallery.rank(twice).candidates[0].pattern_llr,
              0.05);
}

// A photo that went astray must not be outvoted in silence.
TEST(Gallery, APhotoOfAnotherAnimalAmongThemLowersTheProbability) {
  const Gallery gallery(entries(12));
  QueryCapture pure = query(5, 7), mixed = pure;
  mixed.photos.push_back({PhotoId("astray"), pattern_of(seen(50, 7), 1)});
  EXPECT_LT(gallery.rank(mixed).candidates[0].pattern_llr, gallery.rank(pure).candidates[0].pattern_llr - 1);
}

TEST(Gallery, OptionsAreChecked) {
  EXPECT_THROW(Gallery({}, {.shortlist = 0}), Error);
  EXPECT_THROW(Gallery({}, {.prior_recapture = 1}), Error);
  EXPECT_THROW(Gallery({}, {.wrong_join_over_missed = 0}), Error);
}

}  // namespace
}  // namespace evet
