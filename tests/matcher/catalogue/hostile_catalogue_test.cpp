// Folders that are no catalogue, of another version, damaged or tampered with: one clear sentence, never a
// crash, and nothing made worse.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <random>

#include "matcher/base/error.h"
#include "matcher/catalogue/audit.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

std::string refusal(const fs::path& folder, ErrorKind kind, Env& env = system_env(),
                    Access access = Access::write) {
  try {
    Catalogue::open(folder, env, {.access = access});
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), kind) << error.what();
    return error.what();
  }
  return "it was opened";
}

struct Hostile : ::testing::Test {
  const Folder folder;
  const fs::path pond = folder.path / "pond", file = pond / "catalogue.sqlite";
  CaptureId capture;
  Hostile() { capture = SamplePond(pond).a1; }
};

TEST_F(Hostile, WhatIsNoCatalogueIsSaidToBeNone) {
  EXPECT_THAT(refusal(folder.path / "none", ErrorKind::not_found), HasSubstr("there is no such folder"));
  fs::create_directory(folder.path / "empty");
  EXPECT_THAT(refusal(folder.path / "empty", ErrorKind::bad_input), HasSubstr("catalogue.sqlite is missing"));
  for (const char* content : {"", "short", "SQLite format 3"}) {
    write_file_durably(system_env(), file, bytes(content));
    EXPECT_THAT(refusal(pond, ErrorKind::bad_input), HasSubstr("is not a database"));
  }
  write_file_durably(system_env(), file, bytes(std::string(5000, 'x')));
  EXPECT_THAT(refusal(pond, ErrorKind::bad_input), HasSubstr("is not a database"));
  fs::remove(file);
  fs::create_directory(file);
  EXPECT_THAT(refusal(pond, ErrorKind::bad_input), HasSubstr("is not a file"));
}

TEST_F(Hostile, ADatabaseOfAnotherProgramIsRefused) {
  tamper(pond, "PRAGMA application_id = 7");
  EXPECT_THAT(refusal(pond, ErrorKind::bad_input), HasSubstr("a database of another program"));
}

TEST_F(Hostile, ANewerFormatIsRefused) {
  tamper(pond, "PRAGMA user_version = 2");
  const std::string text = refusal(pond, ErrorKind::unsupported);
  EXPECT_THAT(text, HasSubstr("format 2"));
  EXPECT_THAT(text, HasSubstr("use the newer version"));
}

TEST_F(Hostile, AFolderThatMayOnlyBeReadIsReadAndNotWritten) {
  struct ReadOnly : testing_env::StillEnv {
    bool is_writable(const fs::path&) override { return false; }
  } env;
  EXPECT_THAT(refusal(pond, ErrorKind::storage, env), HasSubstr("may not be written to"));
  Catalogue catalogue = Catalogue::open(pond, env, {.access = Access::read});
  EXPECT_EQ(catalogue.identities().individuals.size(), 2u);
  EXPECT_THROW(catalogue.append(person("R1"), {LabelGiven{capture, "Dot"}}), Error);
}

TEST_F(Hostile, AFolderWithoutWritePermissionIsRead) {
  if (::geteuid() == 0) GTEST_SKIP() << "root may write everywhere";
  fs::permissions(file, fs::perms::owner_read);
  fs::permissions(pond, fs::perms::owner_read | fs::perms::owner_exec);
  EXPECT_THAT(refusal(pond, ErrorKind::storage), HasSubstr("may not be written to"));
  EXPECT_EQ(Catalogue::open(pond, system_env(), {.access = Access::read}).identities().individuals.size(),
            2u);
  fs::permissions(pond, fs::perms::owner_all);
}

TEST_F(Hostile, TheLedgerCannotBeChanged) {
  for (const char* change :
       {"UPDATE entry SET actor = 'R7' WHERE position = 3", "DELETE FROM entry WHERE position = 10",
        "DELETE FROM entry", "INSERT OR REPLACE INTO entry SELECT * FROM entry WHERE position = 3",
        "REPLACE INTO entry (position, id, device, seq, time, actor_kind, actor, kind, body, prev, hash) "
        "SELECT 99, id, device, seq, time, actor_kind, 'R7', kind, body, prev, 'x' FROM entry WHERE position "
        "= 3",
        "UPDATE OR IGNORE entry SET body = '{}'"})
    EXPECT_THROW(tamper(pond, change), SQLite::Exception) << change;
  Catalogue catalogue = Catalogue::open(pond, system_env());
  EXPECT_TRUE(audit(catalogue).holds());
}

