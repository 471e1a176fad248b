#include "tools/render/vec.h"

namespace evet::render {

namespace {
float linear(double value) {
  const double x = std::clamp(value / 255, 0.0, 1.0);
  return static_cast<float>(x <= 0.04045 ? x / 12.92 : std::pow((x + 0.055) / 1.055, 2.4));
}
}  // namespace

Vec3 srgb(double r, double g, double b) {
  return {linear(r), linear(g), linear(b)};
}

Vec3 hsv(double hue_deg, double saturation, double value) {
  const auto channel = [&](double n) {
    const double k = std::fmod(n + hue_deg / 60 + 12, 6.0);
    return 255 * (value - value * saturation * std::max(0.0, std::min({k, 4 - k, 1.0})));
  };
  return srgb(channel(5), channel(3), channel(1));
}

}  // namespace evet::render
