#include "tools/render/clutter.h"

#include "tools/render/leaf.h"
#include "tools/render/noise.h"

namespace evet::render {

namespace {

Thing leaf(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "leaf";
  const LeafLook look = draw_leaf(scene.belly_ground, rng);
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.15, 0.75);
  thing.reach = 0.62f;
  thing.look = [look](Vec2 p, Vec3& colour) { return leaf_at(look, p.x, p.y, colour) ? 1.0f : 0.0f; };
  return thing;
}

Thing pebble(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "pebble";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.02, 0.13);
  thing.reach = 1.3f;
  const std::uint32_t seed = rng.next32();
  const Vec3 tone = hsv(rng.uniform(10, 60), rng.uniform(0.05, 0.5), rng.uniform(0.2, 0.8));
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float r = length(p) * (1 + 0.25f * value_noise(p.x * 1.3f, p.y * 1.3f, seed));
    if (r > 1) return 0.0f;
    colour = tone * ((0.45f + 0.6f * std::sqrt(1 - r * r)) *
                     (1 + 0.2f * fractal_noise(p.x * 4, p.y * 4, seed + 1, 3)));
    return 1.0f;
  };
  return thing;
}

Thing twig(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = rng.chance(0.25) ? "cable" : "twig";
  thing.unit_px = scene.px_per_unit;
  const float half = rng.uniformf(0.15, 0.9), thick = rng.uniformf(0.006, 0.022),
              waver = rng.uniformf(0.01, 0.08);
  thing.reach = half + 0.05f;
  thing.reach_across = thick + waver * 1.5f;
  const std::uint32_t seed = rng.next32();
  const bool cable = thing.kind == "cable";
  const Vec3 tone = cable ? hsv(rng.uniform(0, 360), rng.uniform(0, 0.8), rng.uniform(0.05, 0.8))
                          : hsv(rng.uniform(20, 80), rng.uniform(0.3, 0.6), rng.uniform(0.2, 0.6));
  thing.look = [=](Vec2 p, Vec3& colour) {
    if (std::abs(p.x) > half) return 0.0f;
    const float d = (p.y - waver * fractal_noise(p.x * 3, 0.5f, seed, cable ? 1 : 3)) /
                    (thick * (cable ? 1.0f : 1 - 0.5f * p.x / half));
    if (std::abs(d) > 1) return 0.0f;
    colour = tone * (0.35f + 0.75f * std::sqrt(1 - d * d)) *
             (cable ? 1.0f : 1 + 0.4f * value_noise(p.x * 60, p.y * 90, seed + 1));
    return 1.0f;
  };
  return thing;
}

// A seven-segment-like numeral is enough to look like print at these sizes.
float numeral(Vec2 p, int digit) {
  static constexpr int kSegments[10] = {0b1110111, 0b0010010, 0b1011101, 0b1011011, 0b0111010,
                                        0b1101011, 0b1101111, 0b1010010, 0b1111111, 0b1111011};
  const int bits = kSegments[digit];
  const auto bar = [&](float cx, float cy, bool level) {
    const float dx = std::abs(p.x - cx), dy = std::abs(p.y - cy);
    return level ? dx < 0.32f && dy < 0.08f : dx < 0.08f && dy < 0.32f;
  };
  const bool on = ((bits & 64) && bar(0, -0.6f, true)) || ((bits & 32) && bar(-0.32f, -0.3f, false)) ||
                  ((bits & 16) && bar(0.32f, -0.3f, false)) || ((bits & 8) && bar(0, 0, true)) ||
                  ((bits & 4) && bar(-0.32f, 0.3f, false)) || ((bits & 2) && bar(0.32f, 0.3f, false)) ||
                  ((bits & 1) && bar(0, 0.6f, true));
  return on ? 1.0f : 0.0f;
}

