// Held to the examples of RFC 8785 (JSON Canonicalization Scheme): section 3.2.2, section
// 3.2.3 and appendix B.
#include "matcher/catalogue/canonical_json.h"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "matcher/base/error.h"

namespace evet {
namespace {

using nlohmann::json;

TEST(CanonicalJson, GivesTheExampleOfSection322) {
  const json value = read_json(R"({
    "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
    "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
    "literals": [null, true, false]
  })");
  EXPECT_EQ(canonical_json(value),
            "{\"literals\":[null,true,false],"
            "\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],"
            "\"string\":\"\u20ac$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
}

TEST(CanonicalJson, SortsKeysAsInSection323) {
  const json value = read_json(R"({
    "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
    "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
  })");
  const std::string text = canonical_json(value);
  size_t at = 0;
  for (const char* next : {"Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis",
                           "Euro Sign", "Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh"}) {
    const size_t found = text.find(next);
    ASSERT_NE(found, std::string::npos) << next;
    EXPECT_GT(found, at) << next;
    at = found;
  }
}

TEST(CanonicalJson, WritesTheNumbersOfAppendixB) {
  const std::pair<std::uint64_t, const char*> examples[] = {{0x0000000000000000, "0"},
                                                            {0x8000000000000000, "0"},
                                                            {0x0000000000000001, "5e-324"},
                                                            {0x8000000000000001, "-5e-324"},
                                                            {0x7fefffffffffffff, "1.7976931348623157e+308"},
                                                            {0xffefffffffffffff, "-1.7976931348623157e+308"},
                                                            {0x4340000000000000, "9007199254740992"},
                                                            {0xc340000000000000, "-9007199254740992"},
                                                            {0x4430000000000000, "295147905179352830000"},
                                                            {0x44b52d02c7e14af5, "9.999999999999997e+22"},
                                                            {0x44b52d02c7e14af6, "1e+23"},
                                                            {0x44b52d02c7e14af7, "1.0000000000000001e+23"},
                                                            {0x444b1ae4d6e2ef4e, "999999999999999700000"},
                                                            {0x444b1ae4d6e2ef4f, "999999999999999900000"},
                                                            {0x444b1ae4d6e2ef50, "1e+21"},
                                                            {0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7"},
                                                            {0x3eb0c6f7a0b5ed8d, "0.000001"},
                                                            {0x41b3de4355555553, "333333333.3333332"},
                                                            {0x41b3de4355555554, "333333333.33333325"},
                                                            {0x41b3de4355555555, "333333333.3333333"},
                                                            {0x41b3de4355555556, "333333333.3333334"},
                                                            {0x41b3de4355555557, "333333333.33333343"},
                                                            {0xbecbf647612f3696, "-0.0000033333333333333333"},
                                                            {0x43143ff3c1cb0959, "1424953923781206.2"}};
  for (const auto& [bits, text] : examples)
    EXPECT_EQ(canonical_json(json(std::bit_cast<double>(bits))), text) << std::hex << bits;
  for (const std::uint64_t bits : {0x7fffffffffffffffULL, 0x7ff0000000000000ULL})
    EXPECT_THROW(canonical_json(json(std::bit_cast<double>(bits))), Error);
}

TEST(CanonicalJson, WritesWholeNumbersPlainly) {
  EXPECT_EQ(canonical_json({0, -7, 1600, std::int64_t{9007199254740991}}), "[0,-7,1600,9007199254740991]");
}

TEST(CanonicalJson, IsReadBackAsItself) {
  std::mt19937_64 random(7);
  for (int i = 0; i < 20000; ++i) {
    const double value = std::bit_cast<double>(random());
    if (!std::isfinite(value)) continue;
    const std::string text = canonical_json(json(value));
    const json back = read_json(text);
    EXPECT_EQ(back.get<double>(), value) << text;
    EXPECT_EQ(canonical_json(back), text);
  }
}

TEST(CanonicalJson, RefusesTextThatIsNotUtf8) {
  for (const char* wrong :
       {"\xff", "\xc3", "\xc0\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xe2\x82", "a\x80"}) {
    EXPECT_THROW(canonical_json(json(wrong)), Error);
    EXPECT_THROW(canonical_json(json{{wrong, 1}}), Error);
  }
  EXPECT_NO_THROW(canonical_json(json("\xf0\x9f\x98\x80 \xef\xbf\xbf \x7f")));
}

TEST(ReadJson, RefusesWhatIsNotJsonOrTooDeep) {
  for (const char* wrong : {"", "{", "{\"a\":}", "[1,]", "nul", "\"\xff\"", "1e999", "{} {}"})
    EXPECT_THROW(read_json(wrong), Error) << wrong;
  const auto nested = [](int n) { return std::string(n, '[') + std::string(n, ']'); };
  EXPECT_NO_THROW(canonical_json(read_json(nested(64))));
  EXPECT_THROW(read_json(nested(65)), Error);
  EXPECT_THROW(read_json(nested(1000000)), Error);
  EXPECT_NO_THROW(read_json("\"" + std::string(1000, '[') + "\""));
  EXPECT_NO_THROW(read_json(R"(["\"[[", "\\"])"));
}

}  // namespace
}  // namespace evet
