// A folder that somebody else made, with a command run on it: its databases are read apart, and written anew before
// anything is added. What was made here is opened as it is.
#include "matcher/catalogue/taken_over.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <functional>

#include "matcher/base/error.h"
#include "matcher/catalogue/altered.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/cache_rows.h"
#include "matcher/catalogue/own_databases.h"
#include "matcher/catalogue/repair.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/faulty_disk.h"
#include "tests/matcher/catalogue/hostile_files.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

constexpr const char* kUnseen = "CREATE TABLE unseen (x TEXT)";  // of which the program would make none

struct TakenOver : ::testing::Test {
  const Folder folder;
  const fs::path pond = folder.path / "pond", file = pond / "catalogue.sqlite",
                 list = folder.path / "state/own";
  ReadersApart readers{std::make_shared<ConfinedMaker>(std::vector{ReadersApart::confined()}), 0};
  OwnDatabases own{system_env(), list};
  CaptureId capture;
  PhotoId photo;
  std::string who;
  TakenOver() {
    SamplePond made(pond);  // by somebody who keeps no list
    capture = made.a1, photo = made.photos[0], who = told(made.catalogue.identities());
    made.catalogue.cache().keep_strip(photo, "v1", bytes("a strip"));
    ReadersApart::use(&readers), OwnDatabases::use(&own);
  }
  ~TakenOver() override { OwnDatabases::use(nullptr), ReadersApart::use(nullptr); }
  Catalogue read() const { return Catalogue::open(pond, system_env(), {.access = Access::read}); }
  Catalogue write() const { return Catalogue::open(pond, system_env()); }
  // Without the guard: as the file lies there.
  bool has_table(const char* name) const {
    SQLite::Database database(file.string());
    return database.tableExists(name);
  }
};

TEST_F(TakenOver, ReadingSaysTheSameAndChangesNothing) {
  tamper(pond, kUnseen);
  const auto before = tree(folder.path);
  Catalogue catalogue = read();
  EXPECT_EQ(told(catalogue.identities()), who);
  EXPECT_EQ(catalogue.captures_with_photo(photo).size(), 1u);
  EXPECT_EQ(catalogue.photo(photo, capture).photo, photo);
  EXPECT_EQ(catalogue.ledger({.capture = capture}).size(), 4u);
  EXPECT_EQ(catalogue.cache().strip(photo, "v1"), bytes("a strip"));
  EXPECT_FALSE(catalogue.cache().strip(photo, "v2"));
  EXPECT_FALSE(catalogue.cache().strip(PhotoId(std::string(64, 'a')), "v1"));
  EXPECT_TRUE(audit(catalogue).holds());
  EXPECT_EQ(tree(folder.path), before);
}

// Tables that say otherwise than the ledger are not believed.
TEST_F(TakenOver, WhatTheTablesSayIsMadeFromTheLedger) {
  tamper(pond, "UPDATE verdict SET answer = 'different' WHERE answer = 'same'");
  OwnDatabases::use(nullptr);
  ASSERT_NE(told(read().identities()), who) << "the tables are believed of one's own: the test shows nothing";
  OwnDatabases::use(&own);
  EXPECT_EQ(told(read().identities()), who);
  EXPECT_EQ(told(write().identities()), who);
  OwnDatabases::use(nullptr);
  Catalogue after = read();
  EXPECT_TRUE(audit(after).holds());
}

TEST_F(TakenOver, WritingWritesItAnewOnce) {
  tamper(pond, kUnseen);
  const std::string head = read().head_hash();
  {
    Catalogue catalogue = write();
    EXPECT_FALSE(has_table("unseen"));
    EXPECT_EQ(told(catalogue.identities()), who);
    EXPECT_EQ(catalogue.head_hash(), head);
    EXPECT_EQ(catalogue.cache().strip(photo, "v1"), bytes("a strip"));
    catalogue.append(person("R1"), {LabelGiven{capture, "Dot"}});
    EXPECT_EQ(catalogue.ledger().back().entry.seq, 11) << "the chain that it had goes on";
  }
  const std::string state = Store::state_of(file);
  EXPECT_EQ(write().ledger().size(), 11u);
  EXPECT_EQ(Store::state_of(file), state) << "it was written anew once more";
  Catalogue after = read();
  EXPECT_TRUE(audit(after, {.against = head}).holds());
  // Another program of the same user knows it from the list.
  OwnDatabases other(system_env(), list);
  EXPECT_TRUE(other.has(system_env().identity(file)));
  EXPECT_TRUE(other.has(system_env().identity(pond / "cache/patterns.sqlite")));
}

