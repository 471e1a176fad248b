// Signed entries: what a signature shows, what its absence or another key shows, and that merges stay what
// they are: a union, in any order, to the byte.
#include "matcher/catalogue/signature.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/hash_tree.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/canonical_json.h"
#include "matcher/catalogue/merge.h"
#include "matcher/catalogue/reader_keys.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

// Signs with the keys of a folder while it lives.
struct Machine {
  ReaderKeys keys;
  explicit Machine(const fs::path& folder) : keys(system_env(), folder) { Signer::use(&keys); }
  ~Machine() { Signer::use(nullptr); }
  Machine(const Machine&) = delete;
  Machine& operator=(const Machine&) = delete;
};

std::set<std::string> hashes(const Catalogue& catalogue) {
  std::set<std::string> all;
  for (const ListedEntry& listed : catalogue.ledger()) all.insert(listed.entry.hash);
  return all;
}
std::string key_named(const std::vector<KeyUse>& keys, const std::string& who) {
  const auto at = std::find_if(keys.begin(), keys.end(), [&](const KeyUse& use) { return use.who == who; });
  return at == keys.end() ? "" : at->key;
}

struct Signatures : testing::Test {
  const Folder folder;
  fs::path place(const std::string& name) const { return folder.path / name; }
  // A pond whose entries are signed on a machine of its own.
  void draw(const std::string& name, const std::string& machine) const {
    const Machine signing(place(machine));
    SamplePond(place(name), name + "-");
  }
  Catalogue open(const std::string& name) const { return Catalogue::open(place(name), system_env()); }
  AuditReport audited(const std::string& name) const {
    Catalogue catalogue = Catalogue::open(place(name), system_env(), {.access = Access::read});
    return audit(catalogue);
  }
};

TEST_F(Signatures, EveryEntryIsSignedAndTheAuditTellsByWhom) {
  draw("pond", "laptop");
  const AuditReport report = audited("pond");
  EXPECT_TRUE(report.holds());
  EXPECT_EQ(report.unsigned_entries, 0u);
  ASSERT_EQ(report.keys.size(), 2u);
  EXPECT_EQ(report.keys[0].who, "OB1");
  EXPECT_EQ(report.keys[0].entries, 6u);
  EXPECT_EQ(report.keys[1].who, "R1");
  EXPECT_NE(report.keys[0].key, report.keys[1].key);
  for (const ListedEntry& one : open("pond").ledger())
    EXPECT_EQ(signing_of(one.entry).how, Signing::fits) << one.entry.kind;
}

TEST_F(Signatures, ALedgerWithoutThemIsAsValidAsEver) {
  SamplePond(place("pond"));
  const AuditReport report = audited("pond");
  EXPECT_TRUE(report.holds());
  EXPECT_TRUE(report.keys.empty());
  EXPECT_EQ(report.unsigned_entries, report.entries);
  EXPECT_TRUE(report.unsigned_since.empty());
}

TEST_F(Signatures, WhatTheProgramSaysIsSignedByTheMachine) {
  draw("pond", "laptop");
  const Machine signing(place("laptop"));
  Catalogue catalogue = open("pond");
  const CaptureId capture = catalogue.identities().captures.front().id;
  catalogue.append(program(), {Verdict{.capture = capture, .answer = Answer::new_individual}});
  const AuditReport report = audit(catalogue);
  EXPECT_EQ(report.unsigned_entries, 0u);
  EXPECT_EQ(std::count_if(report.keys.begin(), report.keys.end(),
                          [](const KeyUse& use) { return use.who.starts_with("device "); }),
            1);
}

