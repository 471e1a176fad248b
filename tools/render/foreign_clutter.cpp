// Things that training never draws, beside and over the animal: buttons, pencils, string, clips and the like.
#include <array>

#include "tools/render/clutter.h"
#include "tools/render/noise.h"

namespace evet::render {

namespace {

float away_from_line(Vec2 p, Vec2 from, Vec2 to) {
  const Vec2 along = to - from;
  return length(p - from - along * clamp01(dot(p - from, along) / std::max(1e-6f, dot(along, along))));
}

float away_from_path(Vec2 p, const std::vector<Vec2>& path) {
  float nearest = 1e9f;
  for (std::size_t i = 1; i < path.size(); ++i)
    nearest = std::min(nearest, away_from_line(p, path[i - 1], path[i]));
  return nearest;
}

Vec3 any_colour(Rng& rng) {
  return hsv(rng.uniform(0, 360), rng.uniform(0.1, 0.85), rng.uniform(0.2, 0.95));
}

// A disc the size of a coin, with a raised edge and holes.
Thing button(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "button";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.1, 0.2);
  thing.reach = 1.05f;
  thing.lift = 0.03f;
  const Vec3 base = any_colour(rng);
  const bool four = rng.chance(0.6);
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float r = length(p);
    if (r > 1) return 0.0f;
    const Vec2 q{std::abs(p.x), four ? std::abs(p.y) : p.y};
    const float hole = length(q - Vec2{0.2f, four ? 0.2f : 0.0f});
    if (hole < 0.1f) return 0.0f;
    colour = base * (0.75f + 0.3f * smooth_step(0.68f, 0.76f, r) - 0.25f * smooth_step(0.9f, 1.0f, r) +
                     0.12f * p.x - 0.3f * smooth_step(0.16f, 0.1f, hole));
    return 1.0f;
  };
  return thing;
}

Thing pencil(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "pencil";
  thing.unit_px = scene.px_per_unit;
  const float half = rng.uniformf(0.5, 1.5), wide = rng.uniformf(0.055, 0.075), cone = 0.28f;
  thing.reach = half + 0.05f;
  thing.reach_across = wide;
  thing.lift = 0.07f;
  const Vec3 paint = any_colour(rng), wood = hsv(32, 0.4, 0.85), lead = hsv(0, 0, 0.15);
  const Vec3 end = rng.chance(0.5) ? hsv(350, 0.4, 0.85) : paint * 0.6f;
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float from_tip = half - p.x, sharp = std::min(1.0f, from_tip / cone);
    if (p.x < -half || from_tip < 0 || std::abs(p.y) > wide * sharp) return 0.0f;
    // Three of six sides are seen.
    const float side = std::floor(1.5f * p.y / wide + 0.5f);
    const float lit = side > 0 ? 0.6f : side < 0 ? 0.85f : 1.0f;
    colour = (from_tip < 0.3f * cone ? lead
              : from_tip < cone      ? wood
              : p.x < 0.12f - half   ? end
                                     : paint) *
             lit;
    return 1.0f;
  };
  return thing;
}

// A length of string as it fell: a wandering line, twisted of strands.
Thing string(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "string";
  thing.unit_px = scene.px_per_unit;
  thing.reach = 0.9f;
  thing.lift = 0.02f;
  std::vector<Vec2> path = {{rng.uniformf(-0.5, 0), rng.uniformf(-0.3, 0.3)}};
  float heading = rng.uniformf(-0.6, 0.6), turning = 0;
  for (int left = rng.between(14, 34); left > 0 && length(path.back()) < 0.85f; --left) {
    turning = 0.8f * turning + rng.uniformf(-0.28, 0.28);
    heading += turning;
    path.push_back(path.back() + Vec2{std::cos(heading), std::sin(heading)} * 0.06f);
  }
  const float thick = rng.uniformf(0.012, 0.022);
  const Vec3 base = rng.chance(0.5) ? hsv(38, rng.uniform(0.1, 0.5), 0.85) : any_colour(rng);
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float d = away_from_path(p, path) / thick;
    if (d > 1) return 0.0f;
    const float strand = std::sin((p.x + 0.8f * p.y) / thick * 2.2f);
    colour = base * ((0.45f + 0.55f * std::sqrt(1 - d * d)) * (1 + 0.18f * strand));
    return 1.0f;
  };
  return thing;
}

