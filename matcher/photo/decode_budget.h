// How much memory decoding may take at once, over all threads: a few hostile pictures that are just
// small enough each would else fill a laptop's. Who does not fit waits; one that is larger than all
// of it decodes alone.
#pragma once
#include <cstdint>

namespace evet {

class DecodeShare {
 public:
  explicit DecodeShare(std::uint64_t bytes);  // waits for room
  ~DecodeShare();
  DecodeShare(const DecodeShare&) = delete;
  DecodeShare& operator=(const DecodeShare&) = delete;

  static constexpr std::uint64_t kAll = 800'000'000;
  static std::uint64_t taken();  // now, by all

 private:
  std::uint64_t bytes_;
};

}  // namespace evet
