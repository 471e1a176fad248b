#include "matcher/catalogue/cache.h"

#include <gtest/gtest.h>
#include <spdlog/sinks/ostream_sink.h>
#include <spdlog/spdlog.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/faulty_disk.h"
#include "tests/matcher/catalogue/hostile_files.h"

namespace evet {
namespace {

using namespace try_out;
namespace fs = std::filesystem;

const PhotoId kPhoto{std::string(64, 'a')}, kOther{std::string(64, 'b')};

TEST(Cache, KeepsAStripForItsMakerOnly) {
  const Folder folder;
  Cache cache(folder.path / "cache", system_env(), true);
  EXPECT_TRUE(cache.usable());
  EXPECT_FALSE(cache.strip(kPhoto, "v1"));
  cache.keep_strip(kPhoto, "v1", bytes("a strip"));
  EXPECT_EQ(cache.strip(kPhoto, "v1"), bytes("a strip"));
  EXPECT_FALSE(cache.strip(kPhoto, "v2"));
  EXPECT_FALSE(cache.strip(kOther, "v1"));
  EXPECT_FALSE(cache.pattern(kPhoto, "v1"));
  cache.keep_strip(kPhoto, "v2", bytes("a newer one"));
  EXPECT_FALSE(cache.strip(kPhoto, "v1"));
  Cache again(folder.path / "cache", system_env(), true);
  EXPECT_EQ(again.strip(kPhoto, "v2"), bytes("a newer one"));
}

TEST(Cache, MayBeDeletedOrDamagedAtAnyTime) {
  const Folder folder;
  const fs::path place = folder.path / "cache";
  { Cache(place, system_env(), true).keep_strip(kPhoto, "v1", bytes("a strip")); }
  fs::remove_all(place);
  { EXPECT_FALSE(Cache(place, system_env(), true).strip(kPhoto, "v1")); }
  for (const std::string& damage : {std::string("nonsense"), std::string(), std::string(8192, 'x')}) {
    for (const auto& file : fs::directory_iterator(place))
      system_env().write_file(file.path(), bytes(damage));
    Cache cache(place, system_env(), true);
    EXPECT_FALSE(cache.strip(kPhoto, "v1"));
    cache.keep_strip(kPhoto, "v1", bytes("made again"));
    EXPECT_EQ(cache.strip(kPhoto, "v1"), bytes("made again"));
  }
}

TEST(Cache, IsDoneWithoutWhereItCannotBe) {
  const Folder folder;
  system_env().write_file(folder.path / "file", bytes("in the way"));
  Cache cache(folder.path / "file" / "cache", system_env(), true);
  EXPECT_FALSE(cache.usable());
  cache.keep_strip(kPhoto, "v1", bytes("a strip"));
  EXPECT_FALSE(cache.strip(kPhoto, "v1"));
}

TEST(Cache, OnAFullDiskLosesWhatItWouldKeepAndSaysSoOnce) {
  std::ostringstream told;
  const auto before = spdlog::default_logger();
  spdlog::set_default_logger(
      std::make_shared<spdlog::logger>("test", std::make_shared<spdlog::sinks::ostream_sink_mt>(told)));
  {
    const Folder folder;
    FaultyDisk disk;
    Cache cache(folder.path / "cache", system_env(), true);
    cache.keep_strip(kPhoto, "v1", bytes("a strip"));
    for (int photo = 0; photo < 3; ++photo) {
      disk.fail_at(1, DiskFault::full);
      cache.keep_strip(kOther, "v1", bytes("a strip for which there is no room"));
      EXPECT_TRUE(disk.failed());
      EXPECT_FALSE(cache.strip(kOther, "v1"));
    }
    EXPECT_EQ(cache.strip(kPhoto, "v1"), bytes("a strip"));
    cache.keep_strip(kOther, "v1", bytes("room again"));
    EXPECT_EQ(cache.strip(kOther, "v1"), bytes("room again"));
  }
  spdlog::set_default_logger(before);
  const std::string text = told.str(), warning = "nothing is lost";
  EXPECT_NE(text.find(warning), std::string::npos) << text;
  EXPECT_EQ(text.find(warning), text.rfind(warning)) << text;
}

TEST(Cache, OfACatalogueOpenForReadingIsReadOnly) {
  const Folder folder;
  const fs::path place = folder.path / "cache";
  { Cache(place, system_env(), true).keep_strip(kPhoto, "v1", bytes("a strip")); }
  Cache reader(place, system_env(), false);
  EXPECT_EQ(reader.strip(kPhoto, "v1"), bytes("a strip"));
  reader.keep_strip(kOther, "v1", bytes("another"));
  EXPECT_FALSE(reader.strip(kOther, "v1"));
  Cache none(folder.path / "none", system_env(), false);
  EXPECT_FALSE(none.strip(kPhoto, "v1"));
  EXPECT_FALSE(fs::exists(folder.path / "none"));
}

TEST(Cache, ReadingMakesNoFileBesideIt) {
  const Folder folder;
  const fs::path place = folder.path / "a cache, 100% odd?#";
  { Cache(place, system_env(), true).keep_strip(kPhoto, "v1", bytes("a strip")); }
  const auto before = tree(place);
  Cache reader(place, system_env(), false);
  EXPECT_EQ(reader.strip(kPhoto, "v1"), bytes("a strip"));
  EXPECT_EQ(tree(place), before);
}

// A row that was changed, or put in another photo's place, is none; the audit's list names it.
std::set<std::string> names_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& file : fs::directory_iterator(folder)) names.insert(file.path().filename());
  return names;
}

