#include "tools/render/noise.h"

#include "tools/render/rng.h"

namespace evet::render {

namespace {
inline std::int32_t floor_int(float x) {
  const auto i = static_cast<std::int32_t>(x);
  return i - (x < static_cast<float>(i));
}
inline float lattice_value(std::int32_t x, std::int32_t y, std::uint32_t seed) {
  // A lighter hash than lattice_hash(): only the upper bits matter here.
  std::uint32_t h = (static_cast<std::uint32_t>(x) * 0x8da6b343U) ^
                    (static_cast<std::uint32_t>(y) * 0xd8163841U) ^ (seed * 0x9e3779b1U);
  h ^= h >> 15;
  h *= 0x7feb352dU;
  h ^= h >> 14;
  h *= 0x846ca68bU;
  return static_cast<float>(static_cast<std::int32_t>(h)) * 0x1p-31f;
}
}  // namespace

float value_noise(float x, float y, std::uint32_t seed) {
  const std::int32_t ix = floor_int(x), iy = floor_int(y);
  const float fx = x - static_cast<float>(ix), fy = y - static_cast<float>(iy);
  const float wx = fx * fx * (3 - 2 * fx), wy = fy * fy * (3 - 2 * fy);
  const float top = mix(lattice_value(ix, iy, seed), lattice_value(ix + 1, iy, seed), wx);
  const float bottom = mix(lattice_value(ix, iy + 1, seed), lattice_value(ix + 1, iy + 1, seed), wx);
  return mix(top, bottom, wy);
}

float fractal_noise(float x, float y, std::uint32_t seed, int octaves, float gain, float footprint) {
  float sum = 0, weight = 1, norm = 0;
  for (int i = 0; i < octaves; ++i) {
    const float fade = clamp01((0.65f - footprint) * 2.5f);
    if (fade <= 0.04f) break;
    sum += weight * fade * value_noise(x, y, seed + static_cast<std::uint32_t>(i) * 0x51ed27U);
    norm += weight;
    weight *= gain;
    // The turn and the odd factor hide the lattice.
    const float nx = 1.62f * x - 1.18f * y + 17.3f;
    y = 1.18f * x + 1.62f * y - 5.7f;
    x = nx;
    footprint *= 2;
  }
  return norm > 0 ? sum / norm * 1.4f : 0;
}

CellNoise cell_noise(float x, float y, std::uint32_t seed) {
  const std::int32_t ix = floor_int(x), iy = floor_int(y);
  CellNoise found{9, 9, 0};
  for (std::int32_t j = iy - 1; j <= iy + 1; ++j)
    for (std::int32_t i = ix - 1; i <= ix + 1; ++i) {
      const std::uint32_t id = lattice_hash(i, j, seed);
      const float dx = static_cast<float>(i) + static_cast<float>(id & 0xffffU) * 0x1p-16f - x;
      const float dy = static_cast<float>(j) + static_cast<float>(id >> 16) * 0x1p-16f - y;
      const float d = dx * dx + dy * dy;
      if (d < found.nearest) {
        found.second = found.nearest;
        found.nearest = d;
        found.id = id;
      } else if (d < found.second) {
        found.second = d;
      }
    }
  found.nearest = std::sqrt(found.nearest);
  found.second = std::sqrt(found.second);
  return found;
}

}  // namespace evet::render
