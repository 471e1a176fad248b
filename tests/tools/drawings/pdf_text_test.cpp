#include "tools/drawings/pdf_text.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

// ISO 32000-1, 7.3.4.2: brackets and backslashes are escaped, octal codes are three digits; WinAnsiEncoding has letters of
// ISO 8859-1 at their own places (annex D.2).
TEST(PdfText, WritesLettersThatTheFontHas) {
  EXPECT_EQ(pdf_text("50 mm (a\\b)"), "50 mm \\(a\\\\b\\)");
  EXPECT_EQ(pdf_text("Größe à 5 °"), "Gr\\366\\337e \\340 5 \\260");
  EXPECT_EQ(pdf_text(""), "");
}

TEST(PdfText, RefusesWhatItHasNot) {
  for (const char* text : {"\u017bo\u0142w", "\u4e00", "a\nb", "\xc3", "\xc3(", "\xff", "\u0085"})
    EXPECT_FALSE(pdf_text(text)) << text;
}

}  // namespace
}  // namespace evet
