// Small vectors for geometry (world units) and for linear light (r, g, b; 1 = diffuse white).
#pragma once
#include <algorithm>
#include <cmath>

namespace evet::render {

inline constexpr double kPi = 3.14159265358979323846;
inline constexpr double kRadPerDeg = kPi / 180;

struct Vec2 {
  float x = 0, y = 0;
};
inline Vec2 operator+(Vec2 a, Vec2 b) {
  return {a.x + b.x, a.y + b.y};
}
inline Vec2 operator-(Vec2 a, Vec2 b) {
  return {a.x - b.x, a.y - b.y};
}
inline Vec2 operator*(Vec2 a, float k) {
  return {a.x * k, a.y * k};
}
inline float dot(Vec2 a, Vec2 b) {
  return a.x * b.x + a.y * b.y;
}
inline float length(Vec2 a) {
  return std::sqrt(dot(a, a));
}
inline Vec2 rotate(Vec2 a, double radians) {
  const float c = static_cast<float>(std::cos(radians)), s = static_cast<float>(std::sin(radians));
  return {c * a.x - s * a.y, s * a.x + c * a.y};
}

// A rotation by a fixed angle, for pixel loops.
class Turn {
 public:
  explicit Turn(double radians)
      : cosine_(static_cast<float>(std::cos(radians))), sine_(static_cast<float>(std::sin(radians))) {}
  Vec2 operator()(Vec2 a) const { return {cosine_ * a.x - sine_ * a.y, sine_ * a.x + cosine_ * a.y}; }

 private:
  float cosine_, sine_;
};
// A rotation by an angle that grows with t in [0, 1) from -180 to 180 degrees, without trigonometry.
inline Vec2 rotate_by_share(Vec2 a, float t) {
  const float k = 2 * (2 * t - std::floor(2 * t)) - 1, n = 1 / (1 + k * k);
  float c = (1 - k * k) * n, s = 2 * k * n;
  if (t < 0.5f) {
    c = -c;
    s = -s;
  }
  return {c * a.x - s * a.y, s * a.x + c * a.y};
}

struct Vec3 {
  float x = 0, y = 0, z = 0;
};
inline Vec3 operator+(Vec3 a, Vec3 b) {
  return {a.x + b.x, a.y + b.y, a.z + b.z};
}
inline Vec3 operator-(Vec3 a, Vec3 b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
inline Vec3 operator*(Vec3 a, float k) {
  return {a.x * k, a.y * k, a.z * k};
}
inline Vec3 operator*(Vec3 a, Vec3 b) {
  return {a.x * b.x, a.y * b.y, a.z * b.z};
}
inline Vec3& operator+=(Vec3& a, Vec3 b) {
  return a = a + b;
}
inline float dot(Vec3 a, Vec3 b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline float length(Vec3 a) {
  return std::sqrt(dot(a, a));
}
inline Vec3 normalised(Vec3 a) {
  const float n = length(a);
  return n > 0 ? a * (1 / n) : Vec3{0, 0, 1};
}
inline Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline Vec3 mix(Vec3 a, Vec3 b, float t) {
  return a + (b - a) * t;
}
inline float mix(float a, float b, float t) {
  return a + (b - a) * t;
}
inline float clamp01(float x) {
  return std::min(1.0f, std::max(0.0f, x));
}
inline float smooth_step(float edge0, float edge1, float x) {
  const float t = clamp01((x - edge0) / (edge1 - edge0));
  return t * t * (3 - 2 * t);
}

// Linear light from 8-bit sRGB values.
Vec3 srgb(double r, double g, double b);
// Linear light from hue in degrees, saturation and value in [0,1] (of the sRGB values).
Vec3 hsv(double hue_deg, double saturation, double value);

}  // namespace evet::render