// As a machine leaves it whose power goes while what was written goes from the -wal into the file: some pages
// of it have, others not. Each page once as the first or the last to get there.
TEST(Cache, OfATornCheckpointIsReadThroughItsLog) {
  const Folder folder;
  const fs::path place = folder.path / "cache", file = place / "patterns.sqlite";
  const std::string log = file.string() + "-wal", index = file.string() + "-shm";
  Bytes before, logged, indexed;
  {
    Cache cache(place, system_env(), true);
    for (int i = 0; i < 40; ++i)
      cache.keep_strip(PhotoId("photo " + std::to_string(i)), "v1", Bytes(700, std::byte{1}));
  }
  {
    Cache cache(place, system_env(), true);
    before = system_env().read_file(file);
    for (int i = 0; i < 40; ++i)
      cache.keep_strip(PhotoId("photo " + std::to_string(i)), "v1", Bytes(900, std::byte{2}));
    logged = system_env().read_file(log), indexed = system_env().read_file(index);
  }
  const Bytes after = system_env().read_file(file);
  ASSERT_FALSE(logged.empty());
  constexpr std::size_t kPage = 4096;
  before.resize(after.size());
  for (std::size_t page = 0; page < after.size() / kPage; ++page)
    for (const bool first : {true, false}) {
      Bytes torn = first ? before : after;
      const Bytes& other = first ? after : before;
      std::copy_n(other.begin() + static_cast<std::ptrdiff_t>(page * kPage), kPage,
                  torn.begin() + static_cast<std::ptrdiff_t>(page * kPage));
      system_env().write_file(file, torn);
      system_env().write_file(log, logged), system_env().write_file(index, indexed);
      const auto names = names_in(place);
      Cache cache(place, system_env(), false);
      EXPECT_TRUE(cache.damaged().empty()) << page;
      for (int i = 0; i < 40; ++i)
        EXPECT_EQ(cache.strip(PhotoId("photo " + std::to_string(i)), "v1"), Bytes(900, std::byte{2})) << page;
      EXPECT_EQ(names_in(place), names);
      EXPECT_EQ(system_env().read_file(file), torn);
      EXPECT_EQ(system_env().read_file(log), logged);
      // Without its index it is not read: whoever writes next puts it right.
      fs::remove(index);
      Cache without(place, system_env(), false);
      EXPECT_TRUE(without.damaged().empty()) << page;
      EXPECT_FALSE(without.strip(PhotoId("photo 1"), "v1"));
      EXPECT_FALSE(fs::exists(index));
      EXPECT_EQ(Cache(place, system_env(), true).strip(PhotoId("photo 1"), "v1"), Bytes(900, std::byte{2}));
    }
}

