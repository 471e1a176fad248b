// What people bring: trays, boxes, nets, paper, cloth, boards.
#include "tools/render/floors.h"
#include "tools/render/noise.h"

namespace evet::render::floors {

float ruled(float x, float pitch, float width, float footprint) {
  const float t = x / pitch, d = std::abs(t - std::round(t)) * pitch;
  const float sharp =
      clamp01((width / 2 + footprint / 2 - d) / footprint) * std::min(1.0f, width / footprint);
  const float unresolved = clamp01(2 * footprint / pitch - 0.6f);
  return mix(sharp, width / pitch, unresolved);
}

namespace {

struct Stroke {
  Vec2 from, to;
  float width, strength;
};
float stroke_cover(const std::vector<Stroke>& strokes, Vec2 p, float footprint) {
  float cover = 0;
  for (const Stroke& s : strokes) {
    const Vec2 d = s.to - s.from;
    const float t = clamp01(dot(p - s.from, d) / std::max(1e-6f, dot(d, d)));
    const float away = length(p - s.from - d * t);
    cover = std::max(cover, s.strength * clamp01((s.width + footprint - away) / footprint) *
                                std::min(1.0f, s.width / footprint * 2));
  }
  return cover;
}
std::vector<Stroke> scratches(Rng& rng, int count) {
  std::vector<Stroke> strokes;
  for (int i = 0; i < count; ++i) {
    const Vec2 from{rng.uniformf(-2, 2), rng.uniformf(-2, 2)};
    const float angle = rng.uniformf(0, 2 * kPi), reach = rng.uniformf(0.1, 1.2);
    strokes.push_back({from,
                       {from.x + reach * std::cos(angle), from.y + reach * std::sin(angle)},
                       rng.uniformf(0.0015, 0.004),
                       rng.uniformf(0.2, 0.8)});
  }
  return strokes;
}

}  // namespace

Floor tray(Vec3 base, Rng rng) {
  const std::uint32_t seed = rng.next32();
  const auto strokes = scratches(rng, rng.between(0, 10));
  const float dirt = rng.uniformf(0, 0.5), stain = rng.uniformf(0.01, 0.1);
  const float wall_x = rng.chance(0.4) ? rng.uniformf(0.5, 1.3) : 9.0f, wall_angle = rng.uniformf(0, 2 * kPi);
  const Vec2 wall{std::cos(wall_angle), std::sin(wall_angle)};
  const bool ribbed = rng.chance(0.15);
  const float pitch = rng.uniformf(0.15, 0.4);
  const Vec3 soil = hsv(30, 0.5, 0.3);
  return [=](Vec2 p, float fp) {
    const float soft = fractal_noise(p.x * 2, p.y * 2, seed, 3, 0.5f, fp * 2);
    Vec3 colour =
        base * (1 + stain * soft + 0.02f * fractal_noise(p.x * 60, p.y * 60, seed + 1, 2, 0.5f, fp * 60));
    const CellNoise speck = cell_noise(p.x * 9, p.y * 9, seed + 2);
    if (hash_unit(speck.id, 3) < dirt) {
      const float r = (0.03f + 0.09f * hash_unit(speck.id, 4) * hash_unit(speck.id, 6)) *
                      (1 + 0.7f * value_noise(p.x * 60, p.y * 60, seed + 7));
      colour = mix(colour, soil, 0.8f * clamp01((r - speck.nearest) / std::max(0.02f, 9 * fp) + 0.5f));
    }
    colour = mix(colour, base * 0.55f, stroke_cover(strokes, p, fp));
    if (ribbed) colour = colour * (1 - 0.25f * ruled(p.x, pitch, 0.02f, fp));
    // One wall of the tray, in its own light, with a dark fillet.
    const float to_wall = wall_x - dot(p, wall);
    if (to_wall < 0) colour = base * (0.7f + 0.1f * soft);
    return colour * (1 - 0.4f * std::exp(-to_wall * to_wall * 900));
  };
}

Floor graph_paper(Rng rng) {
  const Vec3 paper = srgb(240, rng.uniform(232, 242), rng.uniform(215, 242));
  const std::vector<Vec3> inks = {srgb(70, 150, 90), srgb(70, 110, 190), srgb(215, 120, 60),
                                  srgb(120, 120, 125), srgb(200, 80, 80)};
  const Vec3 ink = rng.pick(inks);
  const float mm = 0.018f * rng.uniformf(0.85, 1.2), fine = rng.chance(0.7) ? 0.45f : 0.0f;
  const float angle = rng.uniformf(-0.4, 0.4) + (rng.chance(0.3) ? rng.uniformf(0, kPi) : 0.0f);
  const std::uint32_t seed = rng.next32();
  const float step = rng.chance(0.3) ? 5.0f : 10.0f;
  const Turn turn(angle);
  return [=](Vec2 p, float fp) {
    const Vec2 q = turn(p);
    const auto both = [&](float pitch, float width) {
      return std::max(ruled(q.x, pitch, width, fp), ruled(q.y, pitch, width, fp));
    };
    float cover = fine > 0 ? fine * both(mm, mm * 0.1f) : 0;
    cover = std::max({cover, 0.6f * both(5 * mm, mm * 0.16f), 0.9f * both(step * mm, mm * 0.22f)});
    const Vec3 colour = paper * (1 + 0.03f * fractal_noise(q.x * 3, q.y * 3, seed, 3, 0.5f, fp * 3));
    return mix(colour, ink, cover);
  };
}

Floor wood(Rng rng) {
  const Vec3 light = hsv(rng.uniform(24, 38), rng.uniform(0.25, 0.6), rng.uniform(0.45, 0.85)),
             dark = light * rng.uniformf(0.35, 0.7);
  const std::uint32_t seed = rng.next32();
  const float angle = rng.uniformf(0, kPi), plank = rng.chance(0.6) ? rng.uniformf(0.7, 1.8) : 50.0f;
  const Turn turn(angle);
  return [=](Vec2 p, float fp) {
    const Vec2 q = turn(p);
    const float board = std::floor(q.y / plank);
    const float along = q.x * 0.6f + board * 7.3f, across = q.y * 6 + board * 3.1f;
    const float bend = fractal_noise(along, across * 0.25f, seed, 2);
    const float rings = std::sin((across + 2.5f * bend) * 3.1f) * clamp01(1.5f - fp * 20);
    const float fibre = fractal_noise(q.x * 5, q.y * 90, seed + 2, 3, 0.6f, fp * 90);
    Vec3 colour = mix(light, dark, clamp01(0.4f + 0.3f * rings + 0.35f * fibre)) *
                  (0.85f + 0.3f * hash_unit(static_cast<std::uint32_t>(static_cast<int>(board)), 4));
    return colour * (1 - 0.8f * ruled(q.y, plank, 0.012f, fp));
  };
}

Floor cloth(Rng rng) {
  const Vec3 base = hsv(rng.uniform(0, 360), rng.uniform(0, 0.6), rng.uniform(0.2, 0.95));
  const Vec3 stripe =
      rng.chance(0.3) ? hsv(rng.uniform(0, 360), rng.uniform(0, 0.7), rng.uniform(0.2, 0.95)) : base;
  const float thread = rng.uniformf(0.012, 0.035), stripe_pitch = rng.uniformf(0.15, 0.7),
              angle = rng.uniformf(0, kPi);
  const bool checked = rng.chance(0.4);
  const std::uint32_t seed = rng.next32();
  const Turn turn(angle);
  return [=](Vec2 p, float fp) {
    const float fold = fractal_noise(p.x * 1.3f, p.y * 1.3f, seed, 3);
    Vec2 q = turn(p);
    q.x += 0.04f * fold;
    q.y += 0.04f * value_noise(p.x * 2, p.y * 2, seed + 1);
    const float fade = clamp01(1.6f - 3 * fp / thread);
    const float weave = fade * std::sin(q.x * 2 * static_cast<float>(kPi) / thread) *
                        std::sin(q.y * 2 * static_cast<float>(kPi) / thread);
    const float sx = q.x / stripe_pitch, sy = q.y / stripe_pitch;
    float on = sx - std::floor(sx) < 0.4f ? 1.0f : 0.0f;
    if (checked) on = 0.5f * on + (sy - std::floor(sy) < 0.4f ? 0.5f : 0.0f);
    return mix(base, stripe, on) * (1 + 0.22f * weave + 0.45f * fold);
  };
}

Floor net(Vec3 strand, Floor below, Rng rng) {
  const std::uint32_t seed = rng.next32();
  const float pitch = rng.uniformf(0.03, 0.14), width = pitch * rng.uniformf(0.14, 0.3),
              angle = rng.uniformf(0, kPi), sag = rng.uniformf(0.02, 0.12);
  const bool diamond = rng.chance(0.5);
  const Turn turn(angle);
  return [=](Vec2 p, float fp) {
    Vec2 q = turn(p);
    q.x += sag * fractal_noise(p.x * 1.2f, p.y * 1.2f, seed, 2);
    q.y += sag * fractal_noise(p.x * 1.2f, p.y * 1.2f, seed + 1, 2);
    if (diamond) q = {q.x + 0.6f * q.y, q.x - 0.6f * q.y};
    const float cover = std::max(ruled(q.x, pitch, width, fp), ruled(q.y, pitch, width, fp));
    const float knots = 0.85f + 0.25f * value_noise(p.x * 4, p.y * 4, seed + 2);
    return cover > 0.98f ? strand * knots : mix(below(p, fp) * 0.7f, strand * knots, cover);
  };
}

Floor clear_box(Floor below, Rng rng) {
  const auto strokes = scratches(rng, rng.between(3, 16));
  const std::uint32_t seed = rng.next32();
  const float haze = rng.uniformf(0.03, 0.2), drops = rng.chance(0.6) ? rng.uniformf(0.05, 0.5) : 0.0f;
  const float edge = rng.chance(0.5) ? rng.uniformf(0.45, 1.2) : 9.0f,
              angle =
                  rng.uniformf(-0.3, 0.3) + static_cast<float>(kPi / 2) * static_cast<float>(rng.below(4));
  const Vec2 across{std::cos(angle), std::sin(angle)};
  return [=](Vec2 p, float fp) {
    // What lies under the box is out of focus: read coarsely.
    Vec3 colour = below(p, std::max(fp, 0.03f)) * 0.85f + Vec3{haze, haze, haze};
    const CellNoise drop = cell_noise(p.x * 7, p.y * 7, seed);
    const float r = 0.1f + 0.25f * hash_unit(drop.id, 2);
    if (hash_unit(drop.id, 1) < drops && drop.nearest < r)
      colour = colour * (0.75f + 0.6f * smooth_step(0.4f, 1.0f, drop.nearest / r));
    colour = colour + Vec3{0.35f, 0.35f, 0.35f} * stroke_cover(strokes, p, fp);
    const float to_edge = edge - dot(p, across);
    colour = colour + Vec3{0.5f, 0.5f, 0.5f} * std::exp(-to_edge * to_edge * 6000);
    return to_edge < 0 ? colour * 0.8f : colour;
  };
}

}  // namespace evet::render::floors
