#include "tools/render/other_things.h"

#include <array>

#include "tools/render/leaf.h"
#include "tools/render/noise.h"

namespace evet::render {

namespace {

Thing big_leaf(const ClutterScene& scene, Rng& rng) {
  Thing leaf;
  const LeafLook look = draw_leaf(scene.belly_ground, rng);
  leaf.kind = "leaf";
  leaf.unit_px = scene.px_per_unit * rng.uniformf(0.8, 1.4);
  leaf.reach = 0.62f;
  leaf.look = [look](Vec2 p, Vec3& colour) { return leaf_at(look, p.x, p.y, colour) ? 1.0f : 0.0f; };
  return leaf;
}

// A tapered capsule: share of its radius at which a place lies (below 1 inside).
struct Bone {
  Vec2 from, to;
  float thick, thin;
  float at(Vec2 p) const {
    const Vec2 way = to - from;
    const float t = clamp01(dot(p - from, way) / std::max(1e-6f, dot(way, way)));
    return length(p - from - way * t) / mix(thick, thin, t);
  }
};

// The underside of a frog or toad, head up. Plain and pale, mottled, or dark with bright blotches.
Thing frog(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "frog";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.9, 1.7);
  thing.reach = 1.1f;
  thing.lift = 0.06f;
  const float wide = rng.uniformf(0.27, 0.36), snout = rng.uniformf(0.3, 0.6);
  std::vector<Bone> bones;
  for (const float side : {-1.0f, 1.0f}) {
    // Hind leg: thigh out, shank back, foot out again; forelegs short.
    const float spread = rng.uniformf(0.15, 0.45), fold = rng.uniformf(0.1, 0.4);
    const Vec2 hip{side * wide * 0.55f, 0.38f}, knee{side * (wide + spread), 0.32f + 0.3f * fold},
        heel{side * (wide * 0.6f + 0.4f * fold), 0.62f + 0.2f * fold},
        toe{side * (wide + 0.45f), 0.75f + 0.2f * fold};
    bones.push_back({hip, knee, 0.13f, 0.085f});
    bones.push_back({knee, heel, 0.085f, 0.05f});
    bones.push_back({heel, toe, 0.05f, 0.035f});
    for (const float digit : {-0.12f, 0.0f, 0.12f})
      bones.push_back({toe, toe + Vec2{side * 0.14f, digit + 0.03f}, 0.022f, 0.014f});
    const Vec2 shoulder{side * wide * 0.8f, -0.18f}, elbow{side * (wide + 0.12f), -0.05f},
        hand{side * (wide + rng.uniformf(0.0, 0.2f)), -0.28f};
    bones.push_back({shoulder, elbow, 0.07f, 0.055f});
    bones.push_back({elbow, hand, 0.055f, 0.04f});
    for (const float digit : {-0.08f, 0.0f, 0.08f})
      bones.push_back({hand, hand + Vec2{digit, -0.1f}, 0.02f, 0.014f});
  }
  const int kind = rng.below(10);  // 0..5 plain, 6..8 mottled, 9 blotched
  const Vec3 ground = kind == 9 ? hsv(rng.uniform(15, 55), rng.uniform(0.6, 0.95), 0.9)
                                : hsv(rng.uniform(15, 70), rng.uniform(0.05, 0.45), rng.uniform(0.65, 0.97));
  const Vec3 mark = kind == 9 ? hsv(210, 0.2, 0.15) : ground * rng.uniformf(0.35, 0.75);
  const float level = kind < 6 ? 2.0f : rng.uniformf(-0.1, 0.25), pitch = rng.uniformf(6, 14);
  const std::uint32_t seed = rng.next32();
  thing.look = [=](Vec2 p, Vec3& colour) {
    // Egg-shaped trunk, narrower to the snout.
    const float taper = p.y < 0 ? 1 - snout * p.y * p.y * 1.6f : 1.0f;
    const float bx = p.x / (wide * std::max(0.3f, taper)), by = p.y / 0.52f;
    float d = bx * bx + by * by * (by < 0 ? by * by : 1.0f);
    bool leg = false;
    if (d >= 1)
      for (const Bone& bone : bones) {
        const float there = bone.at(p);
        if (there < d) d = there, leg = there < 1;
      }
    if (d >= 1) return 0.0f;
    const float mottle = fractal_noise(p.x * pitch, p.y * pitch, seed, 3),
                grain = value_noise(p.x * 70, p.y * 70, seed + 1);
    const Vec3 skin = mix(ground, mark, smooth_step(level, level + 0.12f, mottle) + (leg ? 0.15f : 0.0f));
    colour = skin * ((0.5f + 0.5f * std::sqrt(1 - d * d)) * (1 + 0.06f * grain + 0.08f * mottle));
    return 1.0f;
  };
  return thing;
}

}  // namespace

Thing other_thing(const ClutterScene& scene, Rng rng) {
  Thing thing = rng.chance(0.65) ? big_leaf(scene, rng) : frog(scene, rng);
  thing.centre = {scene.frame.x * rng.uniformf(0.35, 0.65), scene.frame.y * rng.uniformf(0.35, 0.65)};
  thing.angle = rng.uniformf(0, 2 * kPi);
  return thing;
}

}  // namespace evet::render
