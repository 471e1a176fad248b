#include "tools/train/pair_shard.h"

#include <gtest/gtest.h>

#include <cstring>
#include <fstream>
#include <iterator>

#include "matcher/base/error.h"
#include "matcher/pattern/make_pattern.h"
#include "tests/matcher/catalogue/try_out.h"
#include "tools/render/individual.h"
#include "tools/render/scene.h"
#include "tools/train/map_shard.h"

namespace evet::train {
namespace {

constexpr size_t kPlane = static_cast<size_t>(kMapRows / 2) * (kMapCols / 2);

// The animals' true skins, each twice, as spot_maps.py lays them out.
void write_maps(const std::filesystem::path& path, int animals) {
  std::ofstream file(path, std::ios::binary);
  const auto put = [&](const auto& value) {
    file.write(reinterpret_cast<const char*>(&value), sizeof value);
  };
  file.write("EVMAPS01", 8);
  for (const std::int32_t number : {2 * animals, kMapRows, kMapCols, kMapFacts}) put(number);
  for (int i = 0; i < 2 * animals; ++i) {
    const cv::Mat1b dark =
        render::skin_pattern(3, static_cast<std::uint32_t>(i / 2), 0, {kMapCols, kMapRows});
    file.write(reinterpret_cast<const char*>(dark.data), static_cast<std::streamsize>(dark.total()));
  }
  file << std::string(static_cast<size_t>(2 * animals) * kMapRows * kMapCols, '\xff');
  for (int i = 0; i < 2 * animals; ++i)
    for (const float fact : {3.F, static_cast<float>(i / 2), static_cast<float>(i % 2)}) put(fact);
}

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

TEST(PairShard, HoldsWhatTheAlignmentSawAndWhatIsTrue) {
  const try_out::Folder folder;
  write_maps(folder.path / "fit-000.maps", 4);
  const std::vector<KnownPattern> patterns = read_map_shard(folder.path / "fit-000.maps");
  ASSERT_EQ(patterns.size(), 8U);
  EXPECT_EQ(patterns[3].individual, 1U);
  EXPECT_EQ(patterns[3].years, 1);

  const std::vector<ComparedPair> pairs = compare_query(patterns, 2, {});
  write_pair_shard(patterns, pairs, folder.path / "fit-000-0.shard");
  const std::string shard = bytes_of(folder.path / "fit-000-0.shard");
  ASSERT_EQ(shard.substr(0, 8), "EVPAIR01");
  std::array<std::int32_t, 4> shape{};
  std::memcpy(shape.data(), shard.data() + 8, sizeof shape);
  EXPECT_EQ(shape, (std::array<std::int32_t, 4>{static_cast<int>(pairs.size()), 128, 40, kPairFacts}));
  const size_t facts_at = 24 + pairs.size() * 4 * kPlane;
  ASSERT_EQ(shard.size(), facts_at + pairs.size() * kPairFacts * sizeof(float));

  int same = 0;
  for (size_t i = 0; i < pairs.size(); ++i) {
    std::array<float, kPairFacts> facts{};
    std::memcpy(facts.data(), shard.data() + facts_at + i * sizeof facts, sizeof facts);
    EXPECT_EQ(facts[0] > 0.5F, pairs[i].gallery / 2 == 1U);
    EXPECT_EQ(facts[3], static_cast<float>(pairs[i].measures[0]));
    if (facts[0] < 0.5F) continue;
    ++same;
    EXPECT_EQ(facts[2], 2) << "the gallery's map is a year later";
    const char* const planes = shard.data() + 24 + i * 4 * kPlane;
    double apart = 0;
    for (size_t k = 0; k < kPlane; ++k)
      apart += std::abs(static_cast<uchar>(planes[k]) - static_cast<uchar>(planes[2 * kPlane + k]));
    EXPECT_LT(apart / kPlane, 2) << "one skin laid on itself";
  }
  EXPECT_EQ(same, 1);
}

TEST(MapShard, AnotherFileAndACutOneAreRefusedByName) {
  const try_out::Folder folder;
  std::ofstream(folder.path / "other.maps") << "no maps";
  write_maps(folder.path / "cut.maps", 1);
  std::filesystem::resize_file(folder.path / "cut.maps",
                               std::filesystem::file_size(folder.path / "cut.maps") - 1);
  for (const char* name : {"other.maps", "cut.maps", "none.maps"}) try {
      read_map_shard(folder.path / name);
      ADD_FAILURE() << name << " was taken";
    } catch (const Error& error) {
      EXPECT_EQ(error.kind(), ErrorKind::bad_input);
      EXPECT_NE(std::string(error.what()).find(name), std::string::npos);
    }
}

TEST(PairShard, AFolderThatIsNotThereIsAStorageError) {
  const try_out::Folder folder;
  EXPECT_THROW(write_pair_shard({}, {}, folder.path / "none" / "a.shard"), Error);
}

}  // namespace
}  // namespace evet::train