TEST_F(Hostile, ProjectionsOfAnotherVersionAreMadeAnew) {
  tamper(pond,
         "UPDATE here SET value = '0' WHERE key = 'projection'; DELETE FROM about; DELETE FROM verdict");
  {  // read-only: folded from the ledger itself
    Catalogue catalogue = Catalogue::open(pond, system_env(), {.access = Access::read});
    EXPECT_EQ(catalogue.identities().individuals.size(), 2u);
  }
  Catalogue catalogue = Catalogue::open(pond, system_env());
  EXPECT_TRUE(audit(catalogue).holds());
}

TEST_F(Hostile, ALedgerWithoutAnEntryIsNoCrash) {
  tamper_unguarded(pond,
                   "PRAGMA foreign_keys = OFF; DELETE FROM about; DELETE FROM verdict; DELETE FROM photo; "
                   "DELETE FROM capture; DELETE FROM entry");
  Catalogue catalogue = Catalogue::open(pond, system_env(), {.access = Access::read});
  EXPECT_EQ(catalogue.head_hash(), "");
  EXPECT_EQ(catalogue.title(), "");
  EXPECT_TRUE(catalogue.identities().captures.empty());
  EXPECT_NO_THROW(audit(catalogue));
}

TEST_F(Hostile, BodiesThatDoNotFitAreNamed) {
  for (const char* body :
       {"", "{", "[]", "{}", "null", "7", "{\"answer\":\"perhaps\",\"capture\":\"x\"}",
        "{\"answer\":\"same\",\"capture\":7}", "{\"answer\":\"same\",\"capture\":\"x\",\"settles\":[3]}",
        "{\"answer\":\"same\",\"capture\":\"x\",\"other\":\"x\"}"}) {
    const fs::path copy = folder.path / "copy";
    fs::remove_all(copy);
    fs::copy(pond, copy, fs::copy_options::recursive);
    tamper_unguarded(copy,
                     std::string("UPDATE entry SET body = '") + body +
                         "' WHERE kind = 'verdict'; UPDATE here SET value = '0' WHERE key = 'projection'");
    Catalogue catalogue = Catalogue::open(copy, system_env(), {.access = Access::read});
    try {
      catalogue.identities();
      ADD_FAILURE() << "it was taken: " << body;
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::bad_input) << error.what();
      EXPECT_THAT(error.what(), HasSubstr("entry "));
    }
    EXPECT_FALSE(audit(catalogue).holds());
  }
}

// Bytes changed at random, pieces cut off, blocks written over: an Error or a right answer, nothing else.
TEST_F(Hostile, DamagedFilesNeverCrash) {
  const Bytes whole = system_env().read_file(file);
  std::mt19937 random(5);
  int refused = 0, opened = 0;
  for (int trial = 0; trial < 250; ++trial) {
    Bytes damaged = whole;
    switch (trial % 4) {
      case 0:
        damaged.resize(random() % damaged.size());
        break;
      case 1:
        for (int i = 0; i < 40; ++i) damaged[random() % damaged.size()] = static_cast<std::byte>(random());
        break;
      case 2:
        damaged[100 + random() % (damaged.size() - 100)] = static_cast<std::byte>(random());
        break;
      default: {
        const size_t from = 4096 * (random() % (damaged.size() / 4096)), length = random() % 4096;
        for (size_t i = from; i < from + length; ++i)
          damaged[i] = static_cast<std::byte>(trial % 8 == 3 ? 0 : random());
      }
    }
    system_env().write_file(file, damaged);
    for (const Access access : {Access::read, Access::write}) {
      try {
        Catalogue catalogue = Catalogue::open(pond, system_env(), {.access = access});
        catalogue.identities();
        catalogue.ledger();
        audit(catalogue, {.photos = false});
        if (access == Access::write) catalogue.append(person("R1"), {LabelGiven{capture, "Dot"}});
        ++opened;
      } catch (const Error&) {
        ++refused;
      }
    }
    fs::remove(pond / "catalogue.sqlite-journal");
  }
  EXPECT_GT(refused, 100);
  EXPECT_GT(opened, 10);
}

}  // namespace
}  // namespace evet
