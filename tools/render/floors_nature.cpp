// What lies round a pond: stones, plants, leaves, water, earth.
#include "tools/render/floors.h"
#include "tools/render/leaf.h"
#include "tools/render/noise.h"

namespace evet::render::floors {

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

Floor water(Rng rng) {
  const Vec3 deep = hsv(rng.uniform(40, 180), rng.uniform(0.2, 0.6), rng.uniform(0.08, 0.35)),
             weed = hsv(rng.uniform(75, 110), rng.uniform(0.5, 0.8), rng.uniform(0.45, 0.7)),
             old_weed = hsv(rng.uniform(30, 60), 0.5, 0.6);
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
    if (hash_unit(leaf.id, 1) < duckweed && leaf.nearest < 0.16f + 0.24f * hash_unit(leaf.id, 3))
      colour = mix(weed, old_weed, hash_unit(leaf.id, 4) * hash_unit(leaf.id, 4)) *
               (0.5f + 0.6f * hash_unit(leaf.id, 2)) * (1.1f - leaf.nearest);
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

}  // namespace evet::render::floors