// Whoever owns the folder can make hashes fit, but no signature of a key that is not theirs.
TEST_F(Signatures, AForgedEntryIsFoundAndNoMergeTakesIt) {
  draw("pond", "laptop");
  SamplePond(place("house"), "h-");
  Catalogue before = open("pond");
  const Entry signed_one = before.ledger().back().entry;
  nlohmann::json body = nlohmann::json::parse(signed_one.body);
  body["reason"] = "what R1 never said";
  put_in(place("pond"), signed_one.kind, canonical_json(body));
  const AuditReport report = audited("pond");
  EXPECT_THAT(report.findings, ::testing::Contains(::testing::Property(
                                   &Finding::wrong, "its signature is not of the key that it names")));
  Catalogue house = open("house"), other = open("pond");
  const auto all = hashes(house);
  try {
    merge(house, other, person("R1"));
    FAIL() << "it was taken";
  } catch (const Error& error) {
    EXPECT_THAT(error.what(), HasSubstr("its signature is not of the key that it names"));
  }
  EXPECT_EQ(hashes(house), all);
}

TEST_F(Signatures, ASignatureOfTheWrongShapeIsBroken) {
  draw("pond", "laptop");
  const Entry good = open("pond").ledger().back().entry;
  for (const char* claim :
       {R"("no object")", R"({})", R"({"key":"","signature":""})", R"({"key":7,"signature":[]})", "null"}) {
    Entry bad = good;
    nlohmann::json body = nlohmann::json::parse(good.body);
    body["signed"] = nlohmann::json::parse(claim);
    bad.body = canonical_json(body);
    EXPECT_EQ(signing_of(bad).how, Signing::broken) << claim;
  }
  Entry moved = good;  // to another place, another time, another mouth
  moved.seq += 1;
  EXPECT_EQ(signing_of(moved).how, Signing::broken);
  moved = good, moved.time = "2030-01-01T00:00:00+00:00";
  EXPECT_EQ(signing_of(moved).how, Signing::broken);
  moved = good, moved.actor.name = "R2";
  EXPECT_EQ(signing_of(moved).how, Signing::broken);
}

TEST_F(Signatures, AMergeTellsNewKeysAndWhoHadAnotherBefore) {
  draw("house", "laptop");
  draw("field", "tablet");
  Catalogue house = open("house"), field = open("field");
  const Machine signing(place("laptop"));
  const MergeReport report = merge(house, field, person("R1"));
  ASSERT_EQ(report.new_keys.size(), 2u);
  EXPECT_EQ(report.new_keys[0].who, "OB1");
  EXPECT_EQ(report.new_keys[1].who, "R1");
  EXPECT_EQ(report.known_signers, (std::set<std::string>{"OB1", "R1"}));
  EXPECT_NE(key_named(report.new_keys, "R1"), key_named(audited("house").keys, ""));
  EXPECT_TRUE(merge(house, field, person("R1")).new_keys.empty());
  EXPECT_EQ(audited("house").keys.size(), 4u);
}

TEST_F(Signatures, WhatComesUnsignedInTheNameOfWhoSignsIsCounted) {
  draw("pond", "laptop");
  {
    Catalogue catalogue = open("pond");
    const CaptureId capture = catalogue.identities().captures.front().id;
    catalogue.append(person("R1"), {LabelGiven{capture, "Dot"}});
    catalogue.append(person("R9"), {LabelGiven{capture, "Dash"}});
  }
  const AuditReport report = audited("pond");
  EXPECT_TRUE(report.holds());
  EXPECT_EQ(report.unsigned_since.size(), 1u);
  EXPECT_EQ(report.unsigned_since.at("R1"), 1u);
}

