// Spreadsheets that general-purpose libraries wrote (tests/data/sheets), and such as were made to harm.
#include "tools/intake/workbook.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <zip.h>

#include <fstream>
#include <sstream>

#include "tools/intake/read_sheet.h"

namespace evet {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

std::string bytes_of(const std::string& name) {
  std::ostringstream text;
  text << std::ifstream(std::string(EVET_TEST_DATA) + "/sheets/" + name, std::ios::binary).rdbuf();
  return text.str();
}

Sheet read(const std::string& file) {
  return read_sheet(file, {.today = std::chrono::year(2026) / 6 / 1});
}

using Parts = std::vector<std::pair<std::string, std::string>>;

std::string packed(const Parts& parts) {
  zip_error_t error;
  zip_source_t* source = zip_source_buffer_create(nullptr, 0, 0, &error);
  zip_source_keep(source);
  zip_t* zip = zip_open_from_source(source, ZIP_TRUNCATE, &error);
  for (const auto& [name, text] : parts)
    zip_file_add(zip, name.c_str(), zip_source_buffer(zip, text.data(), text.size(), 0), 0);
  EXPECT_EQ(zip_close(zip), 0);
  zip_source_open(source);
  std::string out(1U << 22, '\0');
  out.resize(static_cast<std::size_t>(zip_source_read(source, out.data(), out.size())));
  zip_source_close(source);
  zip_source_free(source);
  return out;
}
std::string xlsx(const std::string& rows) {
  return packed({{"xl/workbook.xml", "<workbook><sheets><sheet name='n'/></sheets></workbook>"},
                 {"xl/worksheets/sheet1.xml", "<worksheet><sheetData>" + rows + "</sheetData></worksheet>"}});
}
std::string told(const std::string& file) {
  const Sheet sheet = read(file);
  EXPECT_TRUE(sheet.rows.empty());
  return sheet.problems.empty() ? "nothing" : sheet.problems.front().sentence();
}

TEST(Workbook, TheSameNightInBothKinds) {
  for (const char* name : {"night.xlsx", "night.ods"}) {
    const Sheet sheet = read(bytes_of(name));
    for (const SheetProblem& problem : sheet.problems) ADD_FAILURE() << name << ": " << problem.sentence();
    ASSERT_EQ(sheet.rows.size(), 3u) << name;
    EXPECT_EQ(sheet.captures.size(), 2u);
    EXPECT_EQ(sheet.rows[0].night, "2024-05-14");
    EXPECT_EQ(sheet.rows[1].night, "2024-05-14") << "with a time of day";
    EXPECT_EQ(sheet.rows[2].night, "2024-05-14") << "text in another order";
    EXPECT_EQ(sheet.rows[0].svl_mm, 71.3);
    EXPECT_EQ(sheet.rows[0].notes, "tail tip missing, healed");
    EXPECT_EQ(sheet.rows[1].notes, "Ünder the »throat«");
    EXPECT_EQ(sheet.rows[0].released, true);
    EXPECT_EQ(sheet.rows[2].released, false);
    EXPECT_EQ(sheet.rows[2].capture, "2") << "a number is its shortest text";
    EXPECT_EQ(sheet.rows[2].line, 5u) << "rows are counted as the spreadsheet shows them";
  }
}

TEST(Workbook, WhatIsDamagedOrNoneIsSaid) {
  for (const char* name : {"night.xlsx", "night.ods"}) {
    const std::string whole = bytes_of(name);
    for (std::size_t size = 4; size < whole.size(); size += whole.size() / 23 + 1)
      EXPECT_THAT(told(whole.substr(0, size)), HasSubstr("damaged"));
  }
  EXPECT_THAT(told(packed({{"word/document.xml", "<a/>"}})), HasSubstr("holds no spreadsheet"));
  EXPECT_THAT(told(packed({{"xl/workbook.xml", "<workbook"}})), HasSubstr("damaged"));
  EXPECT_THAT(told(packed({{"content.xml", "<document-content/>"}})), HasSubstr("no table"));
  EXPECT_THAT(told(std::string("\xD0\xCF\x11\xE0", 4) + std::string(600, '\0')),
              HasSubstr("old spreadsheet"));
}

TEST(Workbook, WhatIsMadeToHarmIsBounded) {
  // A part that unpacks to a hundred times its size.
  EXPECT_THAT(told(packed({{"xl/workbook.xml", "<workbook/>"},
                           {"xl/worksheets/sheet1.xml", std::string(34U << 20, ' ')}})),
              HasSubstr("too large"));
  EXPECT_THAT(told(xlsx("<row r='1'><c r='ZZZZ1'><v>1</v></c></row>")), HasSubstr("in column"));
  EXPECT_THAT(told(xlsx("<row r='1'><c t='s'><v>7</v></c></row>")), HasSubstr("damaged")) << "no such text";
  EXPECT_THAT(told(xlsx("<row r='2'/><row r='1'/>")), HasSubstr("damaged"));
  // Nothing outside the file is read: a document type is left unread.
  const std::string lure =
      "<!DOCTYPE a [<!ENTITY x SYSTEM 'file:///etc/passwd'>]><worksheet><sheetData><row><c t='inlineStr'>"
      "<is><t>&x;</t></is></c></row></sheetData></worksheet>";
  EXPECT_THAT(told(packed({{"xl/workbook.xml", "<workbook/>"}, {"xl/worksheets/sheet1.xml", lure}})),
              testing::Not(HasSubstr("root")));
  // Rows and columns that say of themselves that they are repeated without end.
  const std::string repeated =
      "<document-content><body><spreadsheet><table><table-row number-rows-repeated='999999999'><table-cell "
      "value-type='string' number-columns-repeated='999999999'><p>x</p></table-cell></table-row></table>"
      "</spreadsheet></body></document-content>";
  EXPECT_THAT(told(packed({{"content.xml", repeated}})), HasSubstr("in column"));
  const std::string rows =
      "<document-content><body><spreadsheet><table><table-row number-rows-repeated='999999999'><table-cell "
      "value-type='string'><p>x</p></table-cell></table-row></table></spreadsheet></body></document-content>";
  EXPECT_THAT(told(packed({{"content.xml", rows}})), HasSubstr("more than 200000 rows"));
  std::string deep = "<document-content><body><spreadsheet><table>";
  for (int i = 0; i < 100'000; ++i) deep += "<table-row-group>";
  EXPECT_THAT(told(packed({{"content.xml", deep}})), HasSubstr("damaged"));
}

TEST(Workbook, DatesAreTheDaysThatTheSpreadsheetShows) {
  // ECMA-376 part 1, 18.17.4.1: in the 1900 system 1 March 1900 is 61; 45426 is 14 May 2024 (worked out from that).
  const std::string styles =
      "<styleSheet><cellXfs><xf numFmtId='0'/><xf numFmtId='14'/></cellXfs></styleSheet>";
  const auto night = [&](const std::string& value, const std::string& properties) {
    const std::string rows =
        "<row><c t='str'><v>night</v></c></row><row><c s='1'><v>" + value + "</v></c></row>";
    const auto read = read_workbook(
        packed({{"xl/workbook.xml", "<workbook>" + properties + "</workbook>"},
                {"xl/styles.xml", styles},
                {"xl/worksheets/sheet1.xml", "<worksheet><sheetData>" + rows + "</sheetData></worksheet>"}}),
        {});
    return std::get<std::vector<CsvRecord>>(read).at(1).fields.at(0);
  };
  EXPECT_EQ(night("61", ""), "1900-03-01");
  EXPECT_EQ(night("45426", ""), "2024-05-14");
  EXPECT_EQ(night("45426.94", ""), "2024-05-14");
  EXPECT_EQ(night("43964", "<workbookPr date1904='1'/>"), "2024-05-14");
}

}  // namespace
}  // namespace evet
