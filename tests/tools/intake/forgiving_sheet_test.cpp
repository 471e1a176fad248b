// What a sheet may be written like without a fault: and where forgiving would be guessing, it asks.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/tools/evet/try_evet.h"
#include "tools/intake/photo_files.h"
#include "tools/intake/read_sheet.h"

namespace evet {
namespace {

namespace fs = std::filesystem;
using namespace try_out;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

constexpr const char* kFewColumns = "photo,site,night,licence\n";

Sheet sheet_of_text(const std::string& text) {
  return read_sheet(text, {.today = std::chrono::year(2026) / 6 / 1});
}
std::string night_of_cell(const std::string& cell) {
  const Sheet sheet = sheet_of_text(std::string(kFewColumns) + "a.jpg,Moor," + cell + ",L1\n");
  return sheet.rows.empty() ? sheet.problems.at(0).sentence() : sheet.rows[0].night;
}

struct ANight : testing::Test {
  Pond pond{false};
  fs::path card = pond.folder.path / "card";
  void put(const std::string& sample, const std::string& as) const {
    fs::create_directories((card / as).parent_path());
    fs::copy_file(night_folder() / "photos" / sample, card / as);
  }
  Answered intake(const std::string& sheet, std::vector<std::string> more = {}) const {
    write(pond.folder.path / "night.csv", sheet);
    std::vector<std::string> args{"intake",      pond.path, (pond.folder.path / "night.csv").string(),
                                  card.string(), "--by",    "KM"};
    args.insert(args.end(), more.begin(), more.end());
    return try_out::evet(args);
  }
};

TEST(ForgivingSheet, ADateInAnotherOrderIsTakenWhereItIsOneDayAlone) {
  for (const char* one :
       {"22.05.2024", "22.5.2024", "22/05/2024", "5/22/2024", "2024/05/22", "2024-5-22", "2024.5.22"})
    EXPECT_EQ(night_of_cell(one), "2024-05-22") << one;
  EXPECT_EQ(night_of_cell("5.5.2024"), "2024-05-05") << "both readings are one day";
  for (const char* two : {"5.4.2024", "04/05/2024", "1-2-2024"})
    EXPECT_THAT(night_of_cell(two), HasSubstr("can be two days; write 2024-")) << two;
  for (const char* none : {"22.05.24", "32.05.2024", "22.13.2024", "22.05.2030", "22.05.1824", "22 May 2024"})
    EXPECT_THAT(night_of_cell(none), HasSubstr("line 2, night:")) << none;
}

TEST(ForgivingSheet, ColumnsPartedByTabs) {
  const Sheet sheet = sheet_of_text(
      "photo\tsite\tnight\tlicence\tsvl_mm\tnotes\na.jpg\tMoor\t2024-05-14\tL1\t\t68,5 or so\n");
  ASSERT_THAT(sheet.problems, IsEmpty());
  EXPECT_EQ(sheet.rows.at(0).notes, "68,5 or so");
  EXPECT_EQ(sheet.rows.at(0).svl_mm, std::nullopt);
  const Sheet cut = sheet_of_text("photo\tsite\tnight\tlicence\na.jpg\tMoor\n");
  EXPECT_THAT(cut.problems.at(0).sentence(), HasSubstr("or a tab missing?"));
}

TEST(ForgivingSheet, EmptyColumnsToTheRightAreNone) {
  const Sheet sheet =
      sheet_of_text("photo;site;night;licence;;;\na.jpg;Moor;2024-05-14;L1;;;\nb.jpg;Moor;2024-05-14;L1\n");
  EXPECT_THAT(sheet.problems, IsEmpty());
  EXPECT_EQ(sheet.rows.size(), 2u);
  const Sheet said = sheet_of_text("photo,site,night,licence,,\na.jpg,Moor,2024-05-14,L1,,windy\n");
  EXPECT_THAT(said.problems.at(0).sentence(), HasSubstr("line 2: has 6 fields where the header has 4"));
  const Sheet middle = sheet_of_text("photo,,site,night,licence\na.jpg,,Moor,2024-05-14,L1\n");
  EXPECT_THAT(middle.problems.at(0).sentence(), HasSubstr("column 2 has no name"));
}

TEST(ForgivingSheet, NamesAreFoldedAsPeopleReadThem) {
  EXPECT_EQ(folded_name("IMG_1.JPG"), folded_name("img_1.jpg"));
  // Unicode Standard Annex 15: U+00FC and u with U+0308 are canonically equivalent.
  EXPECT_EQ(folded_name("T\xC3\xBCmpel.jpg"), folded_name("Tu\xCC\x88mpel.jpg"));
  EXPECT_EQ(folded_name("T\xC3\x9CMPEL.JPG"), folded_name("tu\xCC\x88mpel.jpg"));
  EXPECT_NE(folded_name("IMG_1.jpg"), folded_name("IMG_2.jpg"));
  EXPECT_NE(folded_name("Tumpel.jpg"), folded_name("T\xC3\xBCmpel.jpg")) << "an accent is a letter";
  EXPECT_EQ(folded_name("\xff\xFE A"), folded_name("\xff\xFE a")) << "what is no text is no crash";
}

TEST_F(ANight, OtherLetterCaseAndAccentsAreTheSameFile) {
  put("A0000-0.jpg", "IMG_1.JPG");
  put("A0001-0.jpg", "Tu\xCC\x88mpel 2.jpg");  // as one kind of disk writes it
  const Answered said = intake(std::string(kFewColumns) +
                               "img_1.jpg,Moor,2024-05-14,L1\nT\xC3\xBCmpel 2.jpg,Moor,2024-05-14,L1\n");
  EXPECT_EQ(said.exit, 0) << said.err;
  EXPECT_THAT(said.err, HasSubstr("line 2, photo 'img_1.jpg': taken to be the file 'IMG_1.JPG'"));
  EXPECT_THAT(said.err, Not(HasSubstr("on no row")));
  Catalogue catalogue = Catalogue::open(pond.path, system_env());
  EXPECT_EQ(catalogue.identities().captures.size(), 2u);
}

TEST_F(ANight, ASpellingThatFitsTwoFilesIsAskedFor) {
  put("A0000-0.jpg", "IMG_1.JPG");
  put("A0001-0.jpg", "img_1.jpg");
  const Answered said = intake(std::string(kFewColumns) + "Img_1.jpg,Moor,2024-05-14,L1\n");
  EXPECT_EQ(said.exit, 3);
  EXPECT_THAT(said.err, HasSubstr("which is meant, 'IMG_1.JPG' or 'img_1.jpg'?"));
}

TEST_F(ANight, ANameWithoutItsEndingIsOfferedAndNotTaken) {
  put("A0000-0.jpg", "IMG_1.JPG");
  const Answered said = intake(std::string(kFewColumns) + "IMG_1,Moor,2024-05-14,L1\n");
  EXPECT_EQ(said.exit, 3);
  EXPECT_THAT(said.err, HasSubstr("there is no such file; did you mean 'IMG_1.JPG'?"));
}

TEST_F(ANight, AMissingPhotoIsNotAnsweredWithAnotherAnimals) {
  put("A0000-0.jpg", "IMG_0012.jpg");
  put("A0001-0.jpg", "IMG_0014.jpg");
  const Answered said = intake(std::string(kFewColumns) +
                               "IMG_0013.jpg,Moor,2024-05-14,L1\nIMG_0012.JPEG,Moor,2024-05-14,L1\n");
  EXPECT_EQ(said.exit, 3);
  EXPECT_THAT(said.err, HasSubstr("'IMG_0013.jpg': there is no such file; check the name"));
  EXPECT_THAT(said.err, HasSubstr("'IMG_0012.JPEG': there is no such file; did you mean 'IMG_0012.jpg'?"));
  // Nor with one that another row names itself.
  const Answered again =
      intake(std::string(kFewColumns) + "IMG_0012.JPG,Moor,2024-05-14,L1\nIMG_0012.jpg,Moor,2024-05-14,L1\n");
  EXPECT_EQ(again.exit, 3);
  EXPECT_THAT(again.err, HasSubstr("line 2, photo 'IMG_0012.JPG': there is no such file; check the name"));
}

TEST_F(ANight, ThreeHundredRowsWithOneFaultAreOneMessage) {
  std::string sheet = "photo,site,night,licence,sex\n";
  for (int i = 0; i < 300; ++i) sheet += "p" + std::to_string(i) + ".jpg,Moor,2024-05-14,L1,femle\n";
  fs::create_directories(card);
  const Answered said = intake(sheet);
  EXPECT_EQ(said.exit, 3);
  EXPECT_THAT(said.err, HasSubstr("lines 2 to 301, sex: 'femle' is not known; did you mean female?"));
  EXPECT_THAT(said.err, HasSubstr("(300 rows)"));
  EXPECT_LT(std::count(said.err.begin(), said.err.end(), '\n'), 4);
  EXPECT_EQ(intake(sheet, {"--json"}).json()["refused"].size(), 300u) << "for a program each row by itself";
}

TEST_F(ANight, AWrongFolderIsOneMessageToo) {
  std::string sheet = kFewColumns;
  for (int i = 0; i < 300; ++i) sheet += "p" + std::to_string(i) + ".jpg,Moor,2024-05-14,L1\n";
  fs::create_directories(card);
  const Answered said = intake(sheet);
  EXPECT_THAT(
      said.err,
      HasSubstr("lines 2 to 301, 300 photos: there is no such file; check the name and the photos folder"));
  EXPECT_THAT(said.err, HasSubstr("('p0.jpg', 'p1.jpg' and 298 more)"));
}

TEST_F(ANight, AMoveSaysThatItMoved) {
  put("A0000-0.jpg", "a.jpg");
  put("A0001-0.jpg", "b.jpg");
  intake(std::string(kFewColumns) + "a.jpg,Moor,2024-04-14,L1\nb.jpg,Moor,2024-04-14,L1\n");
  const std::string mended =
      std::string(kFewColumns) + "a.jpg,Moor,2024-05-14,L1\nb.jpg,Moor,2024-05-14,L1\n";
  const Answered said = intake(mended, {"--move"});
  EXPECT_EQ(said.exit, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("Moved 2 captures to where the sheet says now: 2024-05-14 at Moor."));
  EXPECT_THAT(said.out, Not(HasSubstr("Nothing new")));
  EXPECT_THAT(intake(mended, {"--move"}).out, HasSubstr("Nothing new"));
}

TEST_F(ANight, ASheetIsWrittenBlankOrFromAFolderAndTakenIn) {
  const std::string blank = (pond.folder.path / "blank.csv").string(),
                    filled = (pond.folder.path / "night-2.csv").string();
  EXPECT_EQ(try_out::evet({"sheet", pond.path, blank}).exit, 0);
  EXPECT_EQ(read(blank),
            "photo,site,pond,night,trap,capture,sex,stage,svl_mm,total_mm,mass_g,released,observer,licence,"
            "latitude,longitude,individual,notes,method,effort,effort_unit,weather,air_c,water_c,holder\n");
  EXPECT_EQ(try_out::evet({"sheet", pond.path, blank}).exit, 2) << "it is there";
  EXPECT_EQ(try_out::evet({"sheet", pond.path, filled, card.string()}).exit, 3) << "there is no such folder";
  EXPECT_FALSE(fs::exists(filled));

  put("A0000-0.jpg", "a.jpg");
  EXPECT_EQ(intake(std::string("photo,site,pond,night,licence\n") + "a.jpg,Moor,North,2016-06-20,L1\n").exit,
            0);
  put("A0000-1.jpg", "b.jpg");
  put("tray.jpg", "c d.jpg");
  write(card / "cut.jpg", "\xff\xd8\xff half");
  const Answered said = try_out::evet({"sheet", pond.path, filled, card.string(), "--by", "TR"});
  EXPECT_EQ(said.exit, 3) << "one could not be read, the rest is written";
  EXPECT_THAT(said.out, HasSubstr("2 photos in 2 captures"));
  EXPECT_THAT(said.out, HasSubstr("1 photo more"));
  EXPECT_THAT(said.out, HasSubstr("cut.jpg"));
  EXPECT_THAT(read(filled), HasSubstr("\nb.jpg,Moor,North,2016-06-21,,c1,"));
  fs::remove(card / "cut.jpg");
  const Answered taken = intake(read(filled));
  EXPECT_EQ(taken.exit, 0) << taken.err;
}

}  // namespace
}  // namespace evet
