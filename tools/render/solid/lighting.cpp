#include "tools/render/solid/lighting.h"

#include <Eigen/Geometry>

namespace evet::render::solid {

namespace {

// Of a black body's hue, warm (about 2,700 K) at -1, cold (10,000 K) at 1; common practice, no source.
Colour warmth(float t) {
  return t < 0 ? blend<Colour>(Colour::Ones(), Colour(1.35F, 0.95F, 0.5F), -t)
               : blend<Colour>(Colour::Ones(), Colour(0.8F, 0.97F, 1.25F), t);
}

Point from_height(float angle, float height_deg) {
  const float h = radians(height_deg);
  return {std::cos(angle) * std::cos(h), std::sin(angle) * std::cos(h), std::sin(h)};
}

void add_pane(Lighting& light, const Point& towards, float width, float height, const Colour& brightness) {
  Pane pane;
  pane.towards = towards;
  pane.right = towards.cross(Point(0, 0.1F, 1)).normalized();
  pane.up = pane.right.cross(towards);
  pane.half_width = width;
  pane.half_height = height;
  pane.brightness = brightness;
  light.panes.push_back(pane);
}

void set_sky(Lighting& light, float strength, float tint, Dice& dice) {
  light.zenith = warmth(tint) * strength * dice.between(0.8, 1.3);
  light.horizon = warmth(tint * 0.5F) * strength * dice.between(0.4, 1.1);
  light.ground = warmth(dice.between(-0.6, 0.1)) * strength * dice.between(0.1, 0.4);
}

Lamp lamp_at(const Point& at, float radius, const Colour& power) {
  Lamp lamp;
  lamp.at = at;
  lamp.radius = radius;
  lamp.power = power;
  return lamp;
}

}  // namespace

Colour Lamp::arriving(const Point& place) const {
  const float ratio = at.squaredNorm() / std::max(1e-3F, (at - place).squaredNorm());
  float share = ratio;
  if (cone > -1) {
    const float inside = (place - at).normalized().dot((aim - at).normalized());
    share *= 0.04F + 0.96F * step(cone - 0.5F * (1 - cone), cone + 0.6F * (1 - cone), inside);
  }
  return power * share;
}

Colour Lighting::sky(const Point& way) const {
  Colour c = way[2] < 0 ? blend<Colour>(horizon, ground, step(0, 0.25F, -way[2]))
                        : blend<Colour>(horizon, zenith, std::sqrt(way[2]));
  if (surroundings) c *= 0.3F + 2.5F * surroundings->at(way[0] * 2, way[1] * 2);
  for (const Pane& pane : panes) {
    const float ahead = way.dot(pane.towards);
    if (ahead <= 0.05F) continue;
    const float x = std::abs(way.dot(pane.right) / ahead), y = std::abs(way.dot(pane.up) / ahead);
    const float inside = step(pane.half_width * 1.06F, pane.half_width * 0.96F, x) *
                         step(pane.half_height * 1.06F, pane.half_height * 0.96F, y);
    // A bar across the middle, as windows have.
    const float bar = x < 0.05F * pane.half_width ? 0.2F : 1;
    c += pane.brightness * (inside * bar);
  }
  return c;
}

Colour Lighting::sky_on(const Point& normal) const {
  const Colour above = 0.6F * zenith + 0.4F * horizon;
  return blend<Colour>(blend<Colour>(ground, horizon, 0.25F), above, 0.5F + 0.5F * normal[2]);
}

Lighting draw_lighting(const std::string& name, const Point& eye, bool wild, Dice dice) {
  Lighting light;
  light.name = name;
  const float angle = dice.between(0, 2 * kPi), tint = dice.between(-0.5, 0.5);
  const Point beside = eye + Point(dice.gauss(), dice.gauss(), 0) * 0.6F;
  if (name == "cloudy") {
    set_sky(light, 1, dice.between(-0.1, 0.6), dice);
    light.lamps.push_back(lamp_at(from_height(angle, dice.between(40, 80)) * 30, 9, warmth(tint) * 0.8F));
  } else if (name == "sunlit") {
    set_sky(light, dice.between(0.2, 0.5), dice.between(0.2, 1), dice);
    light.lamps.push_back(lamp_at(from_height(angle, dice.between(22, 75)) * 60, dice.between(0.3, 1),
                                  warmth(dice.between(-0.6, 0)) * 3));
  } else if (name == "flashgun") {
    set_sky(light, dice.between(0.02, 0.2), tint, dice);
    light.lamps.push_back(lamp_at(beside, dice.between(0.05, 0.3), warmth(dice.between(-0.1, 0.3)) * 2.5F));
  } else if (name == "head-torch") {
    set_sky(light, dice.between(0.01, 0.08), tint, dice);
    Lamp lamp = lamp_at(beside + Point(dice.gauss(), dice.gauss(), 1), dice.between(0.08, 0.3),
                        warmth(dice.between(-0.8, 0.8)) * 2.5F);
    lamp.cone = std::cos(radians(dice.between(8, 28)));
    lamp.aim = Point(dice.gauss(), dice.gauss(), 0) * 0.3F;
    light.lamps.push_back(lamp);
  } else if (name == "ring") {
    set_sky(light, dice.between(0.05, 0.3), tint, dice);
    Lamp lamp =
        lamp_at(eye * dice.between(0.5, 0.9), dice.between(0.5, 1.1), warmth(dice.between(-0.2, 0.4)) * 2);
    lamp.hole = 0.75F;
    light.lamps.push_back(lamp);
  } else if (name == "desk-light") {
    set_sky(light, dice.between(0.1, 0.4), tint, dice);
    light.lamps.push_back(lamp_at(from_height(angle, dice.between(30, 70)) * dice.between(3, 7),
                                  dice.between(0.1, 0.6), warmth(dice.between(-1, 0.2)) * 2));
  } else if (name == "window") {
    set_sky(light, dice.between(0.2, 0.5), tint, dice);
    light.lamps.push_back(lamp_at(from_height(angle, dice.between(25, 60)) * 9, dice.between(1.5, 3),
                                  warmth(dice.between(-0.1, 0.7)) * 1.5F));
    add_pane(light, light.lamps[0].at.normalized(), dice.between(0.2, 0.5), dice.between(0.2, 0.6),
             warmth(0.2F) * dice.between(2, 6));
  } else {  // mixed
    set_sky(light, dice.between(0.1, 0.5), tint, dice);
    light.lamps.push_back(
        lamp_at(from_height(angle, dice.between(30, 70)) * 6, dice.between(0.1, 0.8), warmth(-1) * 1.2F));
    light.lamps.push_back(lamp_at(from_height(angle + dice.between(1.5, 4.5), dice.between(30, 70)) * 6,
                                  dice.between(0.1, 0.8), warmth(1) * 1.2F));
  }
  if (dice.odds(0.35))
    add_pane(light, from_height(dice.between(0, 2 * kPi), dice.between(35, 85)), dice.between(0.1, 0.4),
             dice.between(0.1, 0.5), warmth(tint) * dice.between(0.5, 3) * (0.3F + luminance(light.zenith)));
  if (const auto photo = dice.odds(0.5) ? GroundPhoto::draw(dice.apart(5)) : std::nullopt)
    light.surroundings = std::make_shared<const GroundPhoto>(*photo);
  if (wild) {
    const Colour cast = paint(dice.between(0, 360), dice.between(0, 0.45), 1);
    for (Lamp& lamp : light.lamps) lamp.power *= cast;
    if (dice.odds(0.5)) light.zenith *= paint(dice.between(0, 360), dice.between(0, 0.4), 1);
  }
  return light;
}

}  // namespace evet::render::solid
