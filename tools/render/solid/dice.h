// Random numbers of the solid world: the standard 64-bit Mersenne Twister, whose bits are fixed by the C++
// standard, with distributions of its own, because the standard library's differ between its makers.
#pragma once
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <random>

namespace evet::render::solid {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : seed_(seed), engine_(seed) {}
  // A stream of its own for `purpose`, whatever has been drawn from this one.
  Dice apart(std::uint64_t purpose) const { return Dice(blended(seed_, purpose)); }

  static std::uint64_t blended(std::uint64_t a, std::uint64_t b) {
    std::uint64_t h = (a ^ 0x51ED270B8A1D4F63ULL) * 0x2545F4914F6CDD1DULL + b;
    h = (h ^ (h >> 29)) * 0xD6E8FEB86659FD93ULL;
    h = (h ^ (h >> 32)) * 0xD6E8FEB86659FD93ULL;
    return h ^ (h >> 31);
  }

  float unit() { return static_cast<float>(engine_() >> 40) * 0x1p-24F; }  // [0, 1)
  float between(double low, double high) {
    return static_cast<float>(low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53);
  }
  int below(int n) { return static_cast<int>((engine_() >> 32) * static_cast<std::uint64_t>(n) >> 32); }
  int from(int least, int most) { return least + below(most - least + 1); }
  bool odds(double chance) { return unit() < static_cast<float>(chance); }
  float side() { return odds(0.5) ? 1.0F : -1.0F; }
  std::uint32_t bits() { return static_cast<std::uint32_t>(engine_() >> 32); }
  // Normal, by Box and Muller (1958).
  float gauss() {
    const float a = 1 - unit(), b = unit();
    return std::sqrt(-2 * std::log(a)) * std::cos(2 * std::numbers::pi_v<float> * b);
  }

 private:
  std::uint64_t seed_;
  std::mt19937_64 engine_;
};

}  // namespace evet::render::solid
