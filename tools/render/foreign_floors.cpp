// Floors that training never draws: bricks, terrazzo, tartan, cardboard, straw, a lid, print.
#include <array>
#include <stdexcept>

#include "tools/render/background.h"
#include "tools/render/floors.h"
#include "tools/render/noise.h"

namespace evet::render {

namespace {

using floors::ruled;

std::uint32_t place_hash(float x, float y, std::uint32_t seed) {
  return lattice_hash(static_cast<int>(std::floor(x)), static_cast<int>(std::floor(y)), seed);
}

Floor brick(Rng rng) {
  const Turn turn(rng.uniform(0, 2 * kPi));
  const float long_side = rng.uniformf(1.3, 2.4), tall = long_side * rng.uniformf(0.28, 0.42),
              joint = rng.uniformf(0.04, 0.09);
  const Vec3 fired = hsv(rng.uniform(6, 24), rng.uniform(0.35, 0.65), rng.uniform(0.4, 0.75)),
             burnt = fired * rng.uniformf(0.4, 0.7),
             mortar = hsv(rng.uniform(25, 45), 0.12, rng.uniform(0.5, 0.8));
  const std::uint32_t seed = rng.next32();
  return [=](Vec2 p, float fp) {
    Vec2 q = turn(p);
    q.x += 0.012f * value_noise(p.x * 14, p.y * 14, seed);
    q.y += 0.012f * value_noise(p.x * 14, p.y * 14, seed + 1);
    const float course = std::floor(q.y / tall), x = q.x / long_side + 0.5f * course;
    const std::uint32_t id = place_hash(x, course, seed + 2);
    const float in_x = (x - std::floor(x)) * long_side, in_y = q.y - course * tall;
    const float to_edge = std::min({in_x, long_side - in_x, in_y, tall - in_y}) - joint / 2;
    const float grain = fractal_noise(p.x * 22, p.y * 22, seed + 3, 4, 0.65f, fp * 22);
    const Vec3 face = mix(fired, burnt, hash_unit(id, 1)) * (1 + 0.3f * grain);
    const Vec3 sunk = mortar * (0.75f + 0.2f * grain);
    return mix(sunk, face, smooth_step(-0.01f - fp, 0.015f + fp, to_edge));
  };
}

Floor terrazzo(Rng rng) {
  const Vec3 ground = hsv(rng.uniform(0, 360), rng.uniform(0, 0.15), rng.uniform(0.55, 0.92));
  std::array<Vec3, 4> stones;
  for (Vec3& s : stones) s = hsv(rng.uniform(10, 230), rng.uniform(0.05, 0.45), rng.uniform(0.15, 0.9));
  const float scale = rng.uniformf(4, 8), share = rng.uniformf(0.35, 0.75);
  const std::uint32_t seed = rng.next32();
  return [=](Vec2 p, float fp) {
    Vec3 colour = ground * (1 + 0.06f * fractal_noise(p.x * 30, p.y * 30, seed, 2, 0.5f, fp * 30));
    for (const float finer : {3.1f, 1.0f}) {
      const float k = scale * finer;
      const CellNoise chip = cell_noise(p.x * k, p.y * k, seed + static_cast<std::uint32_t>(finer));
      if (hash_unit(chip.id, 1) > share) continue;
      // Chips are broken stone: straight edges, and each smaller than its cell by an amount of its own.
      const float edge = chip.second - chip.nearest - 0.08f - 0.35f * hash_unit(chip.id, 2);
      const Vec3 stone = stones[chip.id % stones.size()] * (0.8f + 0.4f * hash_unit(chip.id, 3));
      colour = mix(colour, stone, smooth_step(-fp * k, fp * k, edge));
    }
    return colour;
  };
}

Floor tartan(Rng rng) {
  struct Band {
    float until;  // share of half a sett
    Vec3 dye;
  };
  std::array<Band, 5> bands;
  float sum = 0;
  for (Band& b : bands) {
    sum += rng.chance(0.4) ? rng.uniformf(0.1, 0.2) : rng.uniformf(0.4, 1);
    b = {sum, hsv(rng.uniform(0, 360), rng.uniform(0.2, 0.85), rng.uniform(0.12, 0.85))};
  }
  for (Band& b : bands) b.until /= sum;
  const float sett = rng.uniformf(0.9, 2.2), thread = rng.uniformf(0.012, 0.022);
  const Turn turn(rng.uniform(0, kPi));
  const std::uint32_t seed = rng.next32();
  // The sett runs to its end and back again.
  const auto dyed = [bands, sett](float x) {
    const float t = x / sett - std::floor(x / sett), half = t < 0.5f ? 2 * t : 2 - 2 * t;
    for (const Band& b : bands)
      if (half <= b.until) return b.dye;
    return bands.back().dye;
  };
  return [=](Vec2 p, float fp) {
    const float fold = fractal_noise(p.x, p.y, seed, 3);
    Vec2 q = turn(p);
    q.x += 0.05f * fold;
    q.y += 0.05f * value_noise(p.x * 1.5f, p.y * 1.5f, seed + 1);
    // Twill: the warp lies on top along diagonals, until the threads are too fine to be seen.
    const float t = (q.x + q.y) / (4 * thread), over = t - std::floor(t) < 0.5f ? 1.0f : 0.0f;
    const float warp_on_top = mix(over, 0.5f, clamp01(4 * fp / thread - 0.5f));
    return mix(dyed(q.x), dyed(q.y), warp_on_top) * (1 + 0.3f * fold);
  };
}

Floor cardboard(Rng rng) {
  const Vec3 kraft = hsv(rng.uniform(26, 36), rng.uniform(0.3, 0.5), rng.uniform(0.5, 0.78)),
             tape = hsv(rng.uniform(30, 42), rng.uniform(0.2, 0.7), rng.uniform(0.5, 0.85));
  const float flute = rng.uniformf(0.07, 0.13), depth = rng.uniformf(0.03, 0.1);
  const float crease = rng.uniformf(-0.9, 0.9), tape_at = rng.uniformf(-1.2, 1.2),
              tape_half = rng.chance(0.4) ? rng.uniformf(0.2, 0.4) : 0.0f;
  const Turn turn(rng.uniform(0, 2 * kPi));
  const std::uint32_t seed = rng.next32();
  return [=](Vec2 p, float fp) {
    const Vec2 q = turn(p);
    const float wash = fractal_noise(p.x * 1.6f, p.y * 1.6f, seed, 3);
    const float fibre = fractal_noise(q.x * 70, q.y * 18, seed + 1, 3, 0.6f, fp * 70);
    const float wave = std::sin(q.x * 2 * static_cast<float>(kPi) / flute) * clamp01(2 - 4 * fp / flute);
    Vec3 colour = kraft * (1 + depth * wave + 0.08f * wash + 0.14f * fibre);
    const float folded = q.y - crease + 0.01f * wash;
    colour = colour * (1 - 0.35f * std::exp(-folded * folded * 2500));
    if (std::abs(q.y - tape_at) < tape_half) colour = mix(colour, tape, 0.6f) * (1.05f + 0.04f * wash);
    return colour;
  };
}

Floor straw(Rng rng) {
  constexpr int kLayers = 7;
  std::array<float, kLayers> lie;
  for (float& turn : lie) turn = rng.uniformf(0, 1);
  const float half = rng.uniformf(0.02, 0.036), reach = rng.uniformf(1, 2.2);
  const Vec3 fresh = hsv(rng.uniform(42, 54), rng.uniform(0.35, 0.6), rng.uniform(0.75, 0.95)),
             old = hsv(rng.uniform(28, 40), 0.45, 0.5), shade = hsv(32, 0.5, 0.14);
  const std::uint32_t seed = rng.next32();
  return [=](Vec2 p, float fp) {
    Vec3 colour = shade;
    for (std::size_t layer = 0; layer < lie.size(); ++layer) {
      const auto k = static_cast<std::uint32_t>(layer);
      Vec2 q = rotate_by_share(p, lie[layer]);
      q.y += 0.04f * value_noise(q.x * 1.3f, q.y * 1.3f, seed + 50 + k);
      const float row = q.y / (3 * half),
                  along = q.x / reach + 7 * hash_unit(place_hash(0, row, seed + k), 1);
      const std::uint32_t id = place_hash(along, row, seed + 10 + k);
      if (hash_unit(id, 2) < 0.3f) continue;
      const float across =
          ((row - std::floor(row) - 0.5f) * 3 * half) / (half * (0.7f + 0.5f * hash_unit(id, 3)));
      if (std::abs(across) > 1) {
        // A stalk darkens what lies just beside and beneath it.
        if (std::abs(across) < 1.5f) colour = colour * 0.7f;
        continue;
      }
      const float grain = fractal_noise(q.x * 8, q.y * 120, seed + 30 + k, 2, 0.6f, fp * 120);
      colour = mix(fresh, old, hash_unit(id, 4) * hash_unit(id, 4)) *
               ((0.5f + 0.5f * std::sqrt(1 - across * across)) * (0.55f + 0.07f * static_cast<float>(layer)) *
                (1 + 0.15f * grain));
    }
    return colour;
  };
}

Floor ribbed_lid(Rng rng) {
  const Vec3 base = hsv(rng.uniform(0, 360), rng.uniform(0.05, 0.6), rng.uniform(0.4, 0.9));
  const Vec2 middle{rng.uniformf(-0.8, 0.8), rng.uniformf(-0.8, 0.8)},
      lit = rotate({1, 0}, rng.uniform(0, 6));
  const float pitch = rng.uniformf(0.1, 0.28), steep = rng.uniformf(0.12, 0.3), rim = rng.uniformf(1.1, 2.2);
  const std::uint32_t seed = rng.next32();
  return [=](Vec2 p, float fp) {
    const Vec2 from = p - middle;
    const float r = length(from), towards_light = dot(from, lit) / std::max(0.01f, r);
    // The slope of round ribs, seen as light and shade; flat in the middle, where the gate was.
    const float slope = std::sin(r / pitch * 2 * static_cast<float>(kPi)) * smooth_step(pitch, 2 * pitch, r) *
                        clamp01(2 - 4 * fp / pitch);
    float shade = 1 + steep * slope * towards_light + 0.03f * fractal_noise(p.x * 3, p.y * 3, seed, 3);
    const float to_rim = (r - rim) / 0.05f;
    shade *= 1 + 0.45f * towards_light * to_rim * std::exp(-to_rim * to_rim) * 1.6f;
    if (r > rim) shade *= 0.72f;
    return base * shade;
  };
}

Floor printed_page(Rng rng) {
  const Vec3 paper = hsv(rng.uniform(35, 55), rng.uniform(0.02, 0.15), rng.uniform(0.78, 0.95)),
             ink = hsv(rng.uniform(200, 260), 0.1, rng.uniform(0.08, 0.25));
  const float line = rng.uniformf(0.07, 0.13), column = rng.uniformf(0.9, 1.7),
              gutter = rng.uniformf(0.08, 0.15);
  const Turn turn(rng.uniform(0, 2 * kPi));
  const std::uint32_t seed = rng.next32();
  return [=](Vec2 p, float fp) {
    const Vec2 q = turn(p);
    const Vec3 sheet = paper * (1 + 0.04f * fractal_noise(p.x * 2, p.y * 2, seed, 3));
    const float place = q.x / column, left = (place - std::floor(place)) * column;
    if (left < gutter) return sheet;
    // Paragraphs of unlike type: a fifth of the blocks are headings in twice the size.
    const std::uint32_t block = place_hash(place, q.y / (10 * line), seed + 1);
    const float type = hash_unit(block, 1) < 0.2f ? 2 * line : line;
    const float row = q.y / type, in_row = row - std::floor(row);
    const float letter = left / (0.38f * type), in_letter = letter - std::floor(letter);
    const std::uint32_t id =
        place_hash(letter, row, seed + 2 + static_cast<std::uint32_t>(std::floor(place)) * 7U);
    if (hash_unit(id, 1) < 0.17f) return sheet;  // between words
    const float tall = hash_unit(id, 2) < 0.3f ? 0.62f : 0.42f, top = 0.78f - tall;
    if (in_row < top || in_row > 0.78f) return sheet;
    // A letter is a stem and one or two bars; too small to be read, it is grey.
    const float y = (in_row - top) / tall;
    const float stem = std::abs(in_letter - 0.2f - 0.3f * hash_unit(id, 3)),
                bar = std::min(std::abs(y - hash_unit(id, 4)), std::abs(y - hash_unit(id, 5)));
    const float drawn = in_letter < 0.85f && (stem < 0.14f || bar < 0.13f) ? 1.0f : 0.0f;
    return mix(sheet, ink, mix(drawn, 0.42f, clamp01(fp / (0.06f * type) - 0.6f)));
  };
}

}  // namespace

std::vector<std::string> foreign_background_names() {
  return {"brick", "terrazzo", "tartan", "cardboard", "straw", "ribbed-lid", "printed-page"};
}

Background draw_foreign_background(const std::string& name, Rng rng) {
  Background b;
  b.name = name;
  const Rng own = rng.fork(8);
  if (name == "brick") {
    b.albedo = brick(own);
  } else if (name == "terrazzo") {
    b.albedo = terrazzo(own);
    b.gloss = 0.6f;
  } else if (name == "tartan") {
    b.albedo = tartan(own);
  } else if (name == "cardboard") {
    b.albedo = cardboard(own);
  } else if (name == "straw") {
    b.albedo = straw(own);
  } else if (name == "ribbed-lid") {
    b.albedo = ribbed_lid(own);
    b.gloss = 0.5f;
  } else if (name == "printed-page") {
    b.albedo = printed_page(own);
  } else {
    throw std::invalid_argument("no foreign background is called '" + name + "'");
  }
  return b;
}

}  // namespace evet::render
