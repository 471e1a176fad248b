// Smooth random functions of the plane: value noise, its octave sums and cell noise, from integer hashes.
#pragma once
#include <cstdint>

#include "tools/render/vec.h"

namespace evet::render {

// Value noise with unit lattice: in [-1, 1], smooth, mean about 0.
float value_noise(float x, float y, std::uint32_t seed);

// Sum of octaves, each of twice the frequency and `gain` the weight; scaled to about [-1, 1]. Octaves finer
// than `footprint` (distance between samples, in lattice units of the first octave) fade out, so that a
// picture looks the same at any size.
float fractal_noise(float x, float y, std::uint32_t seed, int octaves, float gain = 0.5f,
                    float footprint = 0);

// Distances to the nearest and second nearest of one random point a unit cell, and a hash of the nearest.
struct CellNoise {
  float nearest, second;
  std::uint32_t id;
};
CellNoise cell_noise(float x, float y, std::uint32_t seed);

// [0,1) from a hash; `k` picks one of several independent values.
inline float hash_unit(std::uint32_t id, std::uint32_t k) {
  std::uint32_t h = id + k * 0x9e3779b9U;
  h ^= h >> 16;
  h *= 0x7feb352dU;
  h ^= h >> 15;
  return static_cast<float>(h >> 8) * 0x1p-24f;
}

}  // namespace evet::render
