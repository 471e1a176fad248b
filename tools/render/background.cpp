#include "tools/render/background.h"

#include <memory>
#include <stdexcept>

#include "tools/render/noise.h"

namespace evet::render {

namespace {

// A thin line every `pitch`: coverage in [0,1], fading to its mean where it cannot be resolved.
float ruled(float x, float pitch, float width, float footprint) {
  const float t = x / pitch, d = std::abs(t - std::round(t)) * pitch;
  const float sharp =
      clamp01((width / 2 + footprint / 2 - d) / footprint) * std::min(1.0f, width / footprint);
  const float unresolved = clamp01(2 * footprint / pitch - 0.6f);
  return mix(sharp, width / pitch, unresolved);
}

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

Floor gravel(Rng rng) {
  const float scale = rng.uniformf(5, 16);
  const double hue = rng.uniform(15, 45), colourful = rng.uniform(0.02, 0.3);
  const Vec3 first = hsv(hue, colourful, 0.75), second = hsv(hue + rng.uniform(-20, 190), colourful, 0.45),
             gap = hsv(30, 0.3, 0.12);
  const std::uint32_t seed = rng.next32();
  return [=](Vec2 p, float fp) {
    Vec3 colour = gap;
    for (const int layer : {0, 1}) {
      const float k = scale * (layer == 0 ? 2.1f : 1.0f);
      const float wx = p.x * k + 0.25f * value_noise(p.x * k * 2, p.y * k * 2, seed + 5),
                  wy = p.y * k + 0.25f * value_noise(p.x * k * 2, p.y * k * 2, seed + 6);
      const CellNoise stone = cell_noise(wx, wy, seed + static_cast<std::uint32_t>(layer));
      const float edge = stone.second - stone.nearest;
      const float in = smooth_step(0.04f, 0.16f, edge);
      if (layer == 1 && hash_unit(stone.id, 9) < 0.25f) continue;
      Vec3 tone = mix(first, second, hash_unit(stone.id, 3)) * (0.6f + 0.7f * hash_unit(stone.id, 4));
      tone = tone * (0.65f + 0.5f * smooth_step(0, 0.5f, edge) +
                     0.12f * fractal_noise(p.x * k * 5, p.y * k * 5, seed + 8, 2, 0.6f, fp * k * 5));
      colour = mix(colour * (1 - 0.5f * static_cast<float>(layer) * smooth_step(0, 0.04f, edge)), tone, in);
    }
    return colour;
  };
}

Floor grass(Rng rng) {
  const std::uint32_t seed = rng.next32();
  const double hue = rng.uniform(70, 115);
  const Vec3 blade = hsv(hue, rng.uniform(0.4, 0.75), 0.62), dry = hsv(48, 0.5, 0.7),
             soil = hsv(35, 0.5, 0.16);
  const float dryness = rng.uniformf(0, 0.5), scale = rng.uniformf(0.8, 1.6);
  const float lie = rng.uniformf(0.2, 0.3);
  return [=](Vec2 p, float fp) {
    Vec3 colour = soil;
    for (int layer = 0; layer < 5; ++layer) {
      const auto k = static_cast<std::uint32_t>(layer);
      const Vec2 q = rotate_by_share(p, lie + 0.14f * static_cast<float>(layer) +
                                            0.13f * value_noise(p.x * 0.8f, p.y * 0.8f, seed + 40 + k));
      const float x = q.x * 17 * scale, y = q.y * 1.7f * scale;
      const CellNoise cell = cell_noise(x + 0.8f * value_noise(q.x * 2, q.y * 2, seed + 20 + k), y, seed + k);
      const float width = 0.16f + 0.22f * hash_unit(cell.id, 2);
      const float in = clamp01((width - cell.nearest) / std::max(0.06f, fp * 17));
      if (in <= 0) continue;
      const Vec3 tone =
          mix(blade, dry, hash_unit(cell.id, 3) < dryness ? 0.8f : 0.15f * hash_unit(cell.id, 4));
      const float lit = (0.35f + 0.16f * static_cast<float>(layer)) * (0.7f + 0.6f * hash_unit(cell.id, 5)) *
                        (1 - 0.5f * cell.nearest / width);
      colour = mix(colour * 0.8f, tone * lit, in);
    }
    return colour;
  };
}

Floor leaf_litter(Vec3 belly_ground, Rng rng) {
  std::vector<LeafLook> kinds;
  for (int i = 0; i < 6; ++i) kinds.push_back(draw_leaf(belly_ground, rng));
  const std::uint32_t seed = rng.next32();
  const float scale = rng.uniformf(0.9, 2.2);
  const Vec3 soil = hsv(28, 0.5, 0.13);
  return [=](Vec2 p, float fp) {
    Vec3 colour = soil * (1 + 0.5f * fractal_noise(p.x * 20, p.y * 20, seed, 3, 0.6f, fp * 20));
    for (int layer = 0; layer < 4; ++layer) {
      const auto k = static_cast<std::uint32_t>(layer);
      const float x = p.x * scale + 0.37f * static_cast<float>(layer),
                  y = p.y * scale + 0.71f * static_cast<float>(layer);
      const int ix = static_cast<int>(std::floor(x)), iy = static_cast<int>(std::floor(y));
      for (int j = iy - 1; j <= iy + 1; ++j)
        for (int i = ix - 1; i <= ix + 1; ++i) {
          const std::uint32_t id = lattice_hash(i, j, seed + k);
          const Vec2 from_centre{x - static_cast<float>(i) - static_cast<float>(id & 0xffffU) * 0x1p-16f,
                                 y - static_cast<float>(j) - static_cast<float>(id >> 16) * 0x1p-16f};
          if (dot(from_centre, from_centre) > 0.72f) continue;
          const LeafLook& leaf = kinds[id % kinds.size()];
          const float size = 1 / (0.8f + 0.7f * hash_unit(id, 4));
          const Vec2 q = rotate_by_share(from_centre, hash_unit(id, 3)) * size;
          Vec3 tone;
          if (leaf_at(leaf, q.x, q.y, tone))
            colour = tone * (0.4f + 0.18f * static_cast<float>(layer) + 0.15f * hash_unit(id, 5));
          else if (leaf_at(leaf, (q.x - 0.03f) * 0.85f, (q.y - 0.03f) * 0.85f, tone))
            colour = colour * 0.75f;
        }
    }
    return colour;
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

Floor slate(Rng rng) {
  const Vec3 base = hsv(rng.uniform(190, 260), rng.uniform(0.03, 0.2), rng.uniform(0.22, 0.5));
  const std::uint32_t seed = rng.next32();
  const float angle = rng.uniformf(0, kPi);
  const Turn turn(angle);
  return [=](Vec2 p, float fp) {
    const Vec2 q = turn(p);
    const float layers = fractal_noise(q.x * 1.3f, q.y * 4, seed, 5, 0.6f, fp * 4);
    const float step = layers * 5 - std::floor(layers * 5);
    return base * (1 + 0.35f * layers + 0.25f * (smooth_step(0, 0.15f, step) - 0.8f) +
                   0.1f * fractal_noise(q.x * 45, q.y * 45, seed + 1, 2, 0.6f, fp * 45));
  };
}

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

Floor plain_below(Vec3 belly_ground, Rng rng);

// A palm or glove. `lines`: how deep its creases are.
Floor hand(Vec3 base, float lines, Vec3 belly_ground, Rng rng) {
  if (rng.chance(0.3)) return finger_rows(base, lines, rng.fork(1));
  return whole_hand(base, lines, plain_below(belly_ground, rng.fork(2)), rng.fork(3));
}

Floor water(Rng rng) {
  const Vec3 deep = hsv(rng.uniform(40, 180), rng.uniform(0.2, 0.6), rng.uniform(0.08, 0.35)),
             weed = hsv(rng.uniform(75, 110), 0.7, 0.6);
  const std::uint32_t seed = rng.next32();
  const float scale = rng.uniformf(1.5, 4), caustics = rng.uniformf(0.1, 0.9),
              duckweed = rng.chance(0.4) ? rng.uniformf(0.05, 0.6) : 0.0f;
  return [=](Vec2 p, float fp) {
    const float wx = p.x * scale + 0.4f * value_noise(p.x * 3, p.y * 3, seed + 3);
    const CellNoise cell = cell_noise(wx, p.y * scale + 0.4f * value_noise(p.x * 3, p.y * 3, seed + 4), seed);
    const float line = std::exp(-18 * (cell.second - cell.nearest));
    Vec3 colour = deep * (1 + 0.5f * fractal_noise(p.x * 1.5f, p.y * 1.5f, seed + 1, 4, 0.5f, fp * 1.5f) +
                          caustics * 1.5f * line);
    const CellNoise leaf = cell_noise(p.x * 14, p.y * 14, seed + 5);
    if (hash_unit(leaf.id, 1) < duckweed && leaf.nearest < 0.36f)
      colour = weed * (0.6f + 0.5f * hash_unit(leaf.id, 2)) * (1 - leaf.nearest);
    return colour;
  };
}

Floor soil(Rng rng) {
  const Vec3 base = hsv(rng.uniform(18, 40), rng.uniform(0.25, 0.6), rng.uniform(0.2, 0.6)),
             other = base * rng.uniformf(0.3, 0.6);
  const Vec3 moss = hsv(rng.uniform(70, 110), 0.6, 0.4);
  const float mossy = rng.uniformf(-0.6, 0.4);
  const std::uint32_t seed = rng.next32();
  return [=](Vec2 p, float fp) {
    const float lumps = fractal_noise(p.x * 5, p.y * 5, seed, 6, 0.65f, fp * 5);
    const Vec3 colour = mix(other, base, clamp01(0.5f + 0.8f * lumps));
    const float green = smooth_step(0, 0.25f, fractal_noise(p.x * 1.7f, p.y * 1.7f, seed + 1, 3) + mossy);
    return mix(colour, moss * (1 + 0.45f * fractal_noise(p.x * 50, p.y * 50, seed + 2, 2, 0.6f, fp * 50)),
               green * 0.9f);
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

Floor plain_below(Vec3 belly_ground, Rng rng) {
  switch (rng.below(5)) {
    case 0:
      return water(rng.fork(1));
    case 1:
      return tray(hsv(rng.uniform(0, 360), rng.uniform(0, 0.2), rng.uniform(0.2, 0.9)), rng.fork(1));
    case 2:
      return soil(rng.fork(1));
    case 3:
      return grass(rng.fork(1));
    default:
      return leaf_litter(belly_ground, rng.fork(1));
  }
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

}  // namespace

std::vector<std::string> background_names() {
  return {"white-tray",  "grey-tray",   "coloured-tray", "clear-box",   "blue-glove",
          "green-glove", "black-glove", "bare-hand",     "green-net",   "black-net",
          "slate",       "grass",       "gravel",        "leaf-litter", "graph-paper",
          "wood",        "cloth",       "water",         "soil"};
}

LeafLook draw_leaf(Vec3 belly_ground, Rng& rng) {
  LeafLook leaf;
  leaf.colour = rng.chance(0.35) ? belly_ground * rng.uniformf(0.6, 1.05)
                                 : hsv(rng.uniform(12, rng.chance(0.25) ? 100 : 50), rng.uniform(0.35, 0.9),
                                       rng.uniform(0.25, 0.85));
  leaf.vein = leaf.colour * (rng.chance(0.5) ? rng.uniformf(0.4, 0.7) : rng.uniformf(1.2, 1.6));
  leaf.width = rng.uniformf(0.16, 0.42);
  leaf.serration = rng.uniformf(0, 0.12);
  leaf.seed = rng.next32();
  return leaf;
}

bool leaf_at(const LeafLook& leaf, float along, float across, Vec3& colour) {
  if (std::abs(along) > 0.6f || std::abs(across) > 0.6f) return false;
  const float t = along + 0.5f;  // stalk at 0
  if (t < -0.1f || t > 1) return false;
  const float curve = across + 0.06f * std::sin(along * 4 + static_cast<float>(leaf.seed % 7));
  if (t < 0.02f) {
    colour = leaf.vein * 0.8f;
    return std::abs(curve) < 0.012f;
  }
  const float outline =
      leaf.width * 1.6f * std::sqrt(t) * (1 - t) * (1.25f + leaf.serration * std::sin(t * 55));
  if (std::abs(curve) > outline) return false;
  const float mottle = fractal_noise(along * 9, across * 9, leaf.seed, 3);
  colour = leaf.colour * (0.9f + 0.3f * mottle);
  const float side = std::abs(curve) * 1.1f - t;
  const float rib = std::abs(side * 9 - std::round(side * 9));
  if (std::abs(curve) < 0.010f || rib < 0.06f) colour = mix(colour, leaf.vein, 0.7f);
  colour = colour * (1 - 0.25f * smooth_step(0.7f, 1.0f, std::abs(curve) / std::max(outline, 1e-4f)));
  return true;
}

Background draw_background(const std::string& name, Vec3 belly_ground, Rng rng) {
  Background b;
  b.name = name;
  Rng tone = rng.fork(7);
  const Rng own = rng.fork(8);
  if (name == "white-tray") {
    b.albedo = tray(hsv(tone.uniform(0, 360), tone.uniform(0, 0.06), tone.uniform(0.85, 0.98)), own);
    b.gloss = 0.4f;
  } else if (name == "grey-tray") {
    b.albedo = tray(hsv(tone.uniform(0, 360), tone.uniform(0, 0.1), tone.uniform(0.25, 0.65)), own);
    b.gloss = 0.4f;
  } else if (name == "coloured-tray") {
    const bool alike = tone.chance(0.2);  // now and then the tray has the belly's own colour
    b.albedo = tray(alike ? belly_ground * tone.uniformf(0.7, 1)
                          : hsv(tone.uniform(0, 360), tone.uniform(0.3, 0.9), tone.uniform(0.3, 0.9)),
                    own);
    b.gloss = 0.4f;
  } else if (name == "clear-box") {
    b.albedo = clear_box(plain_below(belly_ground, rng.fork(9)), own);
    b.gloss = 0.8f;
  } else if (name == "blue-glove") {
    b.albedo = hand(hsv(tone.uniform(200, 235), tone.uniform(0.5, 0.8), tone.uniform(0.5, 0.85)), 0.5f,
                    belly_ground, own);
    b.gloss = 0.3f;
  } else if (name == "green-glove") {
    b.albedo = hand(hsv(tone.uniform(120, 170), tone.uniform(0.3, 0.7), tone.uniform(0.4, 0.75)), 0.5f,
                    belly_ground, own);
    b.gloss = 0.3f;
  } else if (name == "black-glove") {
    b.albedo = hand(hsv(tone.uniform(0, 360), 0.08, tone.uniform(0.12, 0.26)), 0.5f, belly_ground, own);
    b.gloss = 0.35f;
  } else if (name == "bare-hand") {
    b.albedo = hand(hsv(tone.uniform(12, 26), tone.uniform(0.25, 0.6), tone.uniform(0.35, 0.92)), 1,
                    belly_ground, own);
    b.gloss = 0.15f;
  } else if (name == "green-net") {
    b.albedo = net(hsv(tone.uniform(100, 160), tone.uniform(0.4, 0.8), tone.uniform(0.3, 0.6)),
                   plain_below(belly_ground, rng.fork(9)), own);
  } else if (name == "black-net") {
    b.albedo = net(hsv(0, 0.05, tone.uniform(0.08, 0.22)), plain_below(belly_ground, rng.fork(9)), own);
  } else if (name == "slate") {
    b.albedo = slate(own);
    b.gloss = 0.2f;
  } else if (name == "grass") {
    b.albedo = grass(own);
  } else if (name == "gravel") {
    b.albedo = gravel(own);
  } else if (name == "leaf-litter") {
    b.albedo = leaf_litter(belly_ground, own);
  } else if (name == "graph-paper") {
    b.albedo = graph_paper(own);
  } else if (name == "wood") {
    b.albedo = wood(own);
  } else if (name == "cloth") {
    b.albedo = cloth(own);
  } else if (name == "water") {
    b.albedo = water(own);
    b.gloss = 1;
  } else if (name == "soil") {
    b.albedo = soil(own);
  } else {
    throw std::invalid_argument("no background is called '" + name + "'");
  }
  return b;
}

Background draw_wild_background(Vec3 belly_ground, Rng rng) {
  Background b;
  b.name = "wild";
  b.gloss = rng.uniformf(0, 1);
  const auto any = [&] {
    return rng.chance(0.15) ? belly_ground * rng.uniformf(0.5, 1.1)
                            : hsv(rng.uniform(0, 360), rng.uniform(0, 1), rng.uniform(0.03, 1));
  };
  const Vec3 first = any(), second = any(), third = any();
  const std::uint32_t seed = rng.next32();
  const float scale = std::exp(rng.uniformf(-0.7, 3)), gain = rng.uniformf(0.3, 0.8),
              angle = rng.uniformf(0, kPi), stretch = rng.uniformf(0.3, 3);
  const float warp = rng.uniformf(0, 1.5);
  const Turn turn(angle);
  switch (rng.below(6)) {
    case 0:  // clouds of three colours
      b.albedo = [=](Vec2 p, float fp) {
        const Vec2 q = turn(p);
        const float a = fractal_noise(q.x * scale, q.y * scale * stretch, seed, 6, gain, fp * scale),
                    c = fractal_noise(q.x * scale, q.y * scale, seed + 9, 4, gain, fp * scale);
        return mix(mix(first, second, clamp01(0.5f + 1.2f * a)), third, clamp01(2 * c));
      };
      break;
    case 1:  // stripes
      b.albedo = [=](Vec2 p, float fp) {
        const Vec2 q = turn(p);
        const float x = q.x * scale + warp * value_noise(q.x * 2, q.y * 2, seed), t = x - std::floor(x);
        return mix(first, second, smooth_step(0.4f, 0.4f + 0.05f + fp * scale, t)) *
               (1 + 0.2f * fractal_noise(q.x * 9, q.y * 9, seed + 1, 3, gain, fp * 9));
      };
      break;
    case 2:  // checkers
      b.albedo = [=](Vec2 p, float fp) {
        const Vec2 q = turn(p);
        const int x = static_cast<int>(std::floor(q.x * scale)),
                  y = static_cast<int>(std::floor(q.y * scale));
        return ((x + y) & 1 ? first : second) *
               (1 + 0.25f * fractal_noise(q.x * 7, q.y * 7, seed, 4, gain, fp * 7));
      };
      break;
    case 3:  // random shapes, some of them like spots on a belly
      b.albedo = [=](Vec2 p, float fp) {
        Vec3 colour = first * (1 + 0.2f * fractal_noise(p.x * 5, p.y * 5, seed, 4, gain, fp * 5));
        const CellNoise cell = cell_noise(
            p.x * scale + warp * value_noise(p.x * scale, p.y * scale, seed + 4), p.y * scale, seed + 2);
        const float r = 0.2f + 0.4f * hash_unit(cell.id, 3);
        if (cell.nearest < r)
          colour = mix(second, third, hash_unit(cell.id, 4)) * (1 - 0.3f * cell.nearest / r);
        return colour;
      };
      break;
    case 4: {  // a natural floor in the wrong colours
      const std::vector<std::string> names = background_names();
      const Floor natural = draw_background(rng.pick(names), belly_ground, rng.fork(3)).albedo;
      const int swap = rng.below(3);
      b.albedo = [=](Vec2 p, float fp) {
        const Vec3 c = natural(p, fp);
        const Vec3 turned = swap == 0   ? Vec3{c.y, c.z, c.x}
                            : swap == 1 ? Vec3{c.z, c.x, c.y}
                                        : Vec3{c.y, c.x, c.z};
        return mix(turned, first, 0.2f);
      };
      break;
    }
    default:  // gradient
      b.albedo = [=](Vec2 p, float fp) {
        const Vec2 q = turn(p);
        return mix(first, second, clamp01(0.5f + 0.4f * q.x)) *
               (1 + 0.12f * fractal_noise(q.x * scale, q.y * scale, seed, 5, gain, fp * scale));
      };
  }
  return b;
}

}  // namespace evet::render
