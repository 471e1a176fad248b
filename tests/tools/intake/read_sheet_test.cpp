#include "tools/intake/read_sheet.h"

#include <gmock/gmock.h>

#include <chrono>
#include <random>

namespace evet {
namespace {

using namespace std::chrono_literals;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr SheetOptions kOptions{.today = std::chrono::year(2026) / 6 / 1};

Sheet read(const std::string& text) {
  return read_sheet(text, kOptions);
}

std::vector<std::string> sentences(const Sheet& sheet) {
  std::vector<std::string> all;
  for (const SheetProblem& problem : sheet.problems) all.push_back(problem.sentence());
  return all;
}

// One wrong row under a full header: what is said about it.
std::string said(const std::string& columns, const std::string& cells) {
  const Sheet sheet =
      read("photo,site,night,licence," + columns + "\na.jpg,Moor,2024-05-14,L1," + cells + "\n");
  EXPECT_EQ(sheet.problems.size(), 1u) << cells;
  EXPECT_THAT(sheet.rows, IsEmpty()) << cells;
  return sheet.problems.empty() ? "" : sheet.problems[0].sentence();
}
std::string said_of_night(const std::string& night) {
  const Sheet sheet = read("photo,site,night,licence\na.jpg,Moor," + night + ",L1\n");
  EXPECT_EQ(sheet.problems.size(), 1u) << night;
  return sheet.problems.empty() ? "" : sheet.problems[0].sentence();
}

// A program, as the page is one, goes by the code and asks for an argument; it reads no sentence.
TEST(NightSheet, ProblemsCarryACodeAndArguments) {
  const Sheet sheet = read("photo,site,night,licence\na.jpg,Moor,2031-05-14,L1\nb.jpg,Moor,2024-05-14,\n");
  ASSERT_EQ(sheet.problems.size(), 2u);
  EXPECT_EQ(sheet.problems[0].line, 2u);
  EXPECT_EQ(sheet.problems[0].column, "night");
  EXPECT_EQ(sheet.problems[0].reason.wrong.code(), "in_the_future");
  EXPECT_EQ(sheet.problems[0].reason.wrong.argument("today"), "2026-06-01");
  EXPECT_EQ(sheet.problems[1].reason.wrong.code(), "cell_empty");
  EXPECT_EQ(sheet.problems[1].reason.right->argument("column"), "licence");
}

TEST(NightSheet, ReadsEveryColumnInAnyOrder) {
  const Sheet sheet = read(
      "notes,Longitude,latitude,licence,observer,Released,mass_g,total_mm,svl_mm,stage,sex,capture,trap,"
      "night,pond,"
      "site,photo,"
      "individual\n"
      "\"tail nick, left\",7.5,51.25,L-1,ob1,No,9.5,131,68,Adult,F,c1,T3,2024-05-14,North,Moor,IMG "
      "1.jpg,T-7\n");
  ASSERT_THAT(sentences(sheet), IsEmpty());
  ASSERT_EQ(sheet.rows.size(), 1u);
  const SheetRow& row = sheet.rows[0];
  EXPECT_EQ(row.line, 2u);
  EXPECT_EQ(row.photo, "IMG 1.jpg");
  EXPECT_EQ(row.site, "Moor");
  EXPECT_EQ(row.pond, "North");
  EXPECT_EQ(row.night, "2024-05-14");
  EXPECT_EQ(row.trap, "T3");
  EXPECT_EQ(row.capture, "c1");
  EXPECT_EQ(row.sex, Sex::female);
  EXPECT_EQ(row.stage, "adult");
  EXPECT_EQ(row.svl_mm, 68);
  EXPECT_EQ(row.total_mm, 131);
  EXPECT_EQ(row.mass_g, 9.5);
  EXPECT_EQ(row.released, false);
  EXPECT_EQ(row.observer, "ob1");
  EXPECT_EQ(row.licence, "L-1");
  EXPECT_EQ(row.latitude, 51.25);
  EXPECT_EQ(row.longitude, 7.5);
  EXPECT_EQ(row.individual, "T-7");
  EXPECT_EQ(row.notes, "tail nick, left");
}

// The same sheet as five programs would save it.
TEST(NightSheet, SeparatorsLineEndsAndByteOrderMarkMakeNoDifference) {
  const std::string plain =
      "photo,site,night,licence,svl_mm,notes\na.jpg,Tümpel,2024-05-14,L1,68.5,\"two\nlines\"\nb.jpg,Tümpel,"
      "2024-05-14,L1,,\n";
  std::string semicolons = plain, crlf, cr = plain;
  std::replace(semicolons.begin(), semicolons.end(), ',', ';');
  semicolons.replace(semicolons.find("68.5"), 4, "68,5");
  for (const char c : plain) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  std::replace(cr.begin(), cr.end(), '\n', '\r');
  for (const std::string& text :
       {plain, "\xEF\xBB\xBF" + plain, semicolons, crlf, "\xEF\xBB\xBF" + crlf, cr}) {
    const Sheet sheet = read(text);
    ASSERT_THAT(sentences(sheet), IsEmpty()) << text;
    ASSERT_EQ(sheet.rows.size(), 2u) << text;
    EXPECT_EQ(sheet.rows[0].site, "Tümpel");
    EXPECT_EQ(sheet.rows[0].svl_mm, 68.5);
    EXPECT_THAT(sheet.rows[0].notes, HasSubstr("lines"));
    EXPECT_EQ(sheet.rows[1].line, 4u) << "a quoted line end counts as a line";
    EXPECT_EQ(sheet.rows[1].svl_mm, std::nullopt);
  }
}

TEST(NightSheet, RowsOfASpreadsheetThatHoldOnlySeparatorsAreNoRows) {
  const Sheet sheet = read("photo;site;night;licence\na.jpg;M;2024-05-14;L\n;;;\n\n;;;\n");
  EXPECT_THAT(sentences(sheet), IsEmpty());
  EXPECT_EQ(sheet.rows.size(), 1u);
}

TEST(NightSheet, EachWrongCellIsNamedWithItsLineAndWhatWouldBeRight) {
  EXPECT_EQ(said("sex", "fermale"),
            "line 2, sex: 'fermale' is not known; did you mean female? write female, male or unknown, or "
            "leave it empty");
  EXPECT_EQ(said("stage", "adlut"),
            "line 2, stage: 'adlut' is not known; did you mean adult? write adult, subadult, juvenile or "
            "metamorph, or "
            "leave it empty");
  EXPECT_EQ(said("latitude,longitude", "510,7.5"),
            "line 2, latitude: '510' is out of range; write a number of degrees from -90 to 90");
  EXPECT_EQ(said("latitude,longitude", "51,"),
            "line 2, longitude: is empty; give both latitude and longitude, or neither");
  EXPECT_EQ(said("svl_mm", "6.8"),
            "line 2, svl_mm: '6.8' is out of range; write a number of millimetres from 10 to 150");
  EXPECT_EQ(said("svl_mm", "68 mm"),
            "line 2, svl_mm: '68 mm' is not a number; write a number of millimetres from 10 to 150, without "
            "the unit");
  EXPECT_EQ(
      said("released", "dead"),
      "line 2, released: 'dead' is neither yes nor no; write no if the animal died or was not released, "
      "yes or nothing if it was; more goes into notes");
  EXPECT_THAT(said("svl_mm,total_mm", "130,68"), HasSubstr("total_mm: is less than svl_mm"));
  for (const char* bad : {"nan", "inf", "0x10", "--5", "1e999", "1,2,3"}) {
    const std::string cell = std::string("\"") + bad + "\"";
    EXPECT_THAT(said("mass_g", cell), HasSubstr("is not a number")) << bad;
  }
}

TEST(NightSheet, ANightWithoutACatchIsARowWhosePhotoIsNone) {
  const Sheet sheet = read(
      "photo,site,pond,night,licence,trap,notes\n"
      "None,Moor,North,2024-05-14,L1,,rain\n"
      "a.jpg,Moor,North,2024-05-15,L1,T1,\n"
      "none,Moor,North,2024-05-15,L1,T2,\n"
      "none,Moor,South,2024-05-15,L1,,\n");
  ASSERT_THAT(sentences(sheet), IsEmpty());
  EXPECT_EQ(sheet.rows.size(), 1u);
  ASSERT_EQ(sheet.no_catches.size(), 3u);
  EXPECT_EQ(sheet.no_catches[0].line, 2u);
  EXPECT_EQ(sheet.no_catches[0].night, "2024-05-14");
  EXPECT_EQ(sheet.no_catches[2].pond, "South");
  EXPECT_THAT(sentences(read("photo,site,night,licence\nnone,Moor,2024-05-14,L1\n")), IsEmpty());
}

TEST(NightSheet, NoCatchAndACatchAtOnceAreNamed) {
  const std::string head = "photo,site,pond,night,licence,trap,sex\n",
                    caught = "a.jpg,Moor,N,2024-05-15,L1,T1,f\n";
  EXPECT_THAT(
      sentences(read(head + caught + "none,Moor,N,2024-05-15,L1,,\n")),
      ElementsAre("line 3, photo: says that nothing was caught, but line 2 names a photo of the same night "
                  "and place; take one of the two out, or mend its night or place"));
  EXPECT_THAT(sentences(read(head + caught + "none,Moor,N,2024-05-15,L1,T1,\n")),
              ElementsAre(HasSubstr("of the same night at this trap")));
  EXPECT_THAT(
      sentences(read(head + "none,Moor,N,2024-05-15,L1,,f\n")),
      ElementsAre("line 2, sex: is given, but photo says that nothing was caught; leave it empty, or name "
                  "the photo of the animal"));
  EXPECT_THAT(sentences(read(head + "none,,N,2024-05-32,L1,,\n")),
              ElementsAre(HasSubstr("line 2, site: is empty"), HasSubstr("line 2, night:")));
  EXPECT_THAT(
      sentences(read(head + ",Moor,N,2024-05-15,L1,,\n")),
      ElementsAre(HasSubstr("photo: is empty; write the name of a file in the photos folder, or none if")));
}

TEST(NightSheet, DatesAreCalendarDatesThatHaveHappened) {
  EXPECT_EQ(said_of_night("2024-02-30"),
            "line 2, night: '2024-02-30' is not a date; February 2024 has 29 days");
  EXPECT_THAT(said_of_night("2024-13-01"), HasSubstr("there is no month 13"));
  EXPECT_THAT(said_of_night("2024-00-01"), HasSubstr("there is no month 0"));
  EXPECT_EQ(said_of_night("2026-06-02"),
            "line 2, night: '2026-06-02' is in the future (today is 2026-06-01); write the date on which the "
            "night began");
  EXPECT_THAT(said_of_night("5/4/2024"), HasSubstr("write 2024-04-05 or 2024-05-04, whichever is meant"));
  EXPECT_THAT(said_of_night("45426"), HasSubstr("spreadsheet's own day number"));
  EXPECT_THAT(said_of_night("0024-05-14"), HasSubstr("before 1900"));
  EXPECT_THAT(said_of_night("2024-05-14T22:10"), HasSubstr("write the date on which the night began"));
  EXPECT_THAT(said_of_night(""), HasSubstr("is empty"));
  EXPECT_THAT(read("photo,site,night,licence\na.jpg,Moor,2026-06-01,L1\n").problems, IsEmpty())
      << "tonight is allowed";
}

TEST(NightSheet, ColumnsThatAreMissingUnknownOrDoubledAreNamed) {
  EXPECT_THAT(
      sentences(read("photo,site,date\na.jpg,M,2024-05-14\n")),
      ElementsAre(
          HasSubstr("column 'date' is not known; take it out, or put what it says into notes"),
          "line 1, licence: this column is missing; add it; every sheet needs photo, site, night and licence",
          HasSubstr("line 1, night: this column is missing")));
  EXPECT_THAT(sentences(read("foto,site,night,license\n")),
              ElementsAre("line 1: column 'foto' is not known; did you mean photo?",
                          "line 1: column 'license' is not known; did you mean licence?",
                          "line 1, licence: this column is missing; rename column 'license' to licence",
                          "line 1, photo: this column is missing; rename column 'foto' to photo"));
  EXPECT_THAT(sentences(read("photo,site,night,licence,Site\na.jpg,M,2024-05-14,L,M\n")),
              ElementsAre("line 1, site: this column is there twice; keep one of the two"));
  const Sheet extra = read("photo,site,night,licence,mood\na.jpg,M,2024-05-14,L,rain\n");
  EXPECT_TRUE(extra.readable());
  EXPECT_EQ(extra.rows.size(), 1u);
  EXPECT_THAT(sentences(extra), ElementsAre(HasSubstr("column 'mood' is not known")));
}

TEST(NightSheet, APhotoNamedTwiceIsNamedWithBothLines) {
  const Sheet sheet =
      read("photo,site,night,licence\na.jpg,M,2024-05-14,L\nb.jpg,M,2024-05-14,L\na.jpg,M,2024-05-14,L\n");
  EXPECT_THAT(sentences(sheet),
              ElementsAre("line 4, photo: 'a.jpg' is already on line 2; name each photo once"));
  EXPECT_EQ(sheet.rows.size(), 2u);
}

TEST(NightSheet, PhotosMayNotLeadOutOfTheirFolder) {
  for (const char* name : {"../a.jpg", "/etc/passwd", "x/../../a.jpg", ".."})
    EXPECT_THAT(sentences(read(std::string("photo,site,night,licence\n") + name + ",M,2024-05-14,L\n")),
                ElementsAre(HasSubstr("leads out of the photos folder")))
        << name;
  EXPECT_THAT(read("photo,site,night,licence\nnight1/a..b.jpg,M,2024-05-14,L\n").problems, IsEmpty());
}

TEST(NightSheet, BytesThatAreNotUtf8AreNamedWithTheirLineAndTheWayOut) {
  EXPECT_THAT(
      sentences(read("photo,site,night,licence\na.jpg,M,2024-05-14,L\nb.jpg,T\xFCmpel,2024-05-14,L\n")),
      ElementsAre(
          "line 3: the text is not UTF-8 (it looks like Latin-1 or Windows-1252); save the sheet again as "
          "'CSV UTF-8', or convert it: iconv -f WINDOWS-1252 -t UTF-8"));
  EXPECT_THAT(sentences(read(std::string("\xFF\xFEp\0h\0", 6))), ElementsAre(HasSubstr("saved as UTF-16")));
  EXPECT_THAT(sentences(read(std::string("photo\0\0", 7))), ElementsAre(HasSubstr("it is not a CSV sheet")));
  EXPECT_THAT(sentences(read(std::string("PK\x03\x04") + std::string(6, '\0'))),
              ElementsAre(HasSubstr("line 1: the spreadsheet file is damaged")));  // see workbook_test.cpp
  EXPECT_THAT(sentences(read("\xD0\xCF\x11\xE0 and more")), ElementsAre(HasSubstr("an old spreadsheet")));
}

TEST(NightSheet, QuotesThatDoNotCloseAreNamedWhereTheyOpen) {
  EXPECT_THAT(sentences(read(
                  "photo,site,night,licence,notes\na.jpg,M,2024-05-14,L,\"open\nb.jpg,M,2024-05-14,L,x\n")),
              ElementsAre(HasSubstr("line 2: a double quote is opened here")));
  EXPECT_THAT(sentences(read("photo,site,night,licence,notes\na.jpg,M,2024-05-14,L,5\" long\n")),
              ElementsAre(HasSubstr("line 2: a double quote stands inside a field")));
}

TEST(NightSheet, RowsWithTooManyOrTooFewFieldsAreNamed) {
  EXPECT_THAT(
      sentences(read("photo,site,night,licence\na.jpg,M,2024-05-14\nb.jpg,M,2024-05-14,L,68,5\n")),
      ElementsAre("line 2: has 3 fields where the header has 4; is the sheet cut short, or a ',' missing?",
                  HasSubstr("line 3: has 6 fields")));
}

TEST(NightSheet, EmptySheetsAreRefused) {
  EXPECT_THAT(sentences(read("")), ElementsAre(HasSubstr("the sheet is empty")));
  EXPECT_THAT(sentences(read("\xEF\xBB\xBF\n\n")), ElementsAre(HasSubstr("the sheet is empty")));
  EXPECT_THAT(sentences(read("photo,site,night,licence\n")), ElementsAre(HasSubstr("names no photo")));
  EXPECT_THAT(sentences(read("photo\tsite\tnight\tlicence\n")), ElementsAre(HasSubstr("names no photo")));
}

TEST(Captures, PhotosThatShareALabelShareTheirFacts) {
  const Sheet sheet = read(
      "photo,site,night,licence,capture,sex,svl_mm\n"
      "a.jpg,M,2024-05-14,L,c1,female,\n"
      "b.jpg,M,2024-05-14,L,,male,70\n"
      "c.jpg,M,2024-05-14,L,c1,,68\n");
  ASSERT_THAT(sentences(sheet), IsEmpty());
  ASSERT_EQ(sheet.captures.size(), 2u);
  EXPECT_THAT(sheet.captures[0].rows, ElementsAre(0u, 2u));
  EXPECT_EQ(sheet.captures[0].facts.sex, Sex::female);
  EXPECT_EQ(sheet.captures[0].facts.svl_mm, 68);
  EXPECT_THAT(sheet.captures[1].rows, ElementsAre(1u));
}

TEST(Captures, OneThatContradictsItselfIsTakenOutWhole) {
  for (const auto& [column, one, other] : {std::tuple{"sex", "female", "male"},
                                           {"svl_mm", "68", "70"},
                                           {"individual", "T-1", "T-2"},
                                           {"trap", "1", "2"}}) {
    const Sheet sheet =
        read(std::string("photo,site,night,licence,capture,") + column + "\na.jpg,M,2024-05-14,L,c1," + one +
             "\nb.jpg,M,2024-05-14,L,c2,\nc.jpg,M,2024-05-14,L,c1," + other + "\n");
    EXPECT_THAT(sentences(sheet),
                ElementsAre(HasSubstr("line 4, " + std::string(column) + ": differs from line 2")));
    ASSERT_EQ(sheet.rows.size(), 1u);
    EXPECT_EQ(sheet.rows[0].photo, "b.jpg");
    ASSERT_EQ(sheet.captures.size(), 1u);
    EXPECT_THAT(sheet.captures[0].rows, ElementsAre(0u));
  }
  const Sheet nights =
      read("photo,site,night,licence,capture\na.jpg,M,2024-05-14,L,c1\nb.jpg,M,2024-05-15,L,c1\n");
  EXPECT_THAT(sentences(nights), ElementsAre(HasSubstr("line 3, night: differs from line 2")))
      << "one animal in hand is there once: a slip in the date would make it a recapture";
}

TEST(Captures, LabelsMayBeginAgainEveryNightAndAtEverySite) {
  const Sheet sheet = read(
      "photo,site,night,licence,capture,sex\n"
      "a.jpg,M,2024-05-14,L,1,female\n"
      "b.jpg,M,2024-05-14,L,2,male\n"
      "c.jpg,M,2024-05-15,L,1,male\n"
      "d.jpg,M,2024-05-15,L,2,female\n"
      "e.jpg,N,2024-05-15,L,1,female\n"
      "f.jpg,M,2024-05-14,L,2,\n");
  ASSERT_THAT(sentences(sheet), IsEmpty());
  ASSERT_EQ(sheet.captures.size(), 5u);
  EXPECT_THAT(sheet.captures[1].rows, ElementsAre(1u, 5u));
}

TEST(NightSheet, TenThousandRowsAreReadInATwinkling) {
  std::string text = "photo,site,night,licence,capture,sex,svl_mm,notes\n";
  for (int i = 0; i < 10'000; ++i)
    text +=
        "IMG_" + std::to_string(i) + ".jpg,Moor,2024-05-14,L1,c" + std::to_string(i / 2) + ",f,68,\"a, b\"\n";
  const auto start = std::chrono::steady_clock::now();
  const Sheet sheet = read(text);
  const auto took = std::chrono::steady_clock::now() - start;
  EXPECT_EQ(sheet.rows.size(), 10'000u);
  EXPECT_EQ(sheet.captures.size(), 5'000u);
  EXPECT_LT(took, 2s);  // 30 ms in a release build; room for sanitizers and a busy machine
}

// Whatever the bytes, every row is either taken or complained of, and every complaint is whole.
TEST(NightSheet, RandomDamageNeitherCrashesNorLosesARowInSilence) {
  const std::string sound =
      "photo,site,night,licence,capture,sex,svl_mm,notes\na.jpg,M,2024-05-14,L,c1,f,68,\"x \"\"y\"\"\nz\"\n"
      "b.jpg,M,2024-05-14,L,c1,f,68,\nc.jpg,M,2024-05-14,L,,m,70,\n";
  std::mt19937 random(7);
  for (int i = 0; i < 3'000; ++i) {
    std::string text = sound;
    for (int k = 0; k < 3; ++k) text[random() % text.size()] = "\",;\n\r\0x\xFC"[random() % 8];
    const Sheet sheet = read(text);
    EXPECT_TRUE(!sheet.rows.empty() || !sheet.problems.empty()) << text;
    std::size_t in_captures = 0;
    for (const SheetCapture& capture : sheet.captures) in_captures += capture.rows.size();
    EXPECT_EQ(in_captures, sheet.rows.size());
    for (const SheetProblem& problem : sheet.problems) {
      EXPECT_GE(problem.line, 1u);
      EXPECT_FALSE(problem.reason.wrong.words().empty());
      ASSERT_TRUE(problem.reason.right);
      EXPECT_FALSE(problem.reason.right->words().empty());
    }
  }
}

}  // namespace
}  // namespace evet