Thing paper_clip(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "paper-clip";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.2, 0.32);
  thing.reach = 1.3f;
  thing.lift = 0.015f;
  const float wire = 0.055f;
  const Vec3 base = rng.chance(0.5) ? hsv(210, 0.05, 0.75) : any_colour(rng);
  // Three bends, each within the one before.
  std::vector<Vec2> path;
  const auto bend = [&](float x, float half, bool right) {
    for (int i = 0; i <= 8; ++i) {
      const float a = static_cast<float>(kPi) * (static_cast<float>(i) / 8 - 0.5f);
      path.push_back(
          {x + (right ? 1.0f : -1.0f) * half * std::cos(a), (right ? 1.0f : -1.0f) * half * std::sin(a)});
    }
  };
  path.push_back({-0.5f, -0.3f});
  bend(0.85f, 0.3f, true);
  bend(-0.75f, 0.3f, false);
  path.push_back({0.5f, -0.2f});
  bend(0.55f, 0.2f, true);
  path.push_back({-0.4f, 0.2f});
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float d = away_from_path(p, path) / wire;
    if (d > 1) return 0.0f;
    colour = base * (0.4f + 0.75f * std::sqrt(1 - d * d));
    return 1.0f;
  };
  return thing;
}

// A card of patches, as photographers lay beside what they photograph.
Thing colour_card(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "colour-card";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.3, 0.55);
  const float tall = rng.uniformf(0.35, 0.7);
  thing.reach = 1.02f;
  thing.reach_across = tall;
  thing.lift = 0.01f;
  constexpr std::size_t kAcross = 6, kDown = 3;
  std::array<Vec3, kAcross * kDown> patches;
  for (std::size_t i = 0; i < patches.size(); ++i)
    patches[i] = i < kAcross ? hsv(0, 0, 0.12 + 0.16 * static_cast<double>(i)) : any_colour(rng);
  const Vec3 frame = rng.chance(0.6) ? hsv(0, 0, 0.08) : hsv(0, 0, 0.9);
  thing.look = [=](Vec2 p, Vec3& colour) {
    if (std::abs(p.x) > 1 || std::abs(p.y) > tall) return 0.0f;
    const float x = (p.x + 1) / 2 * kAcross, y = (p.y / tall + 1) / 2 * kDown;
    const std::size_t i = std::min<std::size_t>(kAcross - 1, static_cast<std::size_t>(x)),
                      j = std::min<std::size_t>(kDown - 1, static_cast<std::size_t>(y));
    const float off =
        std::max(std::abs(x - static_cast<float>(i) - 0.5f), std::abs(y - static_cast<float>(j) - 0.5f));
    colour = off > 0.42f ? frame : patches[j * kAcross + i];
    return 1.0f;
  };
  return thing;
}

Thing snail_shell(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "snail-shell";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.09, 0.2);
  thing.reach = 1.1f;
  thing.lift = 0.08f;
  const Vec3 base = hsv(rng.uniform(25, 55), rng.uniform(0.15, 0.6), rng.uniform(0.45, 0.85)),
             band = base * rng.uniformf(0.25, 0.6);
  const float hand = static_cast<float>(rng.sign()), bands = rng.chance(0.6) ? 1.0f : 0.0f;
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float r = length(p);
    if (r > 1) return 0.0f;
    // Whorls that grow by the same factor each turn.
    const float whorl =
        std::log(std::max(0.03f, r)) / 0.9f + hand * std::atan2(p.y, p.x) / (2 * static_cast<float>(kPi));
    const float t = whorl - std::floor(whorl),
                hump = std::sqrt(std::max(0.0f, 1 - (2 * t - 1) * (2 * t - 1)));
    colour = mix(base, band, bands * smooth_step(0.12f, 0.06f, std::abs(t - 0.55f))) *
             ((0.3f + 0.7f * hump) * (1.05f - 0.3f * r + 0.15f * p.x));
    return 1.0f;
  };
  return thing;
}