Thing ruler(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "ruler";
  thing.unit_px = scene.px_per_unit;
  const float half = rng.uniformf(0.9, 3), wide = rng.uniformf(0.10, 0.26), mm = 0.018f;
  thing.reach = half + wide;
  thing.reach_across = wide;
  thing.lift = 0.01f;
  const int centimetres = static_cast<int>(2 * half / (10 * mm));
  const int kind = rng.below(4);
  const Vec3 base = kind == 0   ? hsv(rng.uniform(44, 56), 0.85, 0.95)
                    : kind == 1 ? srgb(235, 235, 230)
                    : kind == 2 ? hsv(210, 0.05, 0.7)
                                : hsv(rng.uniform(24, 36), 0.5, 0.75);
  const Vec3 ink = rng.chance(0.85) ? srgb(20, 20, 22) : srgb(170, 30, 30);
  thing.look = [=](Vec2 p, Vec3& colour) {
    if (std::abs(p.x) > half || std::abs(p.y) > wide) return 0.0f;
    colour = base * (1 - 0.15f * std::abs(p.y) / wide);
    const float t = p.x / mm, nearest = std::round(t), from_edge = (p.y + wide) / mm;
    const int mark = static_cast<int>(nearest);
    const float long_mark = mark % 10 == 0 ? 5.0f : mark % 5 == 0 ? 3.6f : 2.2f;
    if (std::abs(t - nearest) < 0.13f && from_edge < long_mark) colour = ink;
    const float cm = std::round(t / 10);
    const Vec2 q{(t - cm * 10) / 1.8f, (from_edge - 7.2f) / 1.9f};
    const int shown = static_cast<int>(cm) + centimetres / 2;
    if (shown < 1 || shown >= centimetres) return 1.0f;
    if (std::abs(q.x) < 1.4f && std::abs(q.y) < 0.9f) {
      const bool two = shown > 9;
      const float on = two ? std::max(numeral({q.x * 1.3f + 0.55f, q.y}, shown / 10 % 10),
                                      numeral({q.x * 1.3f - 0.55f, q.y}, shown % 10))
                           : numeral(q, shown % 10);
      if (on > 0) colour = ink;
    }
    return 1.0f;
  };
  return thing;
}

Thing label(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "label";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.15, 0.35);
  thing.reach = 1.3f;
  thing.lift = 0.005f;
  const float tall = rng.uniformf(0.35, 0.7);
  const Vec3 paper = rng.chance(0.7) ? srgb(242, 240, 232) : hsv(rng.uniform(0, 360), 0.35, 0.95),
             ink = srgb(25, 25, rng.chance(0.4) ? 120 : 30);
  const std::uint32_t seed = rng.next32();
  const int lines = rng.between(1, 3);
  thing.look = [=](Vec2 p, Vec3& colour) {
    if (std::abs(p.x) > 1 || std::abs(p.y) > tall) return 0.0f;
    colour = paper;
    const float row = (p.y / tall + 1) / 2 * static_cast<float>(lines),
                in_row = (row - std::floor(row) - 0.5f) * 2.4f;
    const float column = (p.x + 0.85f) * static_cast<float>(lines) / (0.75f * tall),
                place = column - std::floor(column) - 0.5f;
    const std::uint32_t sign =
        lattice_hash(static_cast<int>(std::floor(column)), static_cast<int>(row), seed);
    if (std::abs(p.x) < 0.85f && sign % 16 < 13) {
      const int digit = static_cast<int>((sign >> 8) % 10);
      if (numeral({place * 1.4f, in_row}, digit) > 0) colour = ink;
    }
    return 1.0f;
  };
  return thing;
}

Thing coin(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "coin";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.14, 0.24);
  thing.reach = 1.05f;
  thing.lift = 0.015f;
  const Vec3 metal =
      rng.chance(0.5) ? hsv(rng.uniform(22, 45), rng.uniform(0.3, 0.6), 0.7) : hsv(40, 0.05, 0.72);
  const std::uint32_t seed = rng.next32();
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float r = length(p);
    if (r > 1) return 0.0f;
    const float relief = fractal_noise(p.x * 4, p.y * 4, seed, 3);
    colour = metal * (0.7f + 0.35f * smooth_step(0.86f, 0.9f, r) + 0.25f * relief + 0.2f * p.x);
    return 1.0f;
  };
  return thing;
}

