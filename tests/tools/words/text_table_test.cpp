#include "tools/words/text_table.h"

#include <gtest/gtest.h>

#include <sstream>

namespace evet {
namespace {

TEST(TextTable, ColumnsAreEvenWhateverTheNamesHold) {
  TextTable table({"name", ">n"});
  EXPECT_TRUE(table.empty());
  table.row({"M\xC3\xBChle", "7"});
  table.row({"a\nb", "12"});
  std::ostringstream out;
  table.print(out, false);
  EXPECT_EQ(out.str(), "name    n\nM\xC3\xBChle   7\na\\nb   12\n");
  std::ostringstream coloured;
  table.print(coloured, true);
  EXPECT_TRUE(coloured.str().starts_with("\x1b[1mname    n\x1b[0m\n"));
}

TEST(TextTable, AProbabilityIsNeverRoundedToCertainty) {
  EXPECT_EQ(probability_text(0), "0.00");
  EXPECT_EQ(probability_text(1e-9), "<0.01");
  EXPECT_EQ(probability_text(0.5), "0.50");
  EXPECT_EQ(probability_text(0.9999), ">0.99");
  EXPECT_EQ(probability_text(1), "1.00");
}

}  // namespace
}  // namespace evet
