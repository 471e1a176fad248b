// Folders that are no catalogue, of another version, damaged or tampered with: one clear sentence, never a
// crash, and nothing made worse.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <random>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/store.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/hostile_files.h"
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

// An entry that cannot be read says nothing and is named; the others say what they said, and the catalogue
// can be written to. That it was altered, its hash shows the audit.
TEST_F(Hostile, BodiesThatDoNotFitAreSetAsideAndNamed) {
  for (const char* body :
       {"", "{", "[]", "{}", "null", "7", "{\"answer\":\"perhaps\",\"capture\":\"x\"}",
        "{\"answer\":\"same\",\"capture\":7}", "{\"answer\":\"same\",\"capture\":\"x\",\"settles\":[3]}",
        "{\"answer\":\"same\",\"capture\":\"x\",\"other\":\"x\"}"}) {
    SCOPED_TRACE(body);
    const fs::path copy = folder.path / "copy";
    fs::remove_all(copy);
    fs::copy(pond, copy, fs::copy_options::recursive);
    tamper_unguarded(copy,
                     std::string("UPDATE entry SET body = '") + body +
                         "' WHERE kind = 'verdict'; UPDATE here SET value = '0' WHERE key = 'projection'");
    for (const Access access : {Access::read, Access::write}) {
      Catalogue catalogue = Catalogue::open(copy, system_env(), {.access = access});
      const Identities& who = catalogue.identities();
      ASSERT_EQ(who.set_aside.size(), 3u);
      EXPECT_FALSE(who.set_aside[0].why.empty());
      EXPECT_EQ(who.captures.size(), 3u);
      EXPECT_EQ(who.unsettled(), 3u);
      EXPECT_FALSE(audit(catalogue).holds());
    }
    Catalogue catalogue = Catalogue::open(copy, system_env());
    catalogue.append(person("R1"), {Verdict{.capture = capture, .answer = Answer::new_individual}});
    EXPECT_EQ(catalogue.identities().unsettled(), 2u);
    EXPECT_EQ(catalogue.identities().set_aside.size(), 3u);
  }
}

TEST_F(Hostile, ACaptureThatCannotBeReadTakesNothingElseWithIt) {
  tamper_unguarded(
      pond,
      "UPDATE entry SET body = '{}' WHERE kind = 'capture' AND position = (SELECT MIN(position) "
      "FROM entry WHERE kind = 'capture'); UPDATE here SET value = '0' WHERE key = 'projection'");
  Catalogue catalogue = Catalogue::open(pond, system_env());
  EXPECT_EQ(catalogue.identities().set_aside.size(), 1u);
  EXPECT_EQ(catalogue.identities().captures.size(), 2u);
  EXPECT_EQ(catalogue.identities().capture(capture), nullptr);
  catalogue.append(person("R1"), {LabelGiven{catalogue.identities().captures[0].id, "Dot"}});
  Catalogue reader = Catalogue::open(pond, system_env(), {.access = Access::read});
  EXPECT_EQ(told(reader.identities()), told(catalogue.identities()));
}

// One entry with the highest id there is used up all ids after it.
TEST_F(Hostile, AnIdBeyondAnyClockIsSetAsideAndLeavesRoom) {
  for (const char* id : {"ffffffff-ffff-7fff-bfff-ffffffffffff", "0699e991-a800-7000-8000-000000000000"}) {
    SCOPED_TRACE(id);
    const fs::path copy = folder.path / "copy";
    fs::remove_all(copy);
    fs::copy(pond, copy, fs::copy_options::recursive);
    put_in(copy, LabelGiven::kKind, R"({"capture":")" + capture.value + R"(","label":"Poison"})", id);
    Catalogue catalogue = Catalogue::open(copy, system_env());
    ASSERT_EQ(catalogue.identities().set_aside.size(), 1u);
    EXPECT_EQ(catalogue.identities().set_aside[0].entry.value, id);
    for (const char* label : {"Dot", "Dash"})
      EXPECT_LT(catalogue.append(person("R1"), {LabelGiven{capture, label}}).back().id.value, kIdBound);
    EXPECT_EQ(catalogue.identities().individuals[0].label, "Dash");
  }
}

