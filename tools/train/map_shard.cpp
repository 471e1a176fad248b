#include "tools/train/map_shard.h"

#include <array>
#include <cstring>
#include <fstream>
#include <iterator>

#include "matcher/base/error.h"
#include "matcher/pattern/make_pattern.h"
#include "tools/train/messages.h"

namespace evet::train {
namespace {

constexpr size_t kHead = 8 + 4 * sizeof(std::int32_t);
constexpr size_t kCells = static_cast<size_t>(kMapRows) * kMapCols;

// How many maps the file's first bytes promise; none when it is no such file.
size_t promised(const std::vector<char>& bytes) {
  if (bytes.size() < kHead || std::memcmp(bytes.data(), "EVMAPS01", 8) != 0) return 0;
  std::array<std::int32_t, 4> shape{};
  std::memcpy(shape.data(), bytes.data() + 8, sizeof shape);
  if (shape[0] < 1 || shape[1] != kMapRows || shape[2] != kMapCols || shape[3] != kMapFacts) return 0;
  return static_cast<size_t>(shape[0]);
}

cv::Mat1b plane(const char* bytes) {
  cv::Mat1b out(kMapRows, kMapCols);
  std::memcpy(out.data, bytes, kCells);
  return out;
}

}  // namespace

std::vector<KnownPattern> read_map_shard(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  const std::vector<char> bytes{std::istreambuf_iterator<char>(file), {}};
  const size_t count = promised(bytes);
  if (count == 0 || bytes.size() != kHead + count * (2 * kCells + kMapFacts * sizeof(float)))
    throw Error(ErrorKind::bad_input, path.string(), messages::kDoesNotHoldWholeSpot,
                messages::kGiveFolderSpotMapsPy);
  const char* const dark = bytes.data() + kHead;
  std::vector<KnownPattern> out;
  for (size_t i = 0; i < count; ++i) {
    std::array<float, kMapFacts> facts{};
    std::memcpy(facts.data(), dark + 2 * count * kCells + i * sizeof facts, sizeof facts);
    SpotMap map{plane(dark + i * kCells), plane(dark + (count + i) * kCells)};
    out.push_back({static_cast<std::uint64_t>(facts[0]), static_cast<std::uint32_t>(facts[1]), facts[2],
                   pattern_of(std::move(map), 1), true});
  }
  return out;
}

}  // namespace evet::train