TEST(Cache, IsReadWhileAnotherProgramWrites) {
  const Folder folder;
  const fs::path place = folder.path / "cache";
  Cache writer(place, system_env(), true);
  writer.keep_strip(kPhoto, "v1", bytes("a strip"));
  Cache reader(place, system_env(), false);
  EXPECT_EQ(reader.strip(kPhoto, "v1"), bytes("a strip"));
  writer.keep_strip(kOther, "v1", bytes("another"));
  EXPECT_EQ(reader.strip(kOther, "v1"), bytes("another"));
  EXPECT_TRUE(reader.damaged().empty());
}

TEST(Cache, ARowThatWasChangedIsNone) {
  for (const char* change : {"UPDATE block SET bytes = x'6120737472697021'", "UPDATE block SET maker = 'v2'",
                             "UPDATE block SET photo = replace(photo, 'a', 'b')", "UPDATE block SET sum = ''",
                             "UPDATE block SET bytes = x''"}) {
    SCOPED_TRACE(change);
    const Folder folder;
    { Cache(folder.path / "cache", system_env(), true).keep_strip(kPhoto, "v1", bytes("a strip")); }
    SQLite::Database((folder.path / "cache/patterns.sqlite").string(), SQLite::OPEN_READWRITE).exec(change);
    for (const bool writable : {false, true}) {
      Cache cache(folder.path / "cache", system_env(), writable);
      for (const PhotoId& photo : {kPhoto, kOther})
        for (const char* maker : {"v1", "v2"}) EXPECT_FALSE(cache.strip(photo, maker));
      EXPECT_EQ(cache.damaged().size(), 1u);
    }
  }
}

TEST(Cache, EveryByteOfItsFileMayChange) {
  const Folder folder;
  const fs::path place = folder.path / "cache", file = place / "patterns.sqlite";
  { Cache(place, system_env(), true).keep_strip(kPhoto, "v1", bytes("a strip that is known")); }
  const Bytes whole = system_env().read_file(file);
  for (size_t at = 0; at < whole.size(); at += at < 200 ? 1 : 7) {
    Bytes changed = whole;
    changed[at] ^= std::byte{0x41};
    system_env().write_file(file, changed);
    Cache cache(place, system_env(), false);
    EXPECT_EQ(cache.strip(kPhoto, "v1").value_or(bytes("a strip that is known")),
              bytes("a strip that is known"))
        << "byte " << at;
  }
}

TEST(Cache, WhatIsNoneOfOursIsReplacedAndNothingElseIsTouched) {
  const Folder folder;
  const fs::path place = folder.path / "cache", file = place / "patterns.sqlite";
  const fs::path victim = folder.path / "victim.sqlite";
  const auto still_there = [&] {
    Cache cache(place, system_env(), true);
    cache.keep_strip(kPhoto, "v1", bytes("a strip"));
    EXPECT_EQ(cache.strip(kPhoto, "v1"), bytes("a strip"));
    EXPECT_EQ(system_env().read_file(victim), bytes("of somebody else"));
  };
  system_env().write_file(victim, bytes("of somebody else"));
  fs::create_directories(place);
  fs::create_symlink(victim, file);
  still_there();
  {
    SQLite::Database made(file.string(), SQLite::OPEN_READWRITE);
    made.exec("ALTER TABLE block RENAME TO shown; CREATE VIEW block AS SELECT * FROM shown");
  }
  still_there();
  {
    SQLite::Database made(file.string(), SQLite::OPEN_READWRITE);
    made.exec("PRAGMA journal_mode = DELETE");
  }
  const auto pages = static_cast<std::uint32_t>(fs::file_size(file) / 4096);
  system_env().write_file(file.string() + "-journal", journal_naming(victim.string(), pages));
  still_there();
  // A folder that leads elsewhere is done without.
  fs::rename(place, folder.path / "elsewhere");
  fs::create_symlink(folder.path / "elsewhere", place);
  const auto before = tree(folder.path);
  Cache none(place, system_env(), true);
  EXPECT_FALSE(none.usable());
  EXPECT_EQ(tree(folder.path), before);
}

}  // namespace
}  // namespace evet
