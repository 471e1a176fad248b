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

namespace {

// Trays, gloves, nets; false for a name that is none of theirs.
bool draw_brought(Background& b, const std::string& name, Vec3 belly_ground, const Rng& rng) {
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
  } else {
    return false;
  }
  return true;
}

// What lies there, and paper and cloth; false for a name that is none of theirs.
bool draw_ground(Background& b, const std::string& name, Vec3 belly_ground, const Rng& own) {
  if (name == "slate") {
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
    return false;
  }
  return true;
}

}  // namespace

Background draw_background(const std::string& name, Vec3 belly_ground, Rng rng) {
  Background b;
  b.name = name;
  if (!draw_brought(b, name, belly_ground, rng) && !draw_ground(b, name, belly_ground, rng.fork(8)))
    throw std::invalid_argument("no background is called '" + name + "'");
  return b;
}

namespace {

// A floor that is none: three colours and how they are laid.
struct Wild {
  Vec3 first, second, third;
  std::uint32_t seed;
  float scale, gain, stretch, warp;
  Turn turn;
};

Floor wild_clouds(const Wild& w) {
  return [=](Vec2 p, float fp) {
    const Vec2 q = w.turn(p);
    const float a = fractal_noise(q.x * w.scale, q.y * w.scale * w.stretch, w.seed, 6, w.gain, fp * w.scale),
                c = fractal_noise(q.x * w.scale, q.y * w.scale, w.seed + 9, 4, w.gain, fp * w.scale);
    return mix(mix(w.first, w.second, clamp01(0.5f + 1.2f * a)), w.third, clamp01(2 * c));
  };
}

Floor wild_stripes(const Wild& w) {
  return [=](Vec2 p, float fp) {
    const Vec2 q = w.turn(p);
    const float x = q.x * w.scale + w.warp * value_noise(q.x * 2, q.y * 2, w.seed), t = x - std::floor(x);
    return mix(w.first, w.second, smooth_step(0.4f, 0.4f + 0.05f + fp * w.scale, t)) *
           (1 + 0.2f * fractal_noise(q.x * 9, q.y * 9, w.seed + 1, 3, w.gain, fp * 9));
  };
}

Floor wild_checkers(const Wild& w) {
  return [=](Vec2 p, float fp) {
    const Vec2 q = w.turn(p);
    const int x = static_cast<int>(std::floor(q.x * w.scale)),
              y = static_cast<int>(std::floor(q.y * w.scale));
    return ((x + y) & 1 ? w.first : w.second) *
           (1 + 0.25f * fractal_noise(q.x * 7, q.y * 7, w.seed, 4, w.gain, fp * 7));
  };
}

// Random shapes, some of them like spots on a belly.
Floor wild_shapes(const Wild& w) {
  return [=](Vec2 p, float fp) {
    Vec3 colour = w.first * (1 + 0.2f * fractal_noise(p.x * 5, p.y * 5, w.seed, 4, w.gain, fp * 5));
    const CellNoise cell =
        cell_noise(p.x * w.scale + w.warp * value_noise(p.x * w.scale, p.y * w.scale, w.seed + 4),
                   p.y * w.scale, w.seed + 2);
    const float r = 0.2f + 0.4f * hash_unit(cell.id, 3);
    if (cell.nearest < r)
      colour = mix(w.second, w.third, hash_unit(cell.id, 4)) * (1 - 0.3f * cell.nearest / r);
    return colour;
  };
}

// A natural floor in the wrong colours.
Floor wild_natural(const Wild& w, Vec3 belly_ground, Rng& rng) {
  const std::vector<std::string> names = background_names();
  const Floor natural = draw_background(rng.pick(names), belly_ground, rng.fork(3)).albedo;
  const int swap = rng.below(3);
  const Vec3 first = w.first;
  return [=](Vec2 p, float fp) {
    const Vec3 c = natural(p, fp);
    const Vec3 turned = swap == 0   ? Vec3{c.y, c.z, c.x}
                        : swap == 1 ? Vec3{c.z, c.x, c.y}
                                    : Vec3{c.y, c.x, c.z};
    return mix(turned, first, 0.2f);
  };
}

Floor wild_gradient(const Wild& w) {
  return [=](Vec2 p, float fp) {
    const Vec2 q = w.turn(p);
    return mix(w.first, w.second, clamp01(0.5f + 0.4f * q.x)) *
           (1 + 0.12f * fractal_noise(q.x * w.scale, q.y * w.scale, w.seed, 5, w.gain, fp * w.scale));
  };
}

Floor wild_floor(int kind, const Wild& w, Vec3 belly_ground, Rng& rng) {
  switch (kind) {
    case 0:
      return wild_clouds(w);
    case 1:
      return wild_stripes(w);
    case 2:
      return wild_checkers(w);
    case 3:
      return wild_shapes(w);
    case 4:
      return wild_natural(w, belly_ground, rng);
    default:
      return wild_gradient(w);
  }
}

}  // namespace

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
  const Wild wild{first, second, third, seed, scale, gain, stretch, warp, Turn(angle)};
  const int kind = static_cast<int>(rng.below(6));
  b.albedo = wild_floor(kind, wild, belly_ground, rng);
  return b;
}

}  // namespace evet::render
