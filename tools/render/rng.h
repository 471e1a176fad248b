// Random numbers that are the same on every machine: a splitmix64 counter, with forks that do not depend on
// how many numbers were drawn before. No std::distribution, whose results differ between libraries.
#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

namespace evet::render {

// Bijective 64-bit finaliser (Steele, Lea & Flood 2014, "Fast splittable pseudorandom number generators").
inline std::uint64_t mix64(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15ULL;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
  return x ^ (x >> 31);
}
inline std::uint64_t mix64(std::uint64_t a, std::uint64_t b) {
  return mix64(a ^ (mix64(b) << 1));
}

// 32-bit hash of a lattice point, for noise; cheap rather than strong.
inline std::uint32_t lattice_hash(std::int32_t x, std::int32_t y, std::uint32_t seed) {
  std::uint32_t h =
      seed ^ (static_cast<std::uint32_t>(x) * 0x8da6b343U) ^ (static_cast<std::uint32_t>(y) * 0xd8163841U);
  h ^= h >> 16;
  h *= 0x7feb352dU;
  h ^= h >> 15;
  h *= 0x846ca68bU;
  return h ^ (h >> 16);
}

class Rng {
 public:
  explicit Rng(std::uint64_t seed) : seed_(mix64(seed)), state_(seed_) {}

  // An independent stream; the same for the same tag, whatever was drawn from this one.
  Rng fork(std::uint64_t tag) const { return Rng(mix64(seed_, tag + 1)); }

  std::uint64_t next() {
    state_ += 0x9e3779b97f4a7c15ULL;
    return mix64(state_);
  }
  std::uint32_t next32() { return static_cast<std::uint32_t>(next() >> 32); }
  double uniform() { return static_cast<double>(next() >> 11) * 0x1p-53; }            // [0, 1)
  double uniform(double low, double high) { return low + (high - low) * uniform(); }  // [low, high)
  float uniformf(double low, double high) { return static_cast<float>(uniform(low, high)); }
  bool chance(double p) { return uniform() < p; }
  int below(int n) { return static_cast<int>(uniform() * n); }            // 0 .. n-1
  int between(int low, int high) { return low + below(high - low + 1); }  // low .. high
  int sign() { return chance(0.5) ? 1 : -1; }
  // Nearly normal (mean 0, deviation 1): twelve uniforms, so no libm and never beyond 6.
  double normal() {
    double sum = -6;
    for (int i = 0; i < 12; ++i) sum += uniform();
    return sum;
  }
  template <class T>
  const T& pick(const std::vector<T>& from) {
    return from[static_cast<std::size_t>(below(static_cast<int>(from.size())))];
  }

 private:
  std::uint64_t seed_, state_;
};

}  // namespace evet::render
