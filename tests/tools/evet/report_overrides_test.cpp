// What was recorded although something spoke against it stands in the night's report: of captures and of the sheet.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/tools/evet/try_evet.h"

namespace evet {
namespace {

using namespace try_out;
using testing::HasSubstr;
using testing::Not;

struct AReport : testing::Test {
  Pond pond{true};

  Answered run(std::vector<std::string> args) const {
    args.insert(args.begin() + 1, pond.path);
    return try_out::evet(args);
  }
  std::string report(const std::string& night, std::vector<std::string> more = {}) const {
    const std::string file = (pond.folder.path / (std::to_string(more.size()) + night + ".html")).string();
    std::vector<std::string> args{"report", "--night", night, "--out", file};
    args.insert(args.end(), more.begin(), more.end());
    const Answered answered = run(args);
    EXPECT_EQ(answered.exit, 0) << answered.err;
    return read(file);
  }
};

TEST_F(AReport, ListsWhatWasOverruledOfTheSheet) {
  const std::string sheet = (pond.folder.path / "near.csv").string();
  write(sheet, "photo,site,pond,night,licence,capture\nA0000-1.jpg,Aldre Fen,north,2024-05-14,L-7,c1\n");
  EXPECT_EQ(run({"intake", sheet, photos_folder(), "--by", "KM"}).exit, 3);
  ASSERT_EQ(run({"intake", sheet, photos_folder(), "--by", "KM", "--in-spite", "a fen of its own"}).exit, 0);
  const std::string authority = report("2024-05-14");
  EXPECT_THAT(authority, HasSubstr("spelt nearly as &#39;Alder Fen&#39;"));
  EXPECT_THAT(authority, HasSubstr("a fen of its own"));
  EXPECT_THAT(report("2024-05-14", {"--for", "everybody"}), Not(HasSubstr("Alder")))
      << "the name of the other place gives this one away";
  EXPECT_THAT(report("2024-05-01"), HasSubstr("None: nothing was recorded against"))
      << "another night's sheet is not this one's";
}

TEST_F(AReport, ListsWhatWasOverruledOfACapture) {
  ASSERT_EQ(run({"verdict", "c1", "new", "--by", "KM"}).exit, 0);
  EXPECT_EQ(run({"verdict", "c2", "same", "c1", "--by", "KM"}).exit, 3) << "the same night";
  ASSERT_EQ(run({"verdict", "c2", "same", "c1", "--by", "KM", "--in-spite", "released twice"}).exit, 0);
  const std::string page = report("2024-05-01");
  EXPECT_THAT(page, HasSubstr("released twice"));
  EXPECT_THAT(page, Not(HasSubstr("None: nothing was recorded against")));
}

}  // namespace
}  // namespace evet
