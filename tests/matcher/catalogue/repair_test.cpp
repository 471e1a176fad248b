// A catalogue that is damaged, or that the program refuses, gets back to work with every
// entry that can be read.
#include "matcher/catalogue/repair.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <random>

#include "matcher/base/error.h"
#include "matcher/catalogue/audit.h"
#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/hostile_files.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet {
namespace {

using namespace try_out;
namespace fs = std::filesystem;

struct Repair : testing::Test {
  const Folder folder;
  const fs::path pond = folder.path / "pond", file = pond / "catalogue.sqlite";
  CaptureId capture;
  std::string who, head;
  Repair() {
    SamplePond made(pond);
    for (int i = 0; i < 60; ++i) made.add("2031-06-01", "c" + std::to_string(i));
    capture = made.a1, who = told(made.catalogue.identities()), head = made.catalogue.head_hash();
  }
  // Repaired, it says what it said, can be written to, and the audit holds.
  void expect_whole() {
    Catalogue catalogue = Catalogue::open(pond, system_env());
    EXPECT_EQ(told(catalogue.identities()), who);
    catalogue.append(person("R1"), {LabelGiven{capture, "Dot"}});
    const AuditReport report = audit(catalogue, {.against = head});
    EXPECT_TRUE(report.holds()) << report.findings.front().item << ": " << report.findings.front().wrong();
  }
};

TEST_F(Repair, OfAWholeOneChangesNothingOfWhatItSays) {
  const RepairReport report = repair(pond, system_env());
  EXPECT_EQ(report.entries, 130u);
  EXPECT_EQ(report.unread, 0u);
  EXPECT_TRUE(report.left_out.empty());
  EXPECT_TRUE(fs::exists(report.old_database));
  expect_whole();
}

TEST_F(Repair, OfWhatTheProgramRefusesToRun) {
  for (const char* change :
       {"ALTER TABLE entry RENAME TO shown; CREATE TABLE entry (position INTEGER PRIMARY KEY, id, "
        "device, seq, time, actor_kind, actor, kind, body, prev, hash); INSERT INTO entry SELECT "
        "* FROM shown; DROP TABLE shown",
        "CREATE TRIGGER extra AFTER INSERT ON here BEGIN DELETE FROM verdict; END",
        "DROP TRIGGER entry_no_delete", "DROP TABLE about", "DELETE FROM verdict", "DROP INDEX entry_kind",
        "PRAGMA journal_mode = WAL"}) {
    SCOPED_TRACE(change);
    const std::string whole =
        std::string("PRAGMA foreign_keys = OFF; PRAGMA legacy_alter_table = ON;") + change;
    if (whole.find("ALTER TABLE") != std::string::npos)
      tamper_unguarded(pond, whole);
    else
      tamper(pond, whole);
    const RepairReport report = repair(pond, system_env());
    EXPECT_TRUE(report.left_out.empty());
    EXPECT_EQ(report.entries, 130u);
    Catalogue catalogue = Catalogue::open(pond, system_env());
    EXPECT_TRUE(audit(catalogue, {.against = head}).holds());
  }
}

TEST_F(Repair, OfAJournalThatNamesAFileTouchesNoFile) {
  const fs::path victim = folder.path / "victim.txt";
  system_env().write_file(victim, bytes("of somebody else"));
  system_env().write_file(
      file.string() + "-journal",
      journal_naming(victim.string(), static_cast<std::uint32_t>(fs::file_size(file) / 4096)));
  EXPECT_THROW(Catalogue::open(pond, system_env()), Error);
  repair(pond, system_env());
  EXPECT_EQ(system_env().read_file(victim), bytes("of somebody else"));
  expect_whole();
}

// Any page of the file gone: what lay on others is kept, and what can be made again is.
TEST_F(Repair, OfADamagedFileKeepsEveryEntryThatCanBeRead) {
  const Bytes whole = system_env().read_file(file);
  const size_t pages = whole.size() / 4096;
  size_t complete = 0, kept = 0, rootless = 0;
  for (size_t page = 1; page < pages; ++page) {
    Bytes damaged = whole;
    std::mt19937 random(static_cast<unsigned>(page));
    for (size_t i = 0; i < 4096; ++i) damaged[page * 4096 + i] = static_cast<std::byte>(random());
    system_env().write_file(file, damaged);
    RepairReport report;
    try {
      report = repair(pond, system_env());
    } catch (
        const Error& error) {  // the root of the ledger's own tree: nothing leads to its entries any more
      EXPECT_EQ(error.kind(), ErrorKind::storage) << "page " << page;
      EXPECT_EQ(system_env().read_file(file), damaged);
      ++rootless;
      continue;
    }
    complete += report.entries == 130, kept += report.entries;
    Catalogue catalogue = Catalogue::open(pond, system_env());
    EXPECT_EQ(catalogue.ledger().size(), report.entries);
    EXPECT_NO_THROW(catalogue.identities());
    EXPECT_NO_THROW(audit(catalogue));
    if (report.entries == 130) {
      EXPECT_EQ(told(catalogue.identities()), who);
    }
    fs::remove(report.old_database);
  }
  EXPECT_LE(rootless, 1u);
  EXPECT_GT(complete, pages / 4);  // of indices and of the tables made from the ledger
  EXPECT_GT(kept, 120 * (pages - 2));
}

TEST_F(Repair, StoppedAnywhereLosesNothing) {
  for (int n = 1;; ++n) {
    const fs::path copy = folder.path / "copy";
    fs::remove_all(copy);
    fs::copy(pond, copy, fs::copy_options::recursive);
    testing_env::StillEnv env;
    env.fail_at = n;
    bool failed = false;
    try {
      repair(copy, env);
    } catch (const Error&) {
      failed = true;
    }
    EXPECT_EQ(told(Catalogue::open(copy, system_env()).identities()), who) << "step " << n;
    if (!failed) break;
    repair(copy, system_env());
    EXPECT_EQ(told(Catalogue::open(copy, system_env()).identities()), who) << "step " << n;
  }
}

TEST_F(Repair, TakesAwayHalfWrittenPhotos) {
  const std::string hash(64, 'a');
  fs::create_directories(pond / "photos/aa");
  system_env().write_file(pond / "photos/aa" / (hash + ".part-abcdefghijkl"), bytes("half"));
  EXPECT_EQ(repair(pond, system_env()).parts, 1u);
  EXPECT_EQ(system_env().list_folder(pond / "photos/aa").size(), 0u);
}

TEST_F(Repair, OfAFileInWhichNothingCanBeReadLeavesItAsItIs) {
  const Bytes whole = system_env().read_file(file);
  Bytes damaged = whole;
  for (size_t i = 4096; i < damaged.size(); ++i) damaged[i] = std::byte{0x5a};
  system_env().write_file(file, damaged);
  EXPECT_THROW(repair(pond, system_env()), Error);
  EXPECT_EQ(system_env().read_file(file), damaged);
  EXPECT_EQ(system_env().list_folder(pond),
            (std::vector<std::string>{"cache", "catalogue.sqlite", "photos"}));
}

TEST_F(Repair, NeedsADatabase) {
  EXPECT_THROW(repair(folder.path / "none", system_env()), Error);
  fs::create_directories(folder.path / "empty");
  EXPECT_THROW(repair(folder.path / "empty", system_env()), Error);
}

// By another process: one's own locks are not seen.
TEST_F(Repair, WaitsForNobodyWhoWrites) {
  int ready[2], end[2];
  ASSERT_EQ(::pipe(ready), 0);
  ASSERT_EQ(::pipe(end), 0);
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    ::close(end[1]);
    SQLite::Database writer(file.string(), SQLite::OPEN_READWRITE);
    writer.exec("BEGIN IMMEDIATE");
    char byte = '!';
    ::_exit(::write(ready[1], &byte, 1) == 1 && ::read(end[0], &byte, 1) == 0 ? 0 : 1);
  }
  char byte = 0;
  ASSERT_EQ(::read(ready[0], &byte, 1), 1);
  EXPECT_THROW(repair(pond, system_env()), Error);
  ::close(end[1]);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_EQ(status, 0);
  EXPECT_NO_THROW(repair(pond, system_env()));
}

}  // namespace
}  // namespace evet
