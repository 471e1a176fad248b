#include "matcher/catalogue/pattern_bytes.h"

#include <lz4.h>

#include <bit>
#include <cassert>
#include <cstring>
#include <type_traits>

#include "matcher/pattern/describe.h"

namespace evet {
namespace {

constexpr std::uint32_t kVersion = 0x45505403;  // "EPT", 3
static_assert(std::endian::native == std::endian::little, "the cache is written as it lies in memory");

class Writer {
 public:
  template <class T>
  void value(const T& value) {
    static_assert(std::is_trivially_copyable_v<T>);
    const auto* from = reinterpret_cast<const std::byte*>(&value);
    bytes_.insert(bytes_.end(), from, from + sizeof value);
  }
  void map(const cv::Mat1b& map) {
    const cv::Mat1b whole = map.isContinuous() ? map : map.clone();
    value(static_cast<std::uint16_t>(whole.rows));
    value(static_cast<std::uint16_t>(whole.cols));
    const int size = static_cast<int>(whole.total());
    const size_t at = bytes_.size();
    bytes_.resize(at + 4 + static_cast<size_t>(LZ4_compressBound(size)));
    const int packed = size == 0 ? 0
                                 : LZ4_compress_default(reinterpret_cast<const char*>(whole.data),
                                                        reinterpret_cast<char*>(bytes_.data() + at + 4), size,
                                                        LZ4_compressBound(size));
    const auto length = static_cast<std::uint32_t>(packed);
    std::memcpy(bytes_.data() + at, &length, 4);
    bytes_.resize(at + 4 + length);
  }
  Bytes take() { return std::move(bytes_); }

 private:
  Bytes bytes_;
};

class Reader {
 public:
  explicit Reader(BytesView bytes) : rest_(bytes) {}
  template <class T>
  bool value(T& value) {
    if (rest_.size() < sizeof value) return false;
    std::memcpy(&value, rest_.data(), sizeof value);
    rest_ = rest_.subspan(sizeof value);
    return true;
  }
  bool map(cv::Mat1b& map) {
    std::uint16_t rows = 0, cols = 0;
    std::uint32_t length = 0;
    if (!value(rows) || !value(cols) || !value(length) || length > rest_.size()) return false;
    if (rows != kMapRows || cols != kMapCols) return false;
    map.create(rows, cols);
    const int size = static_cast<int>(map.total());
    if (size > 0 &&
        LZ4_decompress_safe(reinterpret_cast<const char*>(rest_.data()), reinterpret_cast<char*>(map.data),
                            static_cast<int>(length), size) != size)
      return false;
    rest_ = rest_.subspan(length);
    return true;
  }
  bool at_end() const { return rest_.empty(); }
  size_t left() const { return rest_.size(); }

 private:
  BytesView rest_;
};

bool between(double value, double low, double high) {
  return value >= low && value <= high;  // false for what is no number
}

// What matching relies on: a pattern as make_pattern() gives it, whoever wrote the bytes.
bool plausible(const Pattern& pattern) {
  constexpr double kRounding = 1e-3, kHalfTurn = 1.5708, kThinnest = 1e4;
  for (const Spot& spot : pattern.spots)
    if (!between(spot.u, 0, 1) || !between(spot.v, -1, 1) || !between(spot.area, 0, 1) ||
        !between(spot.elongation, 1 - kRounding, kThinnest) ||
        !between(spot.angle_rad, -kHalfTurn - kRounding, kHalfTurn + kRounding))
      return false;
  double length = 0;
  for (const float x : pattern.descriptor) length += static_cast<double>(x) * x;
  return pattern.descriptor.size() == kDescriptorLength && between(length, 0, 1 + kRounding) &&
         between(pattern.p_head_right, 0, 1) && between(pattern.p_laid_right, 0, 1);
}

}  // namespace

Bytes bytes_of(const Pattern& pattern) {
  Writer out;
  out.value(kVersion);
  out.map(pattern.map.dark);
  out.map(pattern.map.valid);
  out.value(static_cast<std::uint32_t>(pattern.spots.size()));
  for (const Spot& spot : pattern.spots)
    for (const float field : {spot.u, spot.v, spot.area, spot.elongation, spot.angle_rad}) out.value(field);
  out.value(pattern.code);
  out.value(static_cast<std::uint32_t>(pattern.descriptor.size()));
  for (const float field : pattern.descriptor) out.value(field);
  out.value(pattern.p_head_right);
  out.value(pattern.p_laid_right);
  return out.take();
}

std::optional<Pattern> pattern_of(BytesView bytes) {
  Reader in(bytes);
  Pattern pattern;
  std::uint32_t version = 0, spots = 0, floats = 0;
  if (!in.value(version) || version != kVersion || !in.map(pattern.map.dark) || !in.map(pattern.map.valid))
    return std::nullopt;
  if (!in.value(spots) || spots > in.left() / (5 * sizeof(float))) return std::nullopt;
  pattern.spots.resize(spots);
  for (Spot& spot : pattern.spots)
    for (float* field : {&spot.u, &spot.v, &spot.area, &spot.elongation, &spot.angle_rad})
      if (!in.value(*field)) return std::nullopt;
  if (!in.value(pattern.code) || !in.value(floats) || floats > in.left() / sizeof(float)) return std::nullopt;
  pattern.descriptor.resize(floats);
  for (float& field : pattern.descriptor)
    if (!in.value(field)) return std::nullopt;
  if (!in.value(pattern.p_head_right) || !in.value(pattern.p_laid_right) || !in.at_end() ||
      !plausible(pattern))
    return std::nullopt;
  return pattern;
}

}  // namespace evet