TEST_F(Hostile, TextsBeyondAnyNameAreNotTaken) {
  Catalogue catalogue = Catalogue::open(pond, system_env());
  EXPECT_THROW(catalogue.append(person("R1"), {LabelGiven{capture, std::string(100'000, 'x')}}), Error);
  EXPECT_THROW(catalogue.append(person(std::string(100'000, 'x')), {LabelGiven{capture, "Dot"}}), Error);
  EXPECT_NO_THROW(catalogue.append(person("R1"), {LabelGiven{capture, std::string(1000, 'x')}}));
}

// A journal that names another file has SQLite remove that file. Shown on SQLite by itself first.
TEST_F(Hostile, AJournalThatNamesAFileRemovesNothing) {
  const fs::path victim = folder.path / "victim.txt", journal = file.string() + "-journal";
  const auto lay_out = [&] {
    system_env().write_file(victim, bytes("of somebody else"));
    const auto pages = static_cast<std::uint32_t>(fs::file_size(file) / 4096);
    system_env().write_file(journal, journal_naming(victim.string(), pages));
  };
  lay_out();
  {
    SQLite::Database plain(file.string(), SQLite::OPEN_READWRITE);
    plain.execAndGet("SELECT count(*) FROM entry");
  }
  ASSERT_FALSE(fs::exists(victim)) << "this journal does no harm: the test shows nothing";
  for (const Access access : {Access::read, Access::write}) {
    lay_out();
    const auto before = tree(folder.path);
    EXPECT_THAT(refusal(pond, ErrorKind::bad_input, system_env(), access), HasSubstr("names another file"));
    EXPECT_EQ(tree(folder.path), before);
    // And where nobody looked at the journal beforehand.
    EXPECT_THROW(Store(file, access == Access::write, 0).last_position(), Error);
    EXPECT_EQ(tree(folder.path), before);
  }
}

TEST_F(Hostile, AJournalThatIsNoFileIsNotFollowed) {
  system_env().write_file(folder.path / "victim.txt", bytes("of somebody else"));
  fs::create_symlink(folder.path / "victim.txt", file.string() + "-journal");
  const auto before = tree(folder.path);
  for (const Access access : {Access::read, Access::write})
    refusal(pond, ErrorKind::bad_input, system_env(), access);
  EXPECT_EQ(tree(folder.path), before);
}

TEST_F(Hostile, WhatLeadsElsewhereIsNotOpened) {
  const fs::path elsewhere = folder.path / "elsewhere";
  for (const char* name : {"photos", "cache", "catalogue.sqlite"}) {
    const fs::path copy = folder.path / "copy";
    fs::remove_all(copy), fs::remove_all(elsewhere);
    fs::copy(pond, copy, fs::copy_options::recursive);
    fs::rename(copy / name, elsewhere);
    fs::create_symlink(elsewhere, copy / name);
    const auto before = tree(folder.path);
    for (const Access access : {Access::read, Access::write})
      EXPECT_THAT(refusal(copy, ErrorKind::bad_input, system_env(), access),
                  HasSubstr("is a link to another place"));
    EXPECT_EQ(tree(folder.path), before);
  }
}

TEST_F(Hostile, ASchemaThatActsByItselfIsRefused) {
  for (const char* change : {"ALTER TABLE entry RENAME TO shown; CREATE VIEW entry AS SELECT * FROM shown",
                             "CREATE VIEW extra AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 "
                             "FROM n) SELECT i FROM n",
                             "CREATE TRIGGER extra AFTER INSERT ON entry BEGIN DELETE FROM verdict; END",
                             "CREATE VIRTUAL TABLE extra USING rtree(id, a, b)",
                             "DROP TABLE about; CREATE TABLE about (capture TEXT, position INTEGER)"}) {
    SCOPED_TRACE(change);
    const fs::path copy = folder.path / "copy";
    fs::remove_all(copy);
    fs::copy(pond, copy, fs::copy_options::recursive);
    tamper(copy, change);
    for (const Access access : {Access::read, Access::write})
      EXPECT_THAT(refusal(copy, ErrorKind::bad_input, system_env(), access), HasSubstr("does not make"));
  }
}

TEST_F(Hostile, AnotherJournalModeIsToldAndNotFollowed) {
  tamper(pond, "PRAGMA journal_mode = WAL");
  const auto before = tree(pond);
  EXPECT_THAT(refusal(pond, ErrorKind::bad_input, system_env(), Access::read), HasSubstr("journal mode"));
  EXPECT_EQ(tree(pond), before);
}

TEST_F(Hostile, ReadingChangesNothing) {
  fs::remove_all(pond / "cache");
  const auto read = [&] {
    Catalogue catalogue = Catalogue::open(pond, system_env(), {.access = Access::read});
    catalogue.identities();
    catalogue.cache().strip(PhotoId(std::string(64, 'a')), "v1");
    return catalogue.ledger().size();
  };
  const auto before = tree(pond);
  const size_t entries = read();
  EXPECT_EQ(tree(pond), before);
  // With a cache, and with what a killed writer left half written: the pages before its change, in a journal.
  { Cache(pond / "cache", system_env(), true).keep_strip(PhotoId(std::string(64, 'a')), "v1", bytes("x")); }
  const fs::path original = folder.path / "original.sqlite";
  fs::copy_file(file, original);
  if (const pid_t child = ::fork(); child == 0) {
    SQLite::Database writer(file.string(), SQLite::OPEN_READWRITE);
    writer.exec("PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN IMMEDIATE");
    for (int i = 0; i < 300; ++i)
      writer.exec("INSERT INTO here VALUES ('" + std::to_string(i) + "', hex(zeroblob(900)))");
    ::kill(::getpid(), SIGKILL);
  } else {
    int status = 0;
    ::waitpid(child, &status, 0);
  }
  ASSERT_TRUE(fs::exists(file.string() + "-journal"));
  ASSERT_NE(system_env().read_file(file), system_env().read_file(original)) << "nothing was half written";
  const auto half_written = tree(pond);
  EXPECT_EQ(read(), entries);
  EXPECT_EQ(tree(pond), half_written);
  Catalogue::open(pond, system_env());  // who may write takes it back
  EXPECT_EQ(system_env().read_file(file), system_env().read_file(original));
}

TEST_F(Hostile, AnythingButAFileInAPhotosPlaceIsNoPhoto) {
  SamplePond other(folder.path / "other", "o-");
  const PhotoId photo = other.photos[0];
  const fs::path place = folder.path / "other/photos" / photo.value.substr(0, 2) / photo.value;
  const auto wrong = [&] {
    EXPECT_THROW(other.catalogue.read_photo(photo), Error);
    EXPECT_FALSE(audit(other.catalogue).holds());
    EXPECT_NO_THROW(audit(other.catalogue, {.photos = false}));
  };
  fs::remove(place);
  ASSERT_EQ(::mkfifo(place.c_str(), 0600), 0);
  wrong();  // and does not wait for somebody to write into it
  EXPECT_THROW(other.catalogue.store_photo(bytes("a picture of o-a1")), Error);
  fs::remove(place);
  system_env().write_file(folder.path / "secret", bytes("a picture of o-a1"));
  fs::create_symlink(folder.path / "secret", place);
  wrong();
  fs::remove(place);
  system_env().write_file(place, {});
  fs::resize_file(place, 5'000'000'000);
  wrong();  // and is not read into memory
  fs::remove(place);
  EXPECT_EQ(other.catalogue.store_photo(bytes("a picture of o-a1")), photo);
  EXPECT_TRUE(audit(other.catalogue).holds());
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
