#include "tools/words/text.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

TEST(Percent, ProbabilitiesNeverReadAsCertain) {
  EXPECT_EQ(percent(1), "more than 99.9 %");
  EXPECT_EQ(percent(0), "less than 0.1 %");
  EXPECT_EQ(percent(0.9973), "99.7 %");
  EXPECT_EQ(percent(0.5), "50 %");
  EXPECT_EQ(percent(0.034), "3.4 %");
}

TEST(Listed, WithAWordBeforeTheLast) {
  const std::vector<std::string> none, one{"a"}, three{"a", "b", "c"};
  EXPECT_EQ(listed(none), "");
  EXPECT_EQ(listed(one), "a");
  EXPECT_EQ(listed(three), "a, b and c");
  EXPECT_EQ(joined(three, ", "), "a, b, c");
}

TEST(Quoted, SafeAndNotTooLong) {
  EXPECT_EQ(in_quotes("IMG 1.jpg"), "'IMG 1.jpg'");
  EXPECT_EQ(in_quotes("a\x1b[2J"), "'a\\x1b[2J'");
  EXPECT_EQ(in_quotes("gpj.\xe2\x80\xae"
                      "exe"),
            "'gpj.\\u{202e}exe'")
      << "text that runs backwards is not let through";
  EXPECT_EQ(in_quotes(std::string(200, 'x')), "'" + std::string(80, 'x') + "...'");
}

}  // namespace
}  // namespace evet
