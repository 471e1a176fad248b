// Databases read in a process apart: the same answers as in this one, and nothing that a database makes its
// reader do reaches further than a refusal.
#include "matcher/catalogue/read_apart.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>

#include "matcher/base/error.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/altered.h"
#include "matcher/catalogue/apart_wire.h"
#include "matcher/catalogue/audit.h"
#include "matcher/catalogue/merge.h"
#include "matcher/photo/sandbox.h"
#include "tests/matcher/catalogue/hostile_files.h"
#include "tests/matcher/catalogue/sample_pond.h"
#include "tests/matcher/catalogue/tamper.h"

namespace evet {
namespace {

using namespace try_out;
using ::testing::HasSubstr;
namespace fs = std::filesystem;

std::shared_ptr<ConfinedMaker> maker_of(ConfinedWork work) {
  return std::make_shared<ConfinedMaker>(std::vector{std::move(work)});
}

// Everything an audit says, as text.
std::string audited(const fs::path& folder, bool apart) {
  try {
    Catalogue catalogue = apart ? Catalogue::open_apart(folder, system_env(), true)
                                : Catalogue::open(folder, system_env(), {.access = Access::read});
    const AuditReport report = audit(catalogue);
    std::string text = std::to_string(report.entries) + " " + std::to_string(report.devices) + " " +
                       std::to_string(report.photos) + " " + std::to_string(report.stray_files) + " " +
                       report.head + " " + report.root + "\n";
    for (const Finding& one : report.findings) text += one.item + ": " + one.wrong() + "\n";
    for (const Finding& one : report.forks) text += "fork " + one.item + ": " + one.wrong() + "\n";
    for (const SetAside& one : report.set_aside) text += "aside " + one.entry.value + ": " + one.why + "\n";
    for (const PhotoId& photo : report.never_here) text += "never here " + photo.value + "\n";
    return report.holds() ? text + told(catalogue.identities()) : text;
  } catch (const Error& error) {
    return std::string(name(error.kind())) + " " + error.what();
  }
}

struct ReadApart : ::testing::Test {
  const Folder folder;
  const fs::path pond = folder.path / "pond", file = pond / "catalogue.sqlite";
  ReadersApart readers{maker_of(ReadersApart::confined()), 0};
  ReadApart() {
    SamplePond made(pond);
    ReadersApart::use(&readers);
  }
  ~ReadApart() override { ReadersApart::use(nullptr); }
  bool holds(bool apart) const {
    try {
      Catalogue catalogue = apart ? Catalogue::open_apart(pond, system_env(), true)
                                  : Catalogue::open(pond, system_env(), {.access = Access::read});
      return audit(catalogue).holds();
    } catch (const Error&) {
      return false;
    }
  }
  // Both ways, and nothing is changed.
  std::string same_both_ways() const {
    const auto before = tree(pond);
    const std::string here = audited(pond, false), there = audited(pond, true);
    EXPECT_EQ(here, there);
    EXPECT_EQ(tree(pond), before);
    return there;
  }
};

TEST_F(ReadApart, AnAuditSaysTheSame) {
  EXPECT_THAT(same_both_ways(), HasSubstr("10 1 3 0 "));
  fs::remove_all(pond / "cache");
  same_both_ways();
  put_in(pond, "verdict", "{}");
  EXPECT_THAT(same_both_ways(), HasSubstr("aside "));
  tamper_unguarded(pond, "UPDATE entry SET actor = 'R7' WHERE position = 3; DELETE FROM about");
  EXPECT_THAT(same_both_ways(), HasSubstr("table about is not what the ledger gives"));
  tamper(pond, "CREATE TABLE more (x TEXT); DROP INDEX entry_kind");
  EXPECT_THAT(same_both_ways(), HasSubstr("the index entry_kind is missing"));
  tamper(pond, "CREATE VIEW mine AS SELECT 1");
  EXPECT_THAT(same_both_ways(), HasSubstr("will not run (view mine)"));
}

TEST_F(ReadApart, ALedgerWithoutAnEntryIsNoCrash) {
  tamper_unguarded(pond,
                   "PRAGMA foreign_keys = OFF; DELETE FROM about; DELETE FROM verdict; DELETE FROM photo; "
                   "DELETE FROM capture; DELETE FROM entry");
  same_both_ways();
}

TEST_F(ReadApart, APhotoThatNeverWasHereIsNoFindingEither) {
  const fs::path field = folder.path / "field";
  SamplePond made(field, "f-");
  fs::remove(field / "photos" / made.photos[0].value.substr(0, 2) / made.photos[0].value);
  Catalogue into = Catalogue::open(pond, system_env());
  merge(into, made.catalogue, person("R1"));
  EXPECT_THAT(same_both_ways(), HasSubstr("never here " + made.photos[0].value));
}

// Apart the photos are looked at even where the tables that name them are damaged: what holds and what does not
// is told the same.
TEST_F(ReadApart, DamagedPagesAreFound) {
  const Bytes whole = system_env().read_file(file);
  for (std::size_t page = 1; page * 4096 < whole.size(); ++page) {
    SCOPED_TRACE(page);
    Bytes damaged = whole;
    for (std::size_t i = 0; i < 64; ++i) damaged[page * 4096 + i] = std::byte{0xa5};
    system_env().write_file(file, damaged);
    EXPECT_EQ(holds(false), holds(true));
  }
}

TEST_F(ReadApart, ADamagedCacheIsAFinding) {
  const PhotoId photo = Catalogue::open(pond, system_env()).identities().captures[0].photos[0].photo;
  Catalogue::open(pond, system_env()).cache().keep_strip(photo, "test 1", bytes("a picture"));
  const std::string whole = same_both_ways();
  EXPECT_THAT(whole, Not(HasSubstr("cache")));
  {
    SQLite::Database cache((pond / "cache/patterns.sqlite").string(), SQLite::OPEN_READWRITE);
    cache.exec("UPDATE block SET bytes = x'00'");
  }
  EXPECT_THAT(same_both_ways(), HasSubstr("cache: what is kept of photo " + photo.value));
}

// A writer killed with its journal on the disk: the reader sees what stood before, and changes no file.
TEST_F(ReadApart, WhatAKilledWriterLeftIsPlayedBackInMemory) {
  const std::string before = audited(pond, false);
  if (const pid_t child = ::fork(); child == 0) {
    SQLite::Database writer(file.string(), SQLite::OPEN_READWRITE);
    writer.exec("PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN IMMEDIATE");
    for (int i = 0; i < 400; ++i)
      writer.exec("INSERT INTO here VALUES ('x" + std::to_string(i) + "', '" + std::string(400, 'y') + "')");
    ::_exit(0);
  } else {
    ::waitpid(child, nullptr, 0);
  }
  ASSERT_GT(fs::file_size(file.string() + "-journal"), 512u);
  EXPECT_EQ(same_both_ways(), before);
}

TEST_F(ReadApart, AWriterAtWorkIsWaitedFor) {
  SQLite::Database writer(file.string(), SQLite::OPEN_READWRITE);
  writer.exec("BEGIN IMMEDIATE; INSERT INTO here VALUES ('x', 'y')");  // its journal is not one to play back
  EXPECT_THAT(audited(pond, true), HasSubstr("10 1 3 0 "));
  writer.exec("ROLLBACK; BEGIN EXCLUSIVE");
  try {
    readers.ledger(file, false, 100);
    FAIL() << "it was read";
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::storage);
    EXPECT_THAT(error.what(), HasSubstr("another program is writing"));
  }
}

TEST_F(ReadApart, AMergeTakesInTheSame) {
  const fs::path field = folder.path / "field", one = folder.path / "one", two = folder.path / "two";
  SamplePond made(field, "f-");
  for (const fs::path& to : {one, two}) fs::copy(pond, to, fs::copy_options::recursive);
  Catalogue here = Catalogue::open(field, system_env(), {.access = Access::read}),
            apart = Catalogue::open_apart(field, system_env());
  EXPECT_EQ(here.title(), apart.title());
  Catalogue into_one = Catalogue::open(one, system_env()), into_two = Catalogue::open(two, system_env());
  const MergeReport a = merge(into_one, here, person("R1")), b = merge(into_two, apart, person("R1"));
  EXPECT_EQ(std::tie(a.entries, a.captures, a.verdicts, a.photos),
            std::tie(b.entries, b.captures, b.verdicts, b.photos));
  EXPECT_EQ(told(into_one.identities()), told(into_two.identities()));
  EXPECT_TRUE(audit(into_two).holds());
  EXPECT_EQ(merge(into_two, apart, person("R1")).entries, 0u);
}

// A reader taken over by what it read, with what it then says.
std::string refusal_of(const fs::path& field, const std::function<void(Line&)>& says) {
  ReadersApart taken_over(maker_of([says](Line& line) {
                            line.get_value<std::uint8_t>();
                            line.get_text(10'000);
                            line.get_value<std::uint8_t>();
                            take_files(1);
                            confine({});
                            says(line);
                          }),
                          0, 1);
  ReadersApart::use(&taken_over);
  try {
    Catalogue::open_apart(field, system_env());
  } catch (const AlteredCatalogue& error) {
    EXPECT_THAT(error.what(), HasSubstr((field / "catalogue.sqlite").string()));
    return error.what();
  }
  return "nothing is wrong";
}

TEST_F(ReadApart, AReaderTakenOverIsNotBelieved) {
  const auto row = [](std::int64_t position) {
    StoredEntry stored;
    stored.position = position;
    return stored;
  };
  const std::vector<std::function<void(Line&)>> lies{
      [](Line&) { std::abort(); },
      [](Line&) {},
      [&](Line& line) {  // the same rows without end
        for (ApartTeller tell(line);;) tell.row(row(7));
      },
      [&](Line& line) {  // ever more
        ApartTeller tell(line);
        for (std::int64_t i = 0;; ++i) tell.row(row(i));
      },
      [](Line& line) { line.put_value<std::uint32_t>(4'000'000'000); },
      [](Line& line) { line.put_text("\x09"); },
      [](Line& line) { line.put_text(std::string(5, '\0')); },
      [](Line& line) {
        ApartTeller(line).error({ErrorKind::usage, false, "do as I say"});
      },
  };
  for (const auto& lie : lies) EXPECT_THAT(refusal_of(pond, lie), HasSubstr("its bytes stopped the process"));
  EXPECT_THAT(refusal_of(pond,
                         [](Line&) {
                           for (std::atomic<bool> going{true}; going;) continue;
                         }),
              HasSubstr("takes longer than 1 s"));
  const std::string odd = refusal_of(pond, [](Line& line) {
    ApartTeller(line).error({ErrorKind::bad_input, true, "red \x1b[31m"});
  });
  EXPECT_THAT(odd, HasSubstr("red "));
  EXPECT_THAT(odd, Not(HasSubstr("\x1b")));
}

}  // namespace
}  // namespace evet
