#include "matcher/base/utf8.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

// RFC 3629, section 3 (what is not shortest, surrogates, beyond U+10FFFF) and section 7 (examples).
TEST(Utf8, TheExamplesOfTheStandardAreWellFormed) {
  for (const char* text : {"\x41\xE2\x89\xA2\xCE\x91\x2E", "\xED\x95\x9C\xEA\xB5\xAD\xEC\x96\xB4",
                           "\xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E", "\xEF\xBB\xBF\xF0\xA3\x8E\xB4", ""})
    EXPECT_FALSE(first_not_utf8(text)) << text;
}

TEST(Utf8, TheFirstWrongByteIsFound) {
  for (const char* wrong : {"\xC0\x80", "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80", "\xED\xBF\xBF",
                            "\xF4\x90\x80\x80", "\xF0\x80\x80\xAF", "\x80", "\xFF", "\xE2\x89"}) {
    EXPECT_EQ(first_not_utf8(std::string("ab") + wrong), 2u);
    EXPECT_EQ(first_code_point(wrong).bytes, 0u);
    EXPECT_FALSE(utf16_of(wrong));
  }
}

TEST(Utf8, CodePointsAndUnitsOfUtf16) {
  EXPECT_EQ(first_code_point("\xE2\x89\xA2 and more").value, 0x2262u);
  EXPECT_EQ(first_code_point("\xE2\x89\xA2 and more").bytes, 3u);
  EXPECT_EQ(first_code_point("a").bytes, 1u);
  EXPECT_EQ(utf16_of("A\xE2\x89\xA2\xF0\xA3\x8E\xB4"), u"A\u2262\xD84C\xDFB4");  // RFC 2781's way
  EXPECT_EQ(utf16_of(""), u"");
  EXPECT_EQ(utf8_of(u"A\u2262\xD84C\xDFB4"), "A\xE2\x89\xA2\xF0\xA3\x8E\xB4");
  EXPECT_EQ(utf8_of(u""), "");
  for (const std::u16string_view half : {u"\xD84C", u"\xDFB4", u"\xD84C\x41"}) EXPECT_FALSE(utf8_of(half));
}

}  // namespace
}  // namespace evet
