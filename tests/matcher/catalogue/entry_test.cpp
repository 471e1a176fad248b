#include "matcher/catalogue/entry.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/catalogue/canonical_json.h"
#include "tests/matcher/catalogue/every_kind.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;

Entry entry_of(const Body& body) {
  Entry entry;
  entry.id = EntryId("019e6a3b-7c11-7f00-8a2e-3d5b9c40e1f2");
  entry.device = DeviceId("019e6a3b-7c11-7f00-8a2e-3d5b9c40e1f3");
  entry.seq = 4;
  entry.time = "2031-05-14T22:41:07.250+02:00";
  entry.actor = person("R1");
  entry.kind = kind_of(body);
  entry.body = body_text(body);
  entry.prev = std::string(64, '0');
  return entry;
}

TEST(Entry, EveryKindSurvivesTheWayToTextAndBack) {
  std::set<std::string> kinds;
  for (const Body& body : EveryKind().bodies()) {
    const Entry entry = entry_of(body);
    kinds.insert(entry.kind);
    EXPECT_EQ(canonical_json(read_json(entry.body)), entry.body);
    const Body back = body_of(entry);
    EXPECT_EQ(back.index(), body.index());
    EXPECT_EQ(body_text(back), entry.body);
  }
  EXPECT_EQ(kinds.size(), std::variant_size_v<Body>);
}

TEST(Entry, EveryFieldOfAVerdictAndOfACaptureComesBack) {
  const EveryKind every;
  const auto verdict = std::get<Verdict>(body_of(entry_of(every.verdict())));
  EXPECT_EQ(verdict.other, every.a);
  EXPECT_EQ(verdict.answer, Answer::same);
  EXPECT_TRUE(verdict.blind && verdict.planted);
  EXPECT_EQ(verdict.settles, std::vector<EntryId>{every.entry});
  ASSERT_EQ(verdict.evidence.shown.size(), 1u);
  EXPECT_EQ(verdict.evidence.shown[0].matched_spots, 17);
  EXPECT_EQ(verdict.evidence.new_probability, 0.0625);
  EXPECT_EQ(std::get<Capture>(body_of(entry_of(Capture{every.a, every.every_fact()}))).facts,
            every.every_fact());
}

TEST(Entry, TheHashIsThatOfTheCanonicalJsonOfAllItsFields) {
  for (const Body& body : EveryKind().bodies()) {
    const Entry entry = entry_of(body);
    // As FORMAT.md says it, the long way.
    const nlohmann::json whole{{"actor", "R1"},
                               {"actor_kind", "person"},
                               {"body", nlohmann::json::parse(entry.body)},
                               {"device", entry.device.value},
                               {"id", entry.id.value},
                               {"kind", entry.kind},
                               {"prev", entry.prev},
                               {"seq", 4},
                               {"time", entry.time}};
    EXPECT_EQ(hash_of(entry), sha256_hex(canonical_json(whole)));
  }
}

TEST(Entry, AnyChangeChangesTheHash) {
  const Entry entry = entry_of(LabelGiven{EveryKind().a, "Dot"});
  std::set<std::string> hashes{hash_of(entry)};
  std::vector<Entry> changed(9, entry);
  changed[0].id.value.back() = '0';
  changed[1].device.value.back() = '0';
  changed[2].seq = 5;
  changed[3].time.back() = '1';
  changed[4].actor.kind = ActorKind::program;
  changed[5].actor.name = "R2";
  changed[6].kind = "verdict";
  changed[7].body = body_text(LabelGiven{EveryKind().a, "Dash"});
  changed[8].prev.back() = '1';
  for (const Entry& one : changed) EXPECT_TRUE(hashes.insert(hash_of(one)).second);
}

TEST(Entry, UnknownFieldsAreLetBe) {
  Entry entry = entry_of(LabelGiven{EveryKind().a, "Dot"});
  entry.body.insert(entry.body.size() - 1, ",\"later\":[1,2]");
  EXPECT_EQ(std::get<LabelGiven>(body_of(entry)).label, "Dot");
}

TEST(Entry, WhatDoesNotFitIsNamed) {
  const auto refusal = [](const std::string& kind, const std::string& body, ErrorKind expected) {
    Entry entry = entry_of(LabelGiven{});
    entry.kind = kind, entry.body = body;
    try {
      body_of(entry);
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), expected);
      EXPECT_THAT(error.what(), HasSubstr("entry 019e6a3b"));
      return std::string(error.what());
    }
    return std::string("it was taken");
  };
  EXPECT_THAT(refusal("hologram", "{}", ErrorKind::unsupported), HasSubstr("'hologram'"));
  EXPECT_THAT(refusal("label", "{}", ErrorKind::bad_input), HasSubstr("'capture' is missing"));
  EXPECT_THAT(refusal("label", "{\"capture\":\"x\",\"label\":\"\"}", ErrorKind::bad_input),
              HasSubstr("'label'"));
  EXPECT_THAT(refusal("label", "nonsense", ErrorKind::bad_input), HasSubstr("cannot be read"));
  EXPECT_THAT(
      refusal("capture", R"({"capture":"x","facts":{"site":"s","night":"14.5.2031"}})", ErrorKind::bad_input),
      HasSubstr("'14.5.2031' is not a date"));
  EXPECT_THAT(
      refusal("capture", R"({"capture":"x","facts":{"site":"s","night":"2031-05-14","sex":"fermale"}})",
              ErrorKind::bad_input),
      HasSubstr("use female, male or unknown"));
  EXPECT_THAT(
      refusal("night", R"({"nights":["May"],"rows":0,"captures":0,"photos":0})", ErrorKind::bad_input),
      HasSubstr("'May' is not a date"));
  EXPECT_THAT(refusal("night", R"({"nights":[],"rows":0.5,"captures":0,"photos":0})", ErrorKind::bad_input),
              HasSubstr("whole number"));
  EXPECT_THAT(refusal("photo",
                      R"({"photo":")" + std::string(64, 'a') +
                          R"(","capture":"y","bytes":1,"header":{"format":"gif"}})",
                      ErrorKind::bad_input),
              HasSubstr("use jpeg, png, tiff or heic"));
  for (const std::string& no_hash :
       {std::string("x"), std::string(64, 'A'), std::string(65, 'a'), "../" + std::string(61, 'a')})
    EXPECT_THAT(
        refusal("photo", R"({"photo":")" + no_hash + R"(","capture":"y","bytes":1})", ErrorKind::bad_input),
        HasSubstr("64 digits"));
  EXPECT_THAT(
      refusal("merge", R"({"heads":{},"entries":0,"photos":0,"without_file":["x"]})", ErrorKind::bad_input),
      HasSubstr("names what is no photo"));
}

}  // namespace
}  // namespace evet
