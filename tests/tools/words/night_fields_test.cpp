#include "tools/words/night_fields.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "matcher/base/error.h"

namespace evet {
namespace {

const NightIntake::Visit kNight{"Alder Fen", "", "2031-05-14"};

NightFacts after(const NightFacts& known, const std::map<std::string, std::string>& texts) {
  return changed(known, night_facts_said(kNight, known, texts, ""));
}
std::string refusal(const std::map<std::string, std::string>& texts) {
  try {
    after({}, texts);
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::bad_input);
    return error.what();
  }
  return "taken";
}

// The fields shown are the very ones that the ledger keeps: one of each is written, read and shown again.
TEST(NightFields, EveryFieldThatIsKeptCanBeWrittenAndRead) {
  std::map<std::string, std::string> texts;
  for (const NightField& field : night_fields()) texts[field.key] = field.number ? "12.5" : "words";
  const NightFacts facts = after({}, texts);
  for (const NightField& field : night_fields())
    EXPECT_EQ(field_text(facts, field), texts[field.key]) << field.key;
  EXPECT_EQ(nlohmann::json(facts).size(), night_fields().size());
}

TEST(NightFields, AnEmptyTextTakesAFieldAwayAndOthersStay) {
  const NightFacts known = after({}, {{"method", "torch"}, {"air_c", "7"}});
  const NightFacts now = after(known, {{"air_c", ""}});
  EXPECT_EQ(now.method, "torch");
  EXPECT_FALSE(now.air_c);
}

TEST(NightFields, ADecimalCommaIsUnderstood) {
  EXPECT_EQ(after({}, {{"water_c", "9,5"}}).water_c, 9.5);
}

TEST(NightFields, WhatCannotBeIsNamed) {
  EXPECT_THAT(refusal({{"effort", "a lot"}}), testing::HasSubstr("effort: 'a lot' is not a number"));
  EXPECT_THAT(refusal({{"effort", "12 traps"}}), testing::HasSubstr("is not a number"));
  EXPECT_THAT(refusal({{"effort", "nan"}}), testing::Not(testing::HasSubstr("taken")));
  EXPECT_THAT(refusal({{"moon", "full"}}), testing::HasSubstr("'moon'"));
  EXPECT_THAT(refusal({{"latitude", "52"}}), testing::HasSubstr("longitude: it is missing"));
}

}  // namespace
}  // namespace evet
