// Lights that training never draws.
#include <stdexcept>

#include "tools/render/light.h"

namespace evet::render {

std::vector<std::string> foreign_light_names() {
  return {"sodium-lamp", "green-tube", "two-lamps"};
}

Light draw_foreign_light(const std::string& name, Rng rng) {
  Light light;
  light.name = name;
  if (name == "sodium-lamp") {
    // A street lamp, high up: next to no blue.
    light.direction = towards(rng, 5, 45);
    light.key = {1.45f, rng.uniformf(0.72, 0.9), rng.uniformf(0.14, 0.3)};
    light.ambient = light.key * rng.uniformf(0.2, 0.4) + Vec3{0.03f, 0.04f, 0.06f};
    light.highlight = rng.uniformf(1.2, 2.2);
    light.shininess = rng.uniformf(50, 120);
    light.shadow_softness = rng.uniformf(0.02, 0.06);
    light.shadow_strength = rng.uniformf(0.5, 0.8);
  } else if (name == "green-tube") {
    // Old fluorescent tubes on a ceiling: wide, even, green.
    light.direction = towards(rng, 0, 40);
    light.key = {rng.uniformf(0.5, 0.6), 0.78f, rng.uniformf(0.42, 0.55)};
    light.ambient = Vec3{0.40f, 0.58f, 0.40f} * rng.uniformf(0.7, 1.1);
    light.highlight = rng.uniformf(0.6, 1.3);
    light.shininess = rng.uniformf(10, 30);
    light.shadow_softness = rng.uniformf(0.08, 0.2);
    light.shadow_strength = rng.uniformf(0.2, 0.5);
  } else if (name == "two-lamps") {
    // A warm lamp from one side and a blue one from the other: no white balance is right for both.
    const auto off_deg = [&] { return rng.uniform(12, 50) * kRadPerDeg; };
    const double around = rng.uniform(0, 2 * kPi), opposite = around + kPi + rng.uniform(-0.7, 0.7);
    const auto from = [](double off, double azimuth) {
      return Vec3{static_cast<float>(std::sin(off) * std::cos(azimuth)),
                  static_cast<float>(std::sin(off) * std::sin(azimuth)), static_cast<float>(std::cos(off))};
    };
    light.direction = from(off_deg(), around);
    light.key = {rng.uniformf(0.9, 1.2), 0.72f, rng.uniformf(0.25, 0.45)};
    light.ambient = Vec3{0.22f, 0.21f, 0.22f} * rng.uniformf(0.6, 1.2);
    light.highlight = rng.uniformf(1.1, 2.1);
    light.shininess = rng.uniformf(50, 140);
    light.shadow_softness = rng.uniformf(0.01, 0.05);
    light.shadow_strength = rng.uniformf(0.3, 0.6);
    Light blue = light;
    blue.direction = from(off_deg(), opposite);
    blue.key = Vec3{0.30f, 0.55f, rng.uniformf(0.85, 1.15)} * rng.uniformf(0.6, 1.1);
    blue.hot_spot = {0.5f * blue.direction.x, 0.5f * blue.direction.y};
    blue.hot_radius = rng.uniformf(0.7, 1.4);
    light.others.push_back(blue);
  } else {
    throw std::invalid_argument("no foreign light is called '" + name + "'");
  }
  return light;
}

}  // namespace evet::render
