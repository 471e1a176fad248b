// Random numbers that are the same on every machine: the standard library's engines are portable, its
// distributions are not.
#pragma once
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

namespace evet::models {

class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}
  // In [0, 1), 53 random bits.
  double uniform() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }
  bool chance(double probability) { return uniform() < probability; }
  // Standard normal, Box & Muller (1958).
  double normal() {
    const double radius = std::sqrt(-2 * std::log1p(-uniform()));
    return radius * std::cos(2 * std::numbers::pi * uniform());
  }
  // Whole number in [0, n).
  std::uint64_t below(std::uint64_t n) {
    return static_cast<std::uint64_t>(uniform() * static_cast<double>(n));
  }

 private:
  std::mt19937_64 engine_;
};

// The minimal standard generator of Park & Miller (1988), Commun. ACM 31:1192-1201: x <- 16807 x mod 2^31
// - 1. Data sets drawn with it can be drawn again in any language. The seed lies in 1 ... 2147483646.
class PortableRandom {
 public:
  explicit PortableRandom(std::uint64_t seed) : x_(seed % 2147483647) {
    if (x_ == 0) x_ = 1;
  }
  double uniform() {
    x_ = 16807 * x_ % 2147483647;
    return static_cast<double>(x_) / 2147483647.0;
  }
  std::uint64_t state() const { return x_; }

 private:
  std::uint64_t x_;
};

}  // namespace evet::models
