#include "tools/render/light.h"

#include <stdexcept>

namespace evet::render {

Vec3 towards(Rng& rng, double least_deg, double most_deg) {
  const double off = rng.uniform(least_deg, most_deg) * kRadPerDeg, around = rng.uniform(0, 2 * kPi);
  return {static_cast<float>(std::sin(off) * std::cos(around)),
          static_cast<float>(std::sin(off) * std::sin(around)), static_cast<float>(std::cos(off))};
}

namespace {

void aim_beam(Light& light, Rng& rng, double least_radius, double most_radius, double outside) {
  light.hot_spot = {rng.uniformf(-0.35, 0.35), rng.uniformf(-0.3, 0.3)};
  light.hot_radius = rng.uniformf(least_radius, most_radius);
  light.outside_beam = static_cast<float>(outside) * rng.uniformf(0.5, 1.5);
}

}  // namespace

std::vector<std::string> light_names() {
  return {"torch",    "head-torch", "flash", "ring-led", "cold-led",
          "tungsten", "overcast",   "sun",   "shade",    "dusk"};
}

float Light::beam(Vec2 place) const {
  if (hot_radius <= 0) return 1;
  const float d = length(place - hot_spot) / hot_radius;
  return outside_beam + (1 - outside_beam) / (1 + d * d * d * d);
}

namespace {

Vec3 grey(float x) {
  return {x, x, x};
}

// Lamps that somebody brought; false for a name that is none of theirs.
bool draw_lamp(Light& light, const std::string& name, Rng& rng) {
  if (name == "torch") {
    light.direction = towards(rng, 15, 55);
    light.key = rng.chance(0.5) ? Vec3{1.0f, 0.97f, 0.90f} : Vec3{0.88f, 0.97f, 1.08f};
    light.ambient = light.key * rng.uniformf(0.10, 0.30);
    aim_beam(light, rng, 0.32, 0.95, 0.10);
    light.highlight = rng.uniformf(1.2, 2.2);
    light.shininess = rng.uniformf(60, 160);
    light.shadow_softness = rng.uniformf(0.006, 0.03);
    light.shadow_strength = rng.uniformf(0.6, 0.9);
  } else if (name == "head-torch") {
    light.direction = towards(rng, 4, 25);
    light.key = {0.92f, 0.98f, 1.05f};
    light.ambient = light.key * rng.uniformf(0.12, 0.3);
    aim_beam(light, rng, 0.42, 1.1, 0.18);
    light.highlight = rng.uniformf(1.0, 1.8);
    light.shininess = rng.uniformf(50, 120);
    light.shadow_softness = rng.uniformf(0.01, 0.05);
    light.shadow_strength = rng.uniformf(0.5, 0.8);
  } else if (name == "flash") {
    light.direction = towards(rng, 2, 14);
    light.key = {1.0f, 0.99f, 0.96f};
    light.ambient = grey(rng.uniformf(0.08, 0.2));
    light.hot_radius = rng.uniformf(0.9, 1.5);
    light.outside_beam = rng.uniformf(0.2, 0.5);
    light.highlight = rng.uniformf(1.5, 2.6);
    light.shininess = rng.uniformf(80, 200);
    light.shadow_softness = rng.uniformf(0.004, 0.015);
    light.shadow_strength = rng.uniformf(0.6, 0.9);
  } else if (name == "ring-led") {
    light.direction = towards(rng, 0, 6);
    light.key = {0.95f, 1.0f, 1.04f};
    light.ambient = grey(rng.uniformf(0.3, 0.5));
    light.ring = true;
    light.highlight = rng.uniformf(1.0, 1.8);
    light.shininess = rng.uniformf(100, 220);
    light.shadow_softness = rng.uniformf(0.03, 0.08);
    light.shadow_strength = rng.uniformf(0.2, 0.4);
  } else if (name == "cold-led") {
    light.direction = towards(rng, 15, 50);
    light.key = {0.85f, 0.98f, 1.15f};
    light.ambient = light.key * rng.uniformf(0.25, 0.5);
    light.highlight = rng.uniformf(0.8, 1.4);
    light.shininess = rng.uniformf(40, 100);
    light.shadow_softness = rng.uniformf(0.02, 0.06);
  } else if (name == "tungsten") {
    light.direction = towards(rng, 15, 55);
    light.key = {1.35f, 0.95f, 0.52f};
    light.ambient = light.key * rng.uniformf(0.25, 0.5);
    light.highlight = rng.uniformf(0.7, 1.3);
    light.shininess = rng.uniformf(40, 100);
    light.shadow_softness = rng.uniformf(0.02, 0.08);
  } else {
    return false;
  }
  return true;
}

// What the sky gives; false for a name that is none of its.
bool draw_sky(Light& light, const std::string& name, Rng& rng) {
  if (name == "overcast") {
    light.direction = towards(rng, 0, 35);
    light.key = grey(0.45f);
    light.ambient = {0.66f, 0.70f, 0.74f};
    light.highlight = rng.uniformf(0.3, 0.8);
    light.shininess = rng.uniformf(6, 18);
    light.shadow_softness = rng.uniformf(0.1, 0.2);
    light.shadow_strength = rng.uniformf(0.2, 0.45);
  } else if (name == "sun") {
    light.direction = towards(rng, 25, 62);
    light.key = {1.15f, 1.06f, 0.90f};
    light.ambient = Vec3{0.20f, 0.25f, 0.33f} * rng.uniformf(0.7, 1.5);
    light.highlight = rng.uniformf(1.2, 2.2);
    light.shininess = rng.uniformf(120, 260);
    light.shadow_softness = rng.uniformf(0.003, 0.012);
    light.shadow_strength = rng.uniformf(0.75, 0.95);
  } else if (name == "shade") {
    light.direction = towards(rng, 10, 45);
    light.key = {0.40f, 0.47f, 0.55f};
    light.ambient = {0.50f, 0.58f, 0.70f};
    light.highlight = rng.uniformf(0.3, 0.9);
    light.shininess = rng.uniformf(8, 25);
    light.shadow_softness = rng.uniformf(0.08, 0.2);
    light.shadow_strength = rng.uniformf(0.2, 0.5);
  } else if (name == "dusk") {
    light.direction = towards(rng, 30, 65);
    light.key = {0.75f, 0.55f, 0.42f};
    light.ambient = {0.34f, 0.38f, 0.52f};
    light.highlight = rng.uniformf(0.3, 0.9);
    light.shininess = rng.uniformf(10, 40);
    light.shadow_softness = rng.uniformf(0.05, 0.15);
    light.shadow_strength = rng.uniformf(0.2, 0.5);
  } else {
    return false;
  }
  return true;
}

}  // namespace

Light draw_light(const std::string& name, Rng rng) {
  Light light;
  light.name = name;
  if (!draw_lamp(light, name, rng) && !draw_sky(light, name, rng))
    throw std::invalid_argument("no light is called '" + name + "'");
  return light;
}

Light draw_wild_light(Rng rng) {
  Light light;
  light.name = "wild";
  light.direction = towards(rng, 0, 70);
  light.key = {rng.uniformf(0.3, 1.5), rng.uniformf(0.3, 1.5), rng.uniformf(0.3, 1.5)};
  light.ambient =
      Vec3{rng.uniformf(0.1, 1), rng.uniformf(0.1, 1), rng.uniformf(0.1, 1)} * rng.uniformf(0.2, 1);
  light.highlight = rng.uniformf(0, 3);
  light.shininess = rng.uniformf(5, 250);
  light.ring = rng.chance(0.2);
  if (rng.chance(0.5)) aim_beam(light, rng, 0.35, 1.5, 0.2);
  light.shadow_softness = rng.uniformf(0.003, 0.2);
  light.shadow_strength = rng.uniformf(0, 1);
  return light;
}

float mirror_lobe(const Light& light, Vec3 normal, Vec3 to_eye, float roughness) {
  const Vec3 half = normalised(light.direction + to_eye);
  const float cosine = std::max(0.0f, dot(normal, half));
  const float sharp = light.shininess / (1 + roughness);
  if (light.ring) {
    // sin of the angle off the axis; the ring's image sits at 0.12, about as wide as the tubes' ring.
    const float off = std::sqrt(std::max(0.0f, 1 - cosine * cosine));
    const float d = (off - 0.12f) * std::sqrt(sharp) * 2.2f;
    return std::exp(-d * d) * 0.9f;
  }
  // cos^n as exp, so that large exponents stay cheap.
  return std::exp(-sharp * (1 - cosine));
}

}  // namespace evet::render
