#include "matcher/catalogue/cache.h"

#include <gtest/gtest.h>
#include <spdlog/sinks/ostream_sink.h>
#include <spdlog/spdlog.h>

#include <sstream>

#include "tests/matcher/base/still_env.h"
#include "tests/matcher/catalogue/faulty_disk.h"
#include "tests/matcher/catalogue/try_out.h"

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

}  // namespace
}  // namespace evet
