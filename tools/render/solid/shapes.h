// Words of geometry and colour shared by the solid world's files.
//
// Space: x right and y up in the picture before perspective, z towards the camera, z = 0 the ground; the unit
// is the length of the belly from throat fold to vent. Colours are linear red, green, blue.
#pragma once
#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace evet::render::solid {

using Point = Eigen::Vector3f;
using Flat = Eigen::Vector2f;
using Colour = Eigen::Array3f;

inline constexpr float kPi = std::numbers::pi_v<float>;
inline float radians(double degrees) {
  return static_cast<float>(degrees) * (kPi / 180);
}
inline float within(float x, float low, float high) {
  return std::min(high, std::max(low, x));
}
inline float step(float from, float to, float x) {
  const float t = within((x - from) / (to - from), 0, 1);
  return t * t * (3 - 2 * t);
}
template <typename T>
T blend(const T& a, const T& b, float t) {
  return a + (b - a) * t;
}
inline float bell(float x, float width) {
  return std::exp(-0.5F * (x / width) * (x / width));
}
inline float luminance(const Colour& c) {
  return 0.2126F * c[0] + 0.7152F * c[1] + 0.0722F * c[2];  // ITU-R BT.709
}
// Hue in degrees, saturation and value as a painter picks them on a screen.
inline Colour paint(float hue, float saturation, float value) {
  Colour c;
  for (int k = 0; k < 3; ++k) {
    const float offset = k == 0 ? 5.0F : k == 1 ? 3.0F : 1.0F;
    float t = std::fmod(offset + hue / 60, 6.0F);
    if (t < 0) t += 6;
    const float part = within(std::min(t, 4 - t), 0, 1);
    c[k] = std::pow(value - value * saturation * part, 2.2F);
  }
  return c;
}

}  // namespace evet::render::solid