TEST_F(Signatures, MergesInAnyOrderGiveTheSameEntriesToTheByte) {
  draw("a", "laptop");
  draw("b", "tablet");
  SamplePond(place("c"), "c-");  // by an older program
  std::vector<std::string> names{"a", "b", "c"};
  std::set<std::string> outcomes;
  do {
    const fs::path into = place("into");
    fs::remove_all(into);
    fs::copy(place(names[0]), into, fs::copy_options::recursive);
    const Machine signing(place("laptop"));
    Catalogue catalogue = open("into");
    for (const int i : {1, 2, 1}) {
      Catalogue other = open(names[static_cast<size_t>(i)]);
      merge(catalogue, other, person("R1"));
    }
    std::string all;
    std::set<std::string> lines;
    for (const ListedEntry& one : catalogue.ledger())
      if (one.entry.kind != Merge::kKind) lines.insert(one.entry.hash + one.entry.body);
    for (const std::string& line : lines) all += line + "\n";
    outcomes.insert(all + told(catalogue.identities()));
    EXPECT_TRUE(audit(catalogue).holds());
  } while (std::next_permutation(names.begin(), names.end()));
  EXPECT_EQ(outcomes.size(), 1u);
}

TEST_F(Signatures, KeysAreKeptForTheirOwnerAlone) {
  std::string first;
  {
    ReaderKeys keys(system_env(), place("keys"));
    first = keys.sign(person("K/M é"), "x")->key;
    EXPECT_NE(keys.sign(person("k/m é"), "x")->key, first);
    EXPECT_NE(keys.sign(program(), "x")->key, first);
  }
  EXPECT_EQ(ReaderKeys(system_env(), place("keys")).sign(person("K/M é"), "x")->key, first);
  int files = 0;
  for (const auto& file : fs::directory_iterator(place("keys"))) {
    ++files;
    EXPECT_EQ(file.status().permissions(), fs::perms::owner_read | fs::perms::owner_write) << file.path();
  }
  EXPECT_EQ(files, 3);
  EXPECT_EQ(fs::status(place("keys")).permissions(), fs::perms::owner_all);
}

TEST_F(Signatures, WithoutAPlaceForKeysWorkGoesOnUnsigned) {
  system_env().write_file(place("keys"), bytes("a file where a folder has to be"));
  draw("pond", "keys");
  EXPECT_EQ(audited("pond").unsigned_entries, 10u);
  fs::create_directory(place("more"));
  {
    ReaderKeys keys(system_env(), place("more"));
    keys.sign(person("KM"), "x");
  }
  for (const auto& file : fs::directory_iterator(place("more")))
    system_env().write_file(file.path(), bytes("damaged"));
  ReaderKeys damaged(system_env(), place("more"));
  EXPECT_FALSE(damaged.sign(person("KM"), "x"));  // and the file is still there to be put right
  EXPECT_EQ(system_env().list_folder(place("more")).size(), 1u);
}

TEST_F(Signatures, ALaterLedgerIsShownToBeginWithTheEarlier) {
  draw("pond", "laptop");
  const AuditReport then = audited("pond");
  {
    Catalogue catalogue = open("pond");
    const CaptureId capture = catalogue.identities().captures.front().id;
    for (const char* label : {"Dot", "Dash", "Fork"})
      catalogue.append(person("R1"), {LabelGiven{capture, label}});
  }
  Catalogue now = Catalogue::open(place("pond"), system_env(), {.access = Access::read});
  AuditOptions options;
  options.grown_from = std::to_string(then.entries) + ":" + then.root;
  const AuditReport report = audit(now, options);
  EXPECT_TRUE(report.holds());
  std::vector<Digest> proof;
  for (const std::string& step : report.proof) proof.push_back(*digest_of(step));
  EXPECT_TRUE(
      consistent(then.entries, *digest_of(then.root), report.entries, *digest_of(report.root), proof));
  for (const std::string& other : {std::to_string(then.entries - 1) + ":" + then.root, "5000:" + then.root}) {
    options.grown_from = other;
    const AuditReport wrong = audit(now, options);
    ASSERT_EQ(wrong.findings.size(), 1u);
    EXPECT_THAT(wrong.findings[0].wrong(), HasSubstr("it does not begin with the"));
  }
  for (const char* none : {"x", "12", ":", "12:abc", "-1:"}) {
    options.grown_from = none;
    EXPECT_THROW(audit(now, options), Error) << none;
  }
}

}  // namespace
}  // namespace evet