Thing duckweed(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "duckweed";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.02, 0.045);
  thing.reach = 2.2f;
  const bool eggs = rng.chance(0.3);
  const Vec3 tone =
      eggs ? srgb(200, 190, 150) : hsv(rng.uniform(70, 110), rng.uniform(0.6, 0.9), rng.uniform(0.45, 0.8));
  const float apart = rng.uniformf(0.6, 1.0);
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float d = std::min({length(p), length(p - Vec2{apart, 0.6f}), length(p - Vec2{0.2f, -apart})});
    if (d > (eggs ? 0.55f : 0.8f)) return 0.0f;
    colour = tone * (1.05f - 0.4f * d);
    return eggs ? 0.7f : 1.0f;
  };
  return thing;
}

// A finger from the frame's edge towards a point; bare or gloved. Own frame: tip at 0, x back along it.
Thing finger(const ClutterScene& scene, Vec2 tip, Vec2 from, Rng& rng) {
  Thing thing;
  thing.kind = "finger";
  thing.centre = tip;
  const Vec2 back = from - tip;
  thing.angle = std::atan2(back.y, back.x);
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.13, 0.2);  // half width of a finger
  thing.reach = length(back) / thing.unit_px + 6;
  thing.reach_across = 4;
  thing.lift = 0.12f;
  const int kind = rng.below(8);
  const bool bare = kind < 3;
  const Vec3 tone = bare        ? hsv(rng.uniform(9, 28), rng.uniform(0.22, 0.62), rng.uniform(0.28, 0.95))
                    : kind == 3 ? hsv(rng.uniform(195, 235), rng.uniform(0.35, 0.8), rng.uniform(0.5, 0.85))
                    : kind == 4 ? hsv(rng.uniform(110, 175), rng.uniform(0.25, 0.65), rng.uniform(0.4, 0.75))
                    : kind == 5 ? hsv(rng.uniform(0, 360), 0.06, rng.uniform(0.12, 0.95))
                    : kind == 6 ? hsv(rng.uniform(260, 330), rng.uniform(0.2, 0.55), rng.uniform(0.45, 0.8))
                                : hsv(rng.uniform(35, 55), rng.uniform(0.15, 0.8), rng.uniform(0.7, 0.95));
  const std::uint32_t seed = rng.next32();
  const float bow = rng.uniformf(-0.05, 0.05);
  const bool nail = bare && rng.chance(0.5);
  const float knuckle = rng.uniformf(2.2, 3.2);
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float y = p.y - bow * p.x * p.x * 0.3f, x = p.x;
    const float wide = 0.92f + 0.05f * std::min(x, 6.0f) + 0.06f * std::cos((x - knuckle) * 2.2f);
    float d = std::abs(y) / wide;
    if (x < 0.9f) {
      const float dx = (0.9f - x) / 0.95f;
      d = std::sqrt(dx * dx + d * d);
    }
    if (d > 1) return 0.0f;
    const float crease =
        std::exp(-60 * (x - knuckle) * (x - knuckle)) * (0.5f + 0.5f * value_noise(x * 5, y * 2, seed));
    colour = tone * ((0.3f + 0.75f * std::sqrt(1 - d * d)) *
                     (1 + 0.1f * fractal_noise(x * 1.5f, y * 1.5f, seed, 4)) * (1 - 0.3f * crease));
    const float nx = (x - 0.75f) / 0.6f, ny = y / 0.55f;
    if (nail && nx * nx + ny * ny < 1) colour = mix(colour, Vec3{0.75f, 0.55f, 0.48f}, 0.5f);
    return 1.0f;
  };
  return thing;
}

Thing net_patch(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "net";
  thing.unit_px = scene.px_per_unit;
  thing.reach = rng.uniformf(0.3, 0.9);
  thing.lift = 0.03f;
  const float pitch = rng.uniformf(0.07, 0.16), width = rng.uniformf(0.006, 0.011), edge = thing.reach * 0.9f;
  const Vec3 strand = rng.chance(0.5) ? hsv(rng.uniform(100, 160), 0.6, rng.uniform(0.25, 0.5))
                                      : hsv(0, 0.05, rng.uniform(0.05, 0.15));
  const std::uint32_t seed = rng.next32();
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float x = p.x + 0.03f * value_noise(p.x * 4, p.y * 4, seed),
                y = p.y + 0.03f * value_noise(p.x * 4, p.y * 4, seed + 1);
    if (x > edge || std::abs(y) > edge) return 0.0f;
    const float dx = std::abs(x / pitch - std::round(x / pitch)) * pitch,
                dy = std::abs(y / pitch - std::round(y / pitch)) * pitch;
    if (std::min(dx, dy) > width) return 0.0f;
    colour = strand * (1.1f - 0.5f * std::min(dx, dy) / width);
    return 1.0f;
  };
  return thing;
}

