#include "tools/render/solid/texture_noise.h"

#include <algorithm>
#include <cmath>

namespace evet::render::solid {

namespace {

std::uint32_t scrambled(std::uint32_t h) {
  h ^= h >> 17;
  h *= 0xED5AD4BBU;
  h ^= h >> 11;
  h *= 0xAC4C1B51U;
  h ^= h >> 15;
  h *= 0x31848BABU;
  return h ^ (h >> 14);
}
// Quick, because most of a picture's time goes here; good enough for textures.
std::uint32_t corner(int x, int y, int z, std::uint32_t seed) {
  std::uint32_t h =
      (static_cast<std::uint32_t>(x) * 0x8DA6B343U ^ static_cast<std::uint32_t>(y) * 0xD8163841U ^
       static_cast<std::uint32_t>(z) * 0xCB1AB31FU ^ seed);
  h = (h ^ (h >> 15)) * 0x2C1B3C6DU;
  return h ^ (h >> 13);
}
float signed_unit(std::uint32_t h) {
  return static_cast<float>(h >> 8) * 0x1p-23F - 1;
}
float eased(float t) {
  return t * t * t * (t * (t * 6 - 15) + 10);
}
float between(float a, float b, float t) {
  return a + (b - a) * t;
}

}  // namespace

float wave(float x, float y, std::uint32_t seed) {
  const float fx = std::floor(x), fy = std::floor(y);
  const int ix = static_cast<int>(fx), iy = static_cast<int>(fy);
  const float tx = eased(x - fx), ty = eased(y - fy);
  const auto at = [&](int dx, int dy) { return signed_unit(corner(ix + dx, iy + dy, 0, seed)); };
  return between(between(at(0, 0), at(1, 0), tx), between(at(0, 1), at(1, 1), tx), ty);
}

float wave(float x, float y, float z, std::uint32_t seed) {
  const float fx = std::floor(x), fy = std::floor(y), fz = std::floor(z);
  const int ix = static_cast<int>(fx), iy = static_cast<int>(fy), iz = static_cast<int>(fz);
  const float tx = eased(x - fx), ty = eased(y - fy), tz = eased(z - fz);
  const auto layer = [&](int dz) {
    const auto at = [&](int dx, int dy) { return signed_unit(corner(ix + dx, iy + dy, iz + dz, seed)); };
    return between(between(at(0, 0), at(1, 0), tx), between(at(0, 1), at(1, 1), tx), ty);
  };
  return between(layer(0), layer(1), tz);
}

float rough(float x, float y, int octaves, std::uint32_t seed) {
  float sum = 0, size = 0.6F, scale = 1;
  for (int i = 0; i < octaves; ++i) {
    sum += size * wave(x * scale, y * scale, seed + static_cast<std::uint32_t>(i) * 7919U);
    size *= 0.5F;
    scale *= 2.03F;
  }
  return sum;
}

Scatter scatter(float x, float y, std::uint32_t seed) {
  const int ix = static_cast<int>(std::floor(x)), iy = static_cast<int>(std::floor(y));
  Scatter best{9, 9, 0};
  for (int dy = -1; dy <= 1; ++dy)
    for (int dx = -1; dx <= 1; ++dx) {
      const std::uint32_t h = corner(ix + dx, iy + dy, 1, seed);
      const float px = static_cast<float>(ix + dx) + chance_of(h, 1) - x,
                  py = static_cast<float>(iy + dy) + chance_of(h, 2) - y;
      const float d = px * px + py * py;
      if (d < best.first) {
        best.second = best.first;
        best.first = d;
        best.number = h;
      } else {
        best.second = std::min(best.second, d);
      }
    }
  best.first = std::sqrt(best.first);
  best.second = std::sqrt(best.second);
  return best;
}

float chance_of(std::uint32_t number, std::uint32_t salt) {
  return static_cast<float>(scrambled(number ^ salt * 0x9E3779B1U) >> 8) * 0x1p-24F;
}

}  // namespace evet::render::solid