TEST_F(TakenOver, WhatIsMadeHereIsOpenedAsItIs) {
  const fs::path made = folder.path / "made";
  Catalogue::create(made, "Alder Fen", person("R1"), system_env());
  tamper(made, kUnseen);
  Catalogue::open(made, system_env());
  SQLite::Database database((made / "catalogue.sqlite").string());
  EXPECT_TRUE(database.tableExists("unseen"));
  EXPECT_TRUE(own.has(system_env().identity(made / "cache/patterns.sqlite")));
  fs::copy(made, folder.path / "copy", fs::copy_options::recursive);
  EXPECT_TRUE(from_elsewhere(folder.path / "copy/catalogue.sqlite", system_env()));
  repair(folder.path / "copy", system_env());
  EXPECT_FALSE(from_elsewhere(folder.path / "copy/catalogue.sqlite", system_env()));
}

TEST_F(TakenOver, ALockedOneIsWaitedForAndLeft) {
  SQLite::Database writer(file.string(), SQLite::OPEN_READWRITE);
  writer.exec("BEGIN EXCLUSIVE");
  for (const Access access : {Access::read, Access::write}) try {
      Catalogue::open(pond, system_env(), {.access = access, .busy_timeout_ms = 50});
      ADD_FAILURE() << "it was opened";
    } catch (const Error& error) {
      EXPECT_THAT(error.what(), HasSubstr("another program is writing"));
    }
  writer.exec("ROLLBACK");
  EXPECT_EQ(told(write().identities()), who);
}

// Who has it open goes on with what is there then, and loses nothing.
TEST_F(TakenOver, AWriterBesideItLosesNothing) {
  OwnDatabases::use(nullptr);
  Catalogue beside = write();  // as a program without a list does
  OwnDatabases::use(&own);
  Catalogue catalogue = write();
  beside.append(person("R2"), {LabelGiven{capture, "Dot"}});
  catalogue.append(person("R1"), {LabelGiven{capture, "Fork"}});
  beside.append(person("R2"), {LabelGiven{capture, "Dot again"}});
  EXPECT_EQ(told(catalogue.identities()), told(beside.identities()));
  EXPECT_EQ(catalogue.ledger().size(), 13u);
  EXPECT_TRUE(audit(catalogue).holds());
}

TEST_F(TakenOver, OneThatChangedSinceItWasReadIsNotOverwritten) {
  const LedgerApart before = readers.ledger(file, false, 0);
  tamper(pond, kUnseen);
  EXPECT_FALSE(store_of(file, before, true).put_into(file, before.state, 0));
  EXPECT_TRUE(has_table("unseen"));
  const LedgerApart now = readers.ledger(file, false, 0);
  EXPECT_TRUE(store_of(file, now, true).put_into(file, now.state, 0));
  EXPECT_FALSE(has_table("unseen"));
}

// Every change of the disk on the way fails once, by an error, by a full disk and by the end of the process: what
// was there is there, before or after.
TEST_F(TakenOver, StoppedAnywhereItIsOneOrTheOther) {
  tamper(pond, kUnseen);
  const fs::path whole = folder.path / "whole";
  fs::copy(pond, whole, fs::copy_options::recursive);
  for (const DiskFault fault : {DiskFault::io_error, DiskFault::full, DiskFault::kill})
    for (int n = 1, failed = 1; failed != 0; ++n) {
      SCOPED_TRACE(n);
      fs::remove_all(pond);
      fs::copy(whole, pond, fs::copy_options::recursive);
      const pid_t child = ::fork();
      if (child == 0) {
        FaultyDisk disk;
        disk.fail_at(n, fault);
        try {
          write();
        } catch (const Error&) {
          ::_exit(1);
        }
        ::_exit(0);
      }
      ::waitpid(child, &failed, 0);
      ASSERT_TRUE(!WIFSIGNALED(failed) || WTERMSIG(failed) == SIGKILL);
      EXPECT_EQ(told(read().identities()), who);
      Catalogue catalogue = write();
      catalogue.append(person("R1"), {LabelGiven{capture, "Dot"}});
      EXPECT_TRUE(audit(catalogue).holds());
      ASSERT_LT(n, 1000);
    }
}