// Bubbles of air in water over the animal: clear in the middle, a bright rim and a spark of the lamp.
Thing bubbles(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "bubbles";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.08, 0.3);
  thing.reach = 1;
  thing.lift = 0.02f;
  const std::uint32_t seed = rng.next32();
  const float pitch = rng.uniformf(1.2, 4), share = rng.uniformf(0.25, 0.8), rim = rng.uniformf(0.25, 0.6);
  thing.look = [=](Vec2 p, Vec3& colour) {
    const CellNoise bubble = cell_noise(p.x * pitch, p.y * pitch, seed);
    const float radius = 0.12f + 0.3f * hash_unit(bubble.id, 2);
    if (hash_unit(bubble.id, 1) > share || bubble.nearest > radius || length(p) > 1) return 0.0f;
    const float t = bubble.nearest / radius;
    colour = Vec3{0.9f, 0.95f, 1.0f};
    return t < 0.25f ? 0.5f * (1 - t / 0.25f) : rim * smooth_step(0.6f, 0.95f, t);
  };
  return thing;
}

Thing wild_patch(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "patch";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.04, 0.3);
  thing.reach = 1.5f;
  const std::uint32_t seed = rng.next32();
  const Vec3 first = hsv(rng.uniform(0, 360), rng.uniform(0, 1), rng.uniform(0, 1)),
             second = hsv(rng.uniform(0, 360), rng.uniform(0, 1), rng.uniform(0, 1));
  const float square = rng.uniformf(2, 8), stretch = rng.uniformf(0.5, 1), grain = rng.uniformf(1, 8);
  const bool box = rng.chance(0.4);
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float x = std::abs(p.x), y = std::abs(p.y) / stretch;
    const float d = box ? std::max(x, y)
                        : std::pow(std::pow(x, square) + std::pow(y, square), 1 / square) *
                              (1 + 0.3f * value_noise(p.x * 2, p.y * 2, seed));
    if (d > 1) return 0.0f;
    colour = mix(first, second, clamp01(0.5f + fractal_noise(p.x * grain, p.y * grain, seed + 1, 3)));
    return 1.0f;
  };
  return thing;
}

Vec2 anywhere(const ClutterScene& scene, Rng& rng) {
  return {scene.frame.x * rng.uniformf(0, 1), scene.frame.y * rng.uniformf(0, 1)};
}

Vec2 edge_point(const ClutterScene& scene, Rng& rng) {
  const float t = rng.uniformf(0, 1);
  switch (rng.below(4)) {
    case 0:
      return {t * scene.frame.x, -0.1f * scene.frame.y};
    case 1:
      return {t * scene.frame.x, 1.1f * scene.frame.y};
    case 2:
      return {-0.1f * scene.frame.x, t * scene.frame.y};
    default:
      return {1.1f * scene.frame.x, t * scene.frame.y};
  }
}

}  // namespace

std::vector<Thing> draw_floor_clutter(const ClutterScene& scene, double strength, bool wild, Rng rng) {
  std::vector<Thing> things;
  const auto lay = [&](Thing thing) {
    thing.centre = anywhere(scene, rng);
    thing.angle = rng.uniformf(0, 2 * kPi);
    things.push_back(std::move(thing));
  };
  const int leaves = rng.chance(0.5 * strength) ? rng.between(1, 1 + static_cast<int>(5 * strength)) : 0;
  for (int i = 0; i < leaves; ++i) lay(leaf(scene, rng));
  const int pebbles = rng.chance(0.35 * strength) ? rng.between(1, 8) : 0;
  for (int i = 0; i < pebbles; ++i) lay(pebble(scene, rng));
  const int twigs = rng.chance(0.35 * strength) ? rng.between(1, 3) : 0;
  for (int i = 0; i < twigs; ++i) lay(twig(scene, rng));
  const int weeds = rng.chance(0.3 * strength) ? rng.between(2, 14) : 0;
  for (int i = 0; i < weeds; ++i) lay(duckweed(scene, rng));
  if (rng.chance(0.1 + 0.3 * strength)) {
    Thing thing = ruler(scene, rng);
    // Rulers lie beside the animal or along an edge.
    thing.centre = anywhere(scene, rng);
    thing.angle = rng.uniformf(-0.2, 0.2) + static_cast<float>(kPi / 2) * static_cast<float>(rng.below(4));
    things.push_back(std::move(thing));
  }
  if (rng.chance(0.05 + 0.2 * strength)) lay(label(scene, rng));
  if (rng.chance(0.12 * strength)) lay(coin(scene, rng));
  if (wild)
    for (int i = rng.between(0, 6); i > 0; --i) lay(wild_patch(scene, rng));
  return things;
}

