// Random draws that are the same everywhere: the distributions of the standard library
// differ between its makers.
#pragma once
#include <cstdint>
#include <random>

namespace evet::train {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  double uniform() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
  std::uint32_t below(std::uint32_t n) { return static_cast<std::uint32_t>(uniform() * n); }

 private:
  std::mt19937_64 engine_;
};

}  // namespace evet::train