TEST_F(TakenOver, WhatIsHarmfulIsRefusedAndLeft) {
  tamper(pond, "CREATE TRIGGER extra AFTER INSERT ON here BEGIN DELETE FROM verdict; END");
  const auto before = tree(pond);
  for (const Access access : {Access::read, Access::write})
    EXPECT_THROW(Catalogue::open(pond, system_env(), {.access = access}), AlteredCatalogue);
  EXPECT_EQ(tree(pond), before);
  EXPECT_EQ(repair(pond, system_env()).entries, 10u);  // read apart as well
  EXPECT_EQ(told(write().identities()), who);
}

TEST_F(TakenOver, ARowOfTheCacheThatIsNotAsItWasWrittenIsNone) {
  const fs::path cache = pond / "cache/patterns.sqlite";
  SQLite::Database(cache.string(), SQLite::OPEN_READWRITE)
      .exec("INSERT INTO block VALUES ('x', 'strip', 'v1', x'00', 'no sum')");
  EXPECT_FALSE(read().cache().strip(PhotoId("x"), "v1"));
  EXPECT_EQ(write().cache().strip(photo, "v1"), bytes("a strip"));
  SQLite::Database after(cache.string());
  EXPECT_EQ(after.execAndGet("SELECT count(*) FROM block").getInt(), 1);
  system_env().write_file(cache, bytes("no database"));
  own.add("unlike " + system_env().identity(cache));
  OwnDatabases nobody(system_env(), folder.path / "state/nobody");
  OwnDatabases::use(&nobody);
  EXPECT_FALSE(read().cache().strip(photo, "v1"));
  Catalogue catalogue = write();
  EXPECT_FALSE(catalogue.cache().strip(photo, "v1"));
  catalogue.cache().keep_strip(photo, "v1", bytes("a strip"));
  EXPECT_EQ(catalogue.cache().strip(photo, "v1"), bytes("a strip"));
  EXPECT_EQ(fs::directory_iterator(pond / "cache")->path().string().find(".part"), std::string::npos);
}

// A reader of the cache that was taken over, with what it then says: no row, soon, and a cache that works.
TEST_F(TakenOver, AReaderOfTheCacheThatWasTakenOverIsNotBelieved) {
  const auto row = [](Line& line, const std::string& sum, std::uint32_t bytes) {
    line.put_value<std::uint8_t>(1);
    for (const std::string& text : {std::string("x"), std::string("strip"), std::string("v1"), sum})
      line.put_text(text);
    line.put_value(bytes);
    line.put(std::string(5, 'x').data(), 5);
  };
  const std::string good = cache_sum("x", "strip", "v1", bytes("xxxxx"));
  const std::vector<std::function<void(Line&)>> lies{
      [](Line&) { std::abort(); },
      [](Line&) {},
      [&](Line& line) { row(line, good, 4'000'000'000); },
      [&](Line& line) { row(line, "no sum", 5); },
      [&](Line& line) {  // without end
        for (;;) row(line, good, 5);
      },
  };
  for (const auto& lie : lies) {
    ReadersApart taken_over(std::make_shared<ConfinedMaker>(std::vector<ConfinedWork>{[&](Line& line) {
                              line.get_value<std::uint8_t>(), line.get_text(10'000);
                              line.get_value<std::uint8_t>(), take_files(1);
                              lie(line);
                            }}),
                            0, 5);
    ReadersApart::use(&taken_over);
    const fs::path copy = folder.path / "copied-cache";
    fs::remove_all(copy);
    fs::copy(pond / "cache", copy, fs::copy_options::recursive);
    EXPECT_FALSE(Cache(copy, system_env(), false).strip(photo, "v1"));
    Cache cache(copy, system_env(), true);
    EXPECT_FALSE(cache.strip(photo, "v1"));
    cache.keep_strip(photo, "v1", bytes("a strip"));
    EXPECT_EQ(cache.strip(photo, "v1"), bytes("a strip"));
    EXPECT_LT(fs::file_size(copy / "patterns.sqlite"), 1'000'000u);
  }
  ReadersApart::use(&readers);
}

TEST_F(TakenOver, WithoutAPlaceForTheListItIsKnownWhileTheProgramRuns) {
  OwnDatabases nowhere(system_env(), {});
  OwnDatabases::use(&nowhere);
  write();
  EXPECT_FALSE(from_elsewhere(file, system_env()));
  system_env().write_file(folder.path / "state", bytes("a file in the folder's place"));
  OwnDatabases refused(system_env(), list);
  OwnDatabases::use(&refused);
  EXPECT_TRUE(from_elsewhere(file, system_env()));
  EXPECT_EQ(told(write().identities()), who);
  EXPECT_FALSE(from_elsewhere(file, system_env()));
}

}  // namespace
}  // namespace evet
