// Hands, bare and gloved, on which an animal lies.
#include "tools/render/floors.h"
#include "tools/render/noise.h"

namespace evet::render::floors {

namespace {

// Fingers side by side, close up: they fill the frame.
Floor finger_rows(Vec3 base, float lines, Rng rng) {
  const std::uint32_t seed = rng.next32();
  const float angle = rng.uniformf(0, 2 * kPi), finger = rng.uniformf(0.28, 0.42),
              offset = rng.uniformf(0, 0.4), palm = rng.uniformf(-0.9, 0.6);
  const float deep = lines * rng.uniformf(0, 0.3), thin = rng.uniformf(0.02, 0.08),
              bow = rng.uniformf(0.03, 0.15), gap = rng.uniformf(0.12, 0.45);
  const Turn turn(angle);
  return [=](Vec2 p, float fp) {
    Vec2 q = turn(p);
    q.x += bow * fractal_noise(q.x, q.y * 0.6f, seed + 3, 2) + offset;
    const float crease = fractal_noise(q.x * 3, q.y * 7, seed, 4, 0.6f, fp * 7);
    const float fine = fractal_noise(q.x * 40, q.y * 60, seed + 1, 2, 0.5f, fp * 60);
    const float t = q.x / finger, d = t - std::round(t);
    const float on_fingers = smooth_step(palm - 0.05f, palm + 0.1f, q.y);
    const float round = std::sqrt(std::max(0.0f, 1 - 3.9f * d * d));
    const float shade = mix(1.0f, gap + (1 - gap) * round, on_fingers);
    const float folds = deep * smooth_step(thin, 0.0f, std::abs(crease)) + 0.12f * crease;
    return base * ((1 - folds + 0.05f * fine) * shade);
  };
}

// A limb of the hand: a capsule with creases across it at its joints.
struct Digit {
  Vec2 root, way;
  float reach, half_width;
};

// A whole hand, bare or gloved, over another floor.
Floor whole_hand(Vec3 base, float lines, Floor below, Rng rng) {
  const std::uint32_t seed = rng.next32();
  const Turn turn(rng.uniformf(0, 2 * kPi));
  const Vec2 middle{rng.uniformf(-0.35, 0.35), rng.uniformf(-0.2, 0.6)};
  const float size = rng.uniformf(0.85, 1.25), side = static_cast<float>(rng.sign());
  const float fan = rng.uniformf(0.02, 0.22), thick = rng.uniformf(0.16, 0.2) * size;
  std::vector<Digit> digits;
  for (int i = 0; i < 4; ++i) {
    const float place = static_cast<float>(i) - 1.5f, angle = place * fan + rng.uniformf(-0.05, 0.05);
    digits.push_back({{place * 0.4f * size, -0.62f * size},
                      {std::sin(angle), -std::cos(angle)},
                      size * rng.uniformf(1.15, 1.5) * (1 - 0.07f * place * place),
                      thick});
  }
  const float thumb = rng.uniformf(0.4, 1.1);
  digits.push_back({{side * 0.62f * size, 0.25f * size},
                    {side * std::sin(thumb), -std::cos(thumb)},
                    size * rng.uniformf(0.8, 1.1),
                    thick * 1.1f});
  const float crease_depth = lines * rng.uniformf(0, 0.22), wrist = rng.chance(0.5) ? 0.55f : 0.8f;
  return [=](Vec2 p, float fp) {
    const Vec2 q = turn(p) - middle;
    // The palm, drawn out to a wrist.
    const float from_palm = q.y > 0 ? std::max(0.0f, q.y - 0.3f * size) : -q.y;
    const float half = (q.y > 0.9f * size ? wrist : 0.82f) * size;
    const float px = std::abs(q.x) / half, py = q.y > 0 ? 0.0f : from_palm / (0.85f * size);
    const float palm = 1 - (px * px * px * px + py * py * py * py);
    float height = palm > 0 ? 0.25f * std::sqrt(std::sqrt(palm)) : 0,
          shade = height > 0 ? 0.45f + 2.2f * height : 0;
    float nearest = palm > 0 ? 0.0f : 0.4f * (px * px + py * py - 1), crease = 0;
    for (const Digit& d : digits) {
      const Vec2 from_root = q - d.root;
      const float along = std::clamp(dot(from_root, d.way), 0.0f, d.reach);
      const float away = length(from_root - d.way * along) / d.half_width;
      nearest = std::min(nearest, std::max(0.0f, away - 1) * d.half_width);
      if (away >= 1) continue;
      const float round = std::sqrt(1 - away * away),
                  h = 0.05f + d.half_width * round * clamp01(along * 6 + 0.4f);
      if (h <= height) continue;
      height = h;
      shade = 0.35f + 0.65f * round;
      const float joint =
          std::min(std::abs(along / d.reach - 0.36f), std::abs(along / d.reach - 0.68f)) * d.reach;
      crease = clamp01(1 - joint / 0.02f);
    }
    if (height <= 0) return below(p, fp) * (1 - 0.55f * std::exp(-12 * nearest));
    const float soft = fractal_noise(q.x * 2.5f, q.y * 2.5f, seed, 3, 0.5f, fp * 2.5f);
    const float folds = lines > 0 ? smooth_step(0.09f, 0.0f, std::abs(soft + 0.1f)) * crease_depth : 0;
    const float fine = fractal_noise(q.x * 45, q.y * 45, seed + 1, 2, 0.5f, fp * 45);
    return base *
           (shade * (1 + 0.08f * soft + 0.04f * fine - folds) * (1 - 0.35f * crease * std::min(1.0f, lines)));
  };
}

}  // namespace

Floor hand(Vec3 base, float lines, Vec3 belly_ground, Rng rng) {
  if (rng.chance(0.3)) return finger_rows(base, lines, rng.fork(1));
  return whole_hand(base, lines, plain_below(belly_ground, rng.fork(2)), rng.fork(3));
}

}  // namespace evet::render::floors