Thing rubber_band(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "rubber-band";
  thing.unit_px = scene.px_per_unit * rng.uniformf(0.15, 0.4);
  thing.reach = 1.6f;
  thing.lift = 0.02f;
  const float half = 0.012f * scene.px_per_unit / thing.unit_px * rng.uniformf(0.9, 1.6),
              flat = rng.uniformf(0.45, 1);
  const std::uint32_t seed = rng.next32();
  const Vec3 base = any_colour(rng);
  thing.look = [=](Vec2 p, Vec3& colour) {
    const Vec2 q{p.x, p.y / flat};
    const float r = std::max(1e-3f, length(q));
    const float d = (r - 1 - 0.2f * value_noise(1.3f * q.x / r, 1.3f * q.y / r, seed)) * flat / half;
    if (std::abs(d) > 1) return 0.0f;
    colour = base * (0.5f + 0.5f * std::sqrt(1 - d * d));
    return 1.0f;
  };
  return thing;
}

Thing cotton_bud(const ClutterScene& scene, Rng& rng) {
  Thing thing;
  thing.kind = "cotton-bud";
  thing.unit_px = scene.px_per_unit;
  const float half = rng.uniformf(0.5, 0.75), stick = 0.018f, bud = rng.uniformf(0.035, 0.05),
              length_bud = 0.09f;
  thing.reach = half + 0.02f;
  thing.reach_across = bud;
  thing.lift = 0.05f;
  const Vec3 handle = rng.chance(0.5) ? any_colour(rng) : hsv(0, 0, 0.9), cotton = hsv(45, 0.04, 0.96);
  const std::uint32_t seed = rng.next32();
  thing.look = [=](Vec2 p, Vec3& colour) {
    const float from_end = half - std::abs(p.x);
    if (from_end < 0) return 0.0f;
    const bool wool = from_end < 2 * length_bud;
    const float t = (from_end - length_bud) / length_bud;
    const float wide = wool ? std::max(stick, bud * std::sqrt(std::max(0.0f, 1 - t * t))) : stick;
    const float d = p.y / wide;
    if (std::abs(d) > 1 || (wool && from_end < length_bud * 0.02f)) return 0.0f;
    colour = (wool ? cotton * (1 + 0.08f * value_noise(p.x * 80, p.y * 80, seed)) : handle) *
             (0.5f + 0.5f * std::sqrt(1 - d * d));
    return 1.0f;
  };
  return thing;
}

using Maker = Thing (*)(const ClutterScene&, Rng&);

struct Offer {
  Maker make;
  double chance;  // at full strength
  int most;
};

// `at`: where the next thing goes.
template <class Place>
std::vector<Thing> laid(const ClutterScene& scene, double strength, const std::vector<Offer>& offers,
                        Rng& rng, const Place& at, float lifted) {
  std::vector<Thing> things;
  for (const Offer& offer : offers) {
    if (!rng.chance(offer.chance * strength)) continue;
    for (int left = rng.between(1, offer.most); left > 0; --left) {
      Thing thing = offer.make(scene, rng);
      thing.centre = at();
      thing.angle = rng.uniformf(0, 2 * kPi);
      thing.lift += lifted;
      things.push_back(std::move(thing));
    }
  }
  return things;
}

}  // namespace

std::vector<Thing> draw_foreign_floor_clutter(const ClutterScene& scene, double strength, Rng rng) {
  static const std::vector<Offer> offers = {
      {button, 0.35, 4},      {pencil, 0.35, 2},     {string, 0.3, 2},       {paper_clip, 0.3, 3},
      {colour_card, 0.25, 1}, {snail_shell, 0.3, 3}, {rubber_band, 0.15, 2}, {cotton_bud, 0.15, 1}};
  return laid(
      scene, strength, offers, rng,
      [&] {
        return Vec2{scene.frame.x * rng.uniformf(0, 1), scene.frame.y * rng.uniformf(0, 1)};
      },
      0);
}

std::vector<Thing> draw_foreign_covering_clutter(const ClutterScene& scene, double strength, Rng rng) {
  if (scene.midline.empty()) return {};
  static const std::vector<Offer> offers = {{string, 0.4, 1},
                                            {rubber_band, 0.3, 1},
                                            {cotton_bud, 0.35, 2},
                                            {paper_clip, 0.2, 1},
                                            {pencil, 0.15, 1}};
  return laid(
      scene, strength, offers, rng,
      [&] {
        const float around = 2.2f * scene.half_width_px;
        return rng.pick(scene.midline) + Vec2{rng.uniformf(-1, 1) * around, rng.uniformf(-1, 1) * around};
      },
      0.1f);
}

}  // namespace evet::render
