#include "tools/render/background.h"

#include <stdexcept>

#include "tools/render/floors.h"
#include "tools/render/noise.h"

namespace evet::render {

using namespace floors;

std::vector<std::string> background_names() {
  return {"white-tray",  "grey-tray",   "coloured-tray", "clear-box",   "blue-glove",
          "green-glove", "black-glove", "bare-hand",     "green-net",   "black-net",
          "slate",       "grass",       "gravel",        "leaf-litter", "graph-paper",
          "wood",        "cloth",       "water",         "soil"};
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
