#include "matcher/base/printable.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

TEST(Printable, KeepsTextAndEscapesTheRest) {
  EXPECT_EQ(printable("Gelbbauch-Tümpel 3 · 北"), "Gelbbauch-Tümpel 3 · 北");
  EXPECT_EQ(printable("a\tb\r\n\x1b[2J\x7f"), "a\\tb\\r\\n\\x1b[2J\\x7f");
  EXPECT_EQ(printable("\xff\xc3"), "\\xff\\xc3");
  EXPECT_EQ(printable("\xc0\xaf"), "\\xc0\\xaf");           // overlong '/'
  EXPECT_EQ(printable("\xed\xa0\x80"), "\\xed\\xa0\\x80");  // a surrogate
  EXPECT_EQ(printable("gpj.\xe2\x80\xae"
                      "exe"),
            "gpj.\\u{202e}exe");
}

TEST(Printable, IsCutWhereItGrowsTooLong) {
  EXPECT_EQ(printable("abcdef", 6), "abcdef");
  EXPECT_EQ(printable("abcdef", 5), "abcde...");
  EXPECT_EQ(printable("ab\n\n", 3), "ab\\n...") << "what is written out counts as written";
}

}  // namespace
}  // namespace evet
