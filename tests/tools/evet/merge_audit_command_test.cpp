#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <sstream>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/reader_keys.h"
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

// What left the house on paper shows later that the ledger only grew, or that it was cut back.
TEST_F(MergeAndAudit, AReportPrintsTheRootThatTheAuditTakesBack) {
  const fs::path page = folder.path / "report.html";
  ASSERT_EQ(run({"report", house, "--night", "2031-05-12", "--out", page.string()}).code, 0);
  const Bytes bytes = system_env().read_file(page);
  const std::string text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
  std::smatch root;
  ASSERT_TRUE(std::regex_search(text, root, std::regex("[0-9]+:[0-9a-f]{64}")));
  EXPECT_THAT(text, HasSubstr(head));
  const auto grown = [&](const std::string& from) { return run({"audit", house, "--grown-from", from}); };
  EXPECT_THAT(run({"audit", house}).out, HasSubstr("Tree root: " + root.str()));
  EXPECT_EQ(run({"merge", house, field, "--by", "R1"}).code, 0);
  EXPECT_EQ(grown(root.str()).code, 0);
  std::string other = root.str();
  other.back() = other.back() == '0' ? '1' : '0';
  EXPECT_EQ(grown(other).code, 1);

  const auto report_since = [&](const std::string& from) {
    return run({"report", house, "--night", "2031-05-12", "--out", page.string(), "--grown-from", from});
  };
  EXPECT_EQ(report_since(root.str()).code, 0);
  const Bytes later = system_env().read_file(page);
  EXPECT_THAT(std::string(reinterpret_cast<const char*>(later.data()), later.size()),
              HasSubstr("Grown from the tree root " + root.str()));
  const Ran refused = report_since(other);
  EXPECT_EQ(refused.code, 3);
  EXPECT_THAT(refused.err, HasSubstr("the ledger does not begin with the 10 entries of this tree root"));
  EXPECT_EQ(report_since("10").code, 3);
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

// It is a catalogue, it was checked, and it does not hold: 1, where a folder that is none is 3.
TEST_F(MergeAndAudit, AuditExitsWithOneForASchemaThatIsRefused) {
  tamper(house, "CREATE VIEW entry_of_mine AS SELECT 1");
  const Ran said = run({"audit", house});
  EXPECT_EQ(said.code, 1);
  EXPECT_THAT(said.out, HasSubstr("it holds what this program does not make and will not run"));
  EXPECT_THAT(said.out, HasSubstr("It does not hold: 1 finding"));
  EXPECT_EQ(run({"audit", house, "--json"}).json()["findings"].size(), 1u);
  EXPECT_EQ(run({"individuals", house}).code, 3);
}

// What a report printed is enough to see that nothing before it was changed.
TEST_F(MergeAndAudit, AuditShowsThatTheLedgerHasGrownFromAnOldRoot) {
  const auto tree = run({"audit", house, "--json"}).json()["tree"];
  const std::string then = std::to_string(tree["entries"].get<int>()) + ":" + tree["root"].get<std::string>();
  run({"merge", house, field, "--by", "R1"});
  const Ran grown = run({"audit", house, "--grown-from", then});
  EXPECT_EQ(grown.code, 0) << grown.err;
  EXPECT_THAT(grown.out, HasSubstr("The ledger begins with the entries of the root " + then));
  EXPECT_THAT(grown.out, HasSubstr("Tree root: 21:"));
  const Ran other = run({"audit", field, "--grown-from", then});
  EXPECT_EQ(other.code, 1);
  EXPECT_THAT(other.out, HasSubstr("it does not begin with the 10 entries"));
  EXPECT_EQ(run({"audit", house, "--grown-from", "10"}).code, 3);
}

// What was printed is enough for somebody without the catalogue.
TEST_F(MergeAndAudit, TheProofOfAnAuditIsCheckedWithoutTheCatalogue) {
  const auto root_in = [](const nlohmann::json& tree) {
    return std::to_string(tree["entries"].get<int>()) + ":" + tree["root"].get<std::string>();
  };
  const std::string then = root_in(run({"audit", house, "--json"}).json()["tree"]);
  run({"merge", house, field, "--by", "R1"});
  const auto tree = run({"audit", house, "--grown-from", then, "--json"}).json()["tree"];
  EXPECT_EQ(tree["proof_from"], then);
  Args args{"proof", then, root_in(tree)};
  for (const std::string step : tree["proof"]) args.push_back(step);
  EXPECT_EQ(run(args).code, 0);
  std::swap(args[3], args[4]);
  EXPECT_EQ(run(args).code, 1);
}

TEST_F(MergeAndAudit, WhoSignedIsToldByAuditAndMerge) {
  ReaderKeys keys(system_env(), folder.path / "keys");
  Signer::use(&keys);
  const Ran said = run({"verdict", field, "f-a2", "different", "f-b1", "--by", "KM"});
  const Ran again = run({"verdict", field, "f-a2", "cannot-tell", "f-b1", "--by", "KM"});
  Signer::use(nullptr);
  const std::string key = key_words(keys.sign(person("KM"), "x")->key);
  EXPECT_THAT(said.err, HasSubstr("KM signs in this catalogue for the first time with the key " + key));
  EXPECT_THAT(said.err, HasSubstr("a key was made with which what KM says here is signed"));
  EXPECT_EQ(again.err, "");
  EXPECT_THAT(run({"audit", field}).out, HasSubstr("Signed by KM with the key " + key + ": 2 entries since"));
  EXPECT_THAT(run({"merge", house, field, "--by", "R1"}).out,
              HasSubstr("New here: what KM signed with the key " + key));
  ReaderKeys others(system_env(), folder.path / "other_keys");
  Signer::use(&others);
  EXPECT_THAT(run({"verdict", field, "f-a2", "different", "f-b1", "--by", "KM"}).err,
              HasSubstr("another than before: tell those who read it"));
  Signer::use(nullptr);
  EXPECT_THAT(run({"merge", house, field, "--by", "R1"}).out,
              HasSubstr("another key than before, so ask whether it is theirs"));
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

TEST_F(MergeAndAudit, WhatCannotBeReadIsNamedAndStopsNothing) {
  const std::string capture = Catalogue::open(field, system_env()).identities().captures[0].id.value;
  const Entry bad =
      put_in(field, Correction::kKind, R"({"capture":")" + capture + R"(","changes":{"night":"x"}})");
  const Ran merged = run({"merge", house, field, "--by", "R1"});
  EXPECT_EQ(merged.code, 0) << merged.err;
  EXPECT_THAT(merged.out, HasSubstr("Set aside, since it cannot be read: entry " + bad.id.value));
  for (const Args& args : {Args{"individuals", house}, Args{"histories", house}, Args{"audit", house},
                           Args{"verdict", house, "f-b1", "different", "f-a1", "--by", "R1"}})
    EXPECT_EQ(run(args).code, 0) << args[0];
  EXPECT_THAT(run({"audit", house}).out,
              HasSubstr("Entry " + bad.id.value + " is as it was written and says nothing"));
  EXPECT_EQ(run({"audit", house, "--json"}).json()["set_aside"][0]["entry"], bad.id.value);
}

TEST_F(MergeAndAudit, AClockThatRanAheadIsToldWithWhatToSay) {
  const std::string capture = Catalogue::open(field, system_env()).identities().captures[0].id.value;
  put_in(field, LabelGiven::kKind, R"({"capture":")" + capture + R"(","label":"Dot"})",
         "02000000-0000-7000-8000-000000000000");
  const Ran refused = run({"merge", house, field, "--by", "R1"});
  EXPECT_EQ(refused.code, 3);
  EXPECT_THAT(refused.err, HasSubstr("days ahead of this machine's clock"));
  const size_t at = refused.err.find("--days-ahead ");
  ASSERT_NE(at, std::string::npos);
  const std::string days =
      refused.err.substr(at + 13, refused.err.find_first_not_of("0123456789", at + 13) - at - 13);
  EXPECT_EQ(run({"merge", house, field, "--by", "R1", "--days-ahead", days}).code, 0);
  EXPECT_EQ(run({"merge", house, field, "--days-ahead", "-3"}).code, 2);
}

TEST_F(MergeAndAudit, OnePictureOfWhichTheSheetsDoNotAgreeIsAQuestion) {
  const std::string twin = folder.path / "twin";
  {
    SamplePond made(twin);
    made.catalogue.append(person("R1"),
                          {Correction{made.a1, {{"night", "2031-05-11"}, {"pond", "North"}}, "a slip"}});
  }
  const Ran merged = run({"merge", house, twin, "--by", "R1"});
  EXPECT_THAT(merged.out, HasSubstr("Capture 'a1' of 2031-05-1"));
  EXPECT_THAT(merged.out, HasSubstr("the same picture was taken in elsewhere, as of 2031-05-1"));
  EXPECT_THAT(run({"audit", house}).out, HasSubstr("the same picture was taken in elsewhere"));
  EXPECT_EQ(run({"audit", house}).code, 0);
  const Ran report = run({"report", house, "--night", "2031-05-10", "--out", folder.path / "night.html"});
  ASSERT_EQ(report.code, 0) << report.err;
}

TEST_F(MergeAndAudit, RepairGetsADamagedCatalogueBackToWork) {
  tamper(house, "PRAGMA foreign_keys = OFF; DROP TABLE about; CREATE VIEW about AS SELECT 1");
  EXPECT_EQ(run({"individuals", house}).code, 3);
  const Ran ran = run({"audit", house, "--repair", "--against", head});
  EXPECT_EQ(ran.code, 0) << ran.err << ran.out;
  EXPECT_THAT(ran.out, HasSubstr("Repaired: 10 entries in a new database. The old one is " + house));
  EXPECT_EQ(run({"individuals", house}).code, 0);
  EXPECT_EQ(run({"audit", folder.path / "none", "--repair"}).code, 3);
}

TEST_F(MergeAndAudit, AFileOfWitnessedHeadsShowsALedgerThatWasCutBack) {
  const std::string seen = folder.path / "heads.txt";
  EXPECT_EQ(run({"audit", house, "--witness", seen}).code, 0);
  run({"merge", house, field, "--by", "R1"});
  const Ran second = run({"audit", house, "--witness", seen});
  EXPECT_EQ(second.code, 0);
  EXPECT_THAT(second.out, HasSubstr("All 1 head witnessed before is part of this ledger."));
  EXPECT_EQ(run({"audit", house, "--witness", seen, "--json"}).json()["witnessed"].size(), 2u);
  EXPECT_THAT(second.out, HasSubstr("The ledger begins with the entries of the root "));
  const std::string kept = [&] {
    const Bytes file = system_env().read_file(seen);
    return std::string(reinterpret_cast<const char*>(file.data()), file.size());
  }();
  EXPECT_EQ(std::count(kept.begin(), kept.end(), '\n'), 2);
  EXPECT_THAT(kept, HasSubstr(head + " 20"));
  // The last entry, the merge's own, cut off again.
  tamper_unguarded(house, "DELETE FROM entry WHERE kind = 'merge'");
  const Ran cut = run({"audit", house, "--witness", seen});
  EXPECT_EQ(cut.code, 1);
  EXPECT_THAT(cut.out, HasSubstr("cut back or written anew"));
  for (const std::string& line : {head + " when 10 root\n", head + " when ten " + head + "\n"}) {
    write_file_durably(system_env(), seen, bytes(line));
    EXPECT_THAT(run({"audit", house, "--witness", seen}).err, HasSubstr("is no tree root")) << line;
  }
  // A root that is not the ledger's of that moment; and one that is of another copy, where entries came in
  // another order, is left alone.
  write_file_durably(system_env(), seen, bytes(head + " when 10 " + head + "\n"));
  EXPECT_THAT(run({"audit", house, "--witness", seen}).out,
              HasSubstr("it does not begin with the 10 entries"));
  write_file_durably(system_env(), seen, bytes(head + " when 9 " + head + "\n"));
  EXPECT_THAT(run({"audit", house, "--witness", seen}).out, Not(HasSubstr("it does not begin")));
  write_file_durably(system_env(), seen, bytes("no hash\n"));
  EXPECT_EQ(run({"audit", house, "--witness", seen}).code, 3);
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
