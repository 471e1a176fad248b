// Smooth random functions of two and three coordinates, for skins, grounds and lumps of the solid world.
#pragma once
#include <cstdint>

namespace evet::render::solid {

// In [-1, 1], about 0, smooth, with features of size 1.
float wave(float x, float y, std::uint32_t seed);
float wave(float x, float y, float z, std::uint32_t seed);
// Several octaves of it, each half as large and twice as fine; about [-1, 1].
float rough(float x, float y, int octaves, std::uint32_t seed);
// Distances to the nearest and second nearest of points scattered one to a unit square, and
// the nearest's number.
struct Scatter {
  float first, second;
  std::uint32_t number;
};
Scatter scatter(float x, float y, std::uint32_t seed);
// [0, 1), from a number.
float chance_of(std::uint32_t number, std::uint32_t salt);

}  // namespace evet::render::solid
