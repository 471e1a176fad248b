// CSV: the examples of RFC 4180, section 2 (from memory), what spreadsheets write besides, and what is no CSV.
#include "matcher/base/csv.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows rows_of(std::string_view text, char separator = ',') {
  const CsvReading read = read_csv(text, separator);
  EXPECT_FALSE(read.problem) << read.problem->reason.words();
  Rows rows;
  for (const CsvRecord& record : read.records) rows.push_back(record.fields);
  return rows;
}

TEST(Csv, ReadsTheExamplesOfItsStandard) {
  const Rows two = {{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
  EXPECT_EQ(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), two);
  EXPECT_EQ(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx"), two);  // the last may lack its line end
  EXPECT_EQ(rows_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), two);
  EXPECT_EQ(rows_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(rows_of("\"aaa\",\"b\"\"bb\",\"ccc\""), (Rows{{"aaa", "b\"bb", "ccc"}}));
}

TEST(Csv, ReadsWhatSpreadsheetsWriteBesides) {
  const Rows two = {{"a", "b;c"}, {"", "1,5"}};
  EXPECT_EQ(rows_of("a;\"b;c\"\n;1,5\n", ';'), two);
  EXPECT_EQ(rows_of("a;\"b;c\"\r;1,5\r", ';'), two);
  EXPECT_EQ(rows_of("a , b\n\n   \nc,d\n"), (Rows{{"a", "b"}, {"c", "d"}}));
  EXPECT_EQ(rows_of(""), Rows{});
}

TEST(Csv, KnowsTheLineOnWhichARecordBegins) {
  const CsvReading read = read_csv("a,b\r\n\"1\n2\",x\r\n\r\nlast,y", ',');
  ASSERT_EQ(read.records.size(), 3u);
  EXPECT_EQ(read.records[1].line, 2u);
  EXPECT_EQ(read.records[2].line, 5u);
}

TEST(Csv, NamesTheLineOfAQuoteThatMayNotStandThere) {
  const CsvReading inside = read_csv("a,b\nc,d\"e\n", ',');
  ASSERT_TRUE(inside.problem);
  EXPECT_EQ(inside.problem->line, 2u);
  EXPECT_EQ(inside.problem->reason.wrong.code(), "quote_inside_field");
  const CsvReading open = read_csv("a,b\n\"c,d\ne,f\n", ',');
  ASSERT_TRUE(open.problem);
  EXPECT_EQ(open.problem->line, 2u);
  EXPECT_EQ(open.problem->reason.wrong.code(), "quote_not_closed");
}

TEST(Csv, WhatIsWrittenIsReadAndIsNoFormula) {
  for (const std::string text :
       {"plain", "two words", " blank before", "a,b", "a;b", "say \"no\"", "two\nlines", ""})
    EXPECT_EQ(rows_of(csv_field(text) + ",end"), (Rows{{text, "end"}})) << text;
  for (const std::string formula : {"=1+1", "-1+2", "+1", "@SUM(A1)", "-", "\t=1"})
    EXPECT_EQ(rows_of(csv_field(formula) + ",end"), (Rows{{"'" + formula, "end"}})) << formula;
  for (const std::string number : {"-1", "-1e-05", "12.5"}) EXPECT_EQ(csv_field(number), number);
}

}  // namespace
}  // namespace evet
