#include "tools/words/look_reasons.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace evet {
namespace {

using ::testing::ElementsAre;

const LookNames kNames{[](const IndividualId& id) { return "animal " + id.value; },
                       [](const CaptureId& id) { return "capture " + id.value; }};

RankedCapture ranked(std::vector<std::pair<std::string, double>> candidates) {
  RankedCapture out;
  out.capture = CaptureId("c");
  out.new_probability = 1;
  for (const auto& [individual, probability] : candidates) {
    out.candidates.emplace_back();
    out.candidates.back().individual = IndividualId(individual);
    out.candidates.back().probability = probability;
    out.new_probability -= probability;
  }
  return out;
}

std::vector<std::string> codes(const std::vector<Message>& reasons) {
  std::vector<std::string> out;
  for (const Message& one : reasons) out.emplace_back(one.code());
  return out;
}

TEST(LookReasons, SayWhatThePatternLeavesOpen) {
  const auto two = look_reasons(ranked({{"A", 0.6}, {"B", 0.3}}), {}, {}, kNames);
  EXPECT_THAT(in_words(two), ElementsAre("two candidates close: animal A 60 %, animal B 30 %"));
  EXPECT_THAT(codes(two), ElementsAre("two_close"));
  const auto one = look_reasons(ranked({{"A", 0.8}}), {}, {}, kNames);
  EXPECT_THAT(in_words(one), ElementsAre("likely animal A, but only 80 %"));
  EXPECT_EQ(one[0].argument("p"), "80 %");
  EXPECT_THAT(in_words(look_reasons(ranked({{"A", 0.2}}), {}, {}, kNames)), ElementsAre("perhaps new: 80 %"));
}

TEST(LookReasons, TellWhatReadersSaidBeforeWhatThePatternSays) {
  PeopleSaid people;
  people.disputed = true;
  people.cannot_tell = {{CaptureId("d"), IndividualId("B"), true, "KM", "2031-05-15"}};
  const auto said = look_reasons(ranked({{"A", 0.999}}), people, {}, kNames);
  EXPECT_THAT(in_words(said),
              ElementsAre("readers contradict each other",
                          "could not be told from animal B by KM on 2031-05-15", "likely animal A: 99.9 %"));
  people.different = {{CaptureId("d"), IndividualId(), true, "KM", "2031-05-15"}};
  EXPECT_THAT(in_words(ruled_out_words(people, kNames)),
              ElementsAre("not capture d: said to be different by KM on 2031-05-15"));
}

TEST(LookReasons, AMatchOfTheNightIsToldWhateverIsAdvised) {
  RankedCapture capture = ranked({{"A", 0.01}});
  capture.advice = Advice::new_individual;
  capture.night_matches = {{CaptureId("d"), 0.4}, {CaptureId("e"), 0.01}};
  EXPECT_THAT(codes(look_reasons(capture, {}, {}, kNames)), ElementsAre("may_be_one_new_animal"));
}

}  // namespace
}  // namespace evet
