#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "matcher/base/error.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"
#include "tools/evet/commands.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;
using ::testing::Not;
namespace fs = std::filesystem;

struct Ran {
  int code;
  std::string out, err;
  nlohmann::json json() const { return nlohmann::json::parse(out); }
};
Ran run(const Args& args) {
  std::ostringstream out, err;
  Console console{.out = out, .err = err, .env = system_env()};
  const int code = run_evet(args, console);
  return {code, out.str(), err.str()};
}

struct MergeAndAudit : ::testing::Test {
  const Folder folder;
  const std::string house = folder.path / "house", field = folder.path / "field";
  std::string head;
  MergeAndAudit() {
    head = SamplePond(house).catalogue.head_hash();
    SamplePond(field, "f-");
  }
};

TEST_F(MergeAndAudit, MergeSaysWhatCameIn) {
  const Ran first = run({"merge", house, field, "--by", "R1"});
  EXPECT_EQ(first.code, 0) << first.err;
  EXPECT_THAT(first.out, HasSubstr("Came in: 3 captures, 3 verdicts, 3 photos; 10 entries"));
  const Ran again = run({"merge", house, field, "--by", "R1"});
  EXPECT_EQ(again.code, 0);
  EXPECT_THAT(again.out, HasSubstr("Nothing was new"));
}

TEST_F(MergeAndAudit, MergeNamesNewDisputes) {
  fs::copy(house, folder.path / "copy", fs::copy_options::recursive);
  const std::string copy = folder.path / "copy";
  EXPECT_EQ(run({"verdict", copy, "a2", "different", "a1", "--by", "R2"}).code, 0);
  const auto json = run({"merge", house, copy, "--by", "R1", "--json"}).json();
  EXPECT_EQ(json["entries"], 2);
  EXPECT_EQ(json["new_disputes"][0]["captures"], (nlohmann::json{"a1", "a2"}));
  fs::remove_all(house);
  SamplePond anew(house);
  fs::remove_all(copy);
  fs::copy(house, copy, fs::copy_options::recursive);
  run({"verdict", copy, "a2", "different", "a1", "--by", "R2"});
  EXPECT_THAT(run({"merge", house, copy, "--by", "R1"}).out,
              HasSubstr("In dispute: are 'a1' and 'a2' one animal?"));
}

TEST_F(MergeAndAudit, MergeRefusesWhatIsNoCatalogueAndItself) {
  EXPECT_EQ(run({"merge", house, folder.path / "nothing"}).code, 3);
  EXPECT_EQ(run({"merge", house, house}).code, 3);
  EXPECT_EQ(run({"merge", house}).code, 2);
}

TEST_F(MergeAndAudit, AuditHoldsAndPrintsTheHead) {
  const Ran ran = run({"audit", house});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Read: 10 entries of 1 device, 3 photos."));
  EXPECT_THAT(ran.out, HasSubstr("All holds.\nLedger head: " + head));
}

TEST_F(MergeAndAudit, AuditShowsThatAnOldHeadIsPartOfTheLedger) {
  run({"merge", house, field, "--by", "R1"});
  const Ran ran = run({"audit", house, "--against", head});
  EXPECT_EQ(ran.code, 0);
  EXPECT_THAT(ran.out, HasSubstr("10 entries stood then, 11 were added since"));
  const Ran other = run({"audit", field, "--against", head, "--json"});
  EXPECT_EQ(other.code, 1);
  EXPECT_EQ(other.json()["against"]["holds"], false);
  EXPECT_EQ(other.json()["holds"], false);
  EXPECT_EQ(run({"audit", house, "--against", "xyz"}).code, 3);
}

TEST_F(MergeAndAudit, AuditExitsWithOneWhenSomethingWasAltered) {
  tamper_unguarded(house, "UPDATE entry SET actor = 'R7' WHERE position = 8");
  const Ran ran = run({"audit", house});
  EXPECT_EQ(ran.code, 1);
  EXPECT_THAT(ran.out, HasSubstr("was altered after it was written"));
  EXPECT_THAT(ran.out, HasSubstr("It does not hold: 1 finding"));
  EXPECT_THAT(ran.out, Not(HasSubstr("All holds")));
  tamper_unguarded(house, "UPDATE entry SET body = 'nonsense' WHERE position = 8");
  EXPECT_EQ(run({"audit", house, "--json"}).json()["holds"], false);
}

TEST_F(MergeAndAudit, AuditTellsHowFarReadersAgree) {
  {
    Catalogue catalogue = Catalogue::open(house, system_env());
    const auto captures = catalogue.identities().captures;
    catalogue.append(
        person("R2"),
        {Verdict{.capture = captures[2].id, .other = captures[0].id, .answer = Answer::same, .blind = true},
         Verdict{.capture = captures[2].id,
                 .other = captures[0].id,
                 .answer = Answer::different,
                 .planted = true}});
  }
  const Ran ran = run({"audit", house});
  EXPECT_THAT(ran.out, HasSubstr("Readers 'R1' and 'R2' agreed on 1 of 1 case"));
  EXPECT_THAT(ran.out, HasSubstr("missed that it was one animal in 1 of 1"));
  const auto json = run({"audit", house, "--json"}).json();
  EXPECT_EQ(json["readers"]["pairs"][0]["cases"], 1);
  EXPECT_EQ(json["readers"]["planted"][0]["false_non_match"]["errors"], 1);
}

TEST_F(MergeAndAudit, HelpShowsAnExample) {
  for (const char* command : {"merge", "audit"}) {
    const Ran ran = run({command, "--help"});
    EXPECT_EQ(ran.code, 0);
    EXPECT_THAT(ran.out, HasSubstr("Example:\n  evet " + std::string(command)));
  }
}

}  // namespace
}  // namespace evet