std::vector<Thing> draw_covering_clutter(const ClutterScene& scene, double strength, bool wild, Rng rng) {
  std::vector<Thing> things;
  if (scene.midline.empty()) return things;
  const auto near_animal = [&] {
    const Vec2 p = rng.pick(scene.midline);
    return p +
           Vec2{rng.uniformf(-2.2, 2.2) * scene.half_width_px, rng.uniformf(-2.2, 2.2) * scene.half_width_px};
  };
  if (rng.chance(0.45 * strength)) {
    // Holding fingers: one over an end of the animal, sometimes one over each.
    for (const bool head : {true, false}) {
      if (!rng.chance(0.55)) continue;
      const Vec2 end = head ? scene.midline.front() : scene.midline.back(),
                 other = head ? scene.midline.back() : scene.midline.front();
      const Vec2 outwards = (end - other) * (1 / std::max(1.0f, length(end - other)));
      const Vec2 tip =
          end + outwards * (scene.half_width_px * rng.uniformf(-0.9, 2.0)) +
          Vec2{rng.uniformf(-1, 1) * scene.half_width_px, rng.uniformf(-1, 1) * scene.half_width_px};
      const Vec2 from = tip + rotate(outwards, rng.uniform(-1.3, 1.3)) * (scene.px_per_unit * 3);
      // Often a second finger lies beside the first, of the same hand.
      const Rng hand = rng.fork(rng.next());
      Rng one = hand;
      things.push_back(finger(scene, tip, from, one));
      if (!rng.chance(0.35)) continue;
      const Vec2 back = from - tip,
                 beside = rotate(back * (1 / std::max(1.0f, length(back))), kPi / 2 * rng.sign()) *
                          (scene.px_per_unit * rng.uniformf(0.28, 0.42));
      const Vec2 shorter = back * rng.uniformf(-0.05, 0.12);
      Rng second = hand;
      things.push_back(finger(scene, tip + beside + shorter, from + beside * rng.uniformf(0.6, 1.3), second));
    }
  }
  if (rng.chance(0.3 * strength)) {
    const Vec2 tip = near_animal();
    things.push_back(finger(scene, tip, edge_point(scene, rng), rng));
  }
  const auto lay_near = [&](Thing thing) {
    thing.centre = near_animal();
    thing.angle = rng.uniformf(0, 2 * kPi);
    thing.lift += 0.1f;
    things.push_back(std::move(thing));
  };
  if (rng.chance(0.3 * strength))
    for (int i = rng.between(1, 3); i > 0; --i) lay_near(leaf(scene, rng));
  if (rng.chance(0.25 * strength)) lay_near(twig(scene, rng));
  if (rng.chance(0.25 * strength))
    for (int i = rng.between(1, 10); i > 0; --i) lay_near(duckweed(scene, rng));
  if (rng.chance(0.2 * strength))
    for (int i = rng.between(1, 4); i > 0; --i) lay_near(bubbles(scene, rng));
  if (rng.chance(0.1 * strength)) lay_near(net_patch(scene, rng));
  if (rng.chance(0.06 * strength)) lay_near(ruler(scene, rng));
  if (wild)
    for (int i = rng.between(0, 4); i > 0; --i) lay_near(wild_patch(scene, rng));
  return things;
}

}  // namespace evet::render
