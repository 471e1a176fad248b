#include "tools/render/solid/ground.h"

#include <array>
#include <memory>

#include "tools/render/solid/ground_photos.h"
#include "tools/render/solid/texture_noise.h"

namespace evet::render::solid {

namespace {

using Texture = std::function<Cover(float, float)>;

Colour earthy(Dice& dice) {
  return paint(dice.between(15, 50), dice.between(0.2, 0.6), dice.between(0.2, 0.6));
}
Colour grey(Dice& dice, double low, double high) {
  return paint(dice.between(0, 360), dice.between(0, 0.08), dice.between(low, high));
}

// Plain kit: plastic, paper, foam. Stains, scratches and a rim that may show.
Texture plain(const Colour& colour, float stain, float relief, float gloss, Dice dice) {
  const std::uint32_t seed = dice.bits();
  const float turn = dice.between(0, kPi), rim = dice.odds(0.4) ? dice.between(0.9, 1.8) : 99;
  const float aspect = dice.between(0.6, 1), scratch = dice.odds(0.4) ? dice.between(0, 0.25) : 0;
  return [=](float x, float y) {
    Cover c;
    const float p = x * std::cos(turn) + y * std::sin(turn), q = y * std::cos(turn) - x * std::sin(turn);
    c.colour =
        colour * (1 + stain * rough(x * 1.4F, y * 1.4F, 4, seed) + 0.03F * wave(x * 60, y * 60, seed + 1));
    c.colour *= 1 - scratch * step(0.06F, 0.0F, std::abs(wave(p * 0.8F + 0.3F * q, q * 14, seed + 2)));
    const float edge = std::max(std::abs(p) - rim, std::abs(q) - rim * aspect);
    c.colour *= 1 - 0.45F * bell(edge, 0.03F) + 0.1F * step(0, 0.02F, edge);
    c.height = relief * rough(x * 3, y * 3, 3, seed + 3);
    c.gloss = gloss;
    return c;
  };
}

Texture squared_paper(Dice dice) {
  const Texture sheet = plain(grey(dice, 0.85, 1), 0.05F, 0.01F, 0, dice.apart(1));
  const float pitch = dice.between(0.05, 0.2), turn = dice.between(0, kPi), strong = dice.between(0.3, 0.9);
  const int bold = dice.odds(0.5) ? 5 : dice.odds(0.5) ? 10 : 1;
  const Colour line = paint(dice.between(0, 360), dice.between(0.1, 0.7), dice.between(0.3, 0.7));
  return [=](float x, float y) {
    Cover c = sheet(x, y);
    for (const float p : {x * std::cos(turn) + y * std::sin(turn), y * std::cos(turn) - x * std::sin(turn)}) {
      const float n = std::round(p / pitch), off = std::abs(p / pitch - n);
      const bool is_bold = bold > 1 && std::fmod(std::abs(n), static_cast<float>(bold)) < 0.5F;
      const float width = is_bold ? 0.07F : 0.04F;
      c.colour = blend<Colour>(c.colour, line,
                               (is_bold ? 1 : 0.6F) * strong * (1 - step(width, width + 0.05F, off)));
    }
    return c;
  };
}

Texture cloth(Dice dice, bool net) {
  const Colour colour = net ? paint(dice.odds(0.5) ? dice.between(80, 160) : dice.between(0, 360),
                                    dice.between(0, 0.6), dice.between(0.3, 0.95))
                            : paint(dice.between(0, 360), dice.between(0, 0.6), dice.between(0.2, 0.9));
  const float pitch = net ? dice.between(0.015, 0.05) : dice.between(0.008, 0.02),
              turn = dice.between(0, kPi);
  const Colour under = colour * (net ? dice.between(0.1, 0.4) : 0.75F);
  const std::uint32_t seed = dice.bits();
  const float folds = dice.between(0.01, 0.06);
  return [=](float x, float y) {
    Cover c;
    const float bend = 0.2F * rough(x * 0.8F, y * 0.8F, 2, seed);
    const float p = x * std::cos(turn) + y * std::sin(turn) + bend,
                q = y * std::cos(turn) - x * std::sin(turn);
    const float thread = net ? std::max(std::sin(p / pitch * 6.28F), std::sin(q / pitch * 6.28F))
                             : std::sin(p / pitch * 6.28F) * std::sin(q / pitch * 6.28F);
    c.colour = blend<Colour>(under, colour, step(net ? 0.2F : -0.8F, 0.8F, thread));
    c.colour *= 1 + 0.1F * rough(x * 20, y * 20, 2, seed + 1);
    c.height = folds * rough(x * 1.6F, y * 1.6F, 3, seed + 2);
    return c;
  };
}

Texture soil(Dice dice) {
  const Colour light = earthy(dice), dark = light * dice.between(0.2, 0.5);
  const std::uint32_t seed = dice.bits();
  const float wet = dice.between(0, 0.7);
  return [=](float x, float y) {
    Cover c;
    const float h = rough(x * 7, y * 7, 5, seed);
    c.colour = blend<Colour>(dark, light, step(-0.5F, 0.6F, h + 0.3F * wave(x * 40, y * 40, seed + 1)));
    const Scatter grit = scatter(x * 26, y * 26, seed + 2);
    if (chance_of(grit.number, 1) < 0.12F)
      c.colour = blend<Colour>(c.colour, light * (0.6F + 1.2F * chance_of(grit.number, 2)),
                               step(0.3F, 0.2F, grit.first));
    c.height = 0.03F * h + 0.006F * wave(x * 40, y * 40, seed + 1);
    c.gloss = wet * step(0.2F, -0.3F, h);
    return c;
  };
}

Texture stones(Dice dice, float size, bool flat) {
  const Colour a = grey(dice, 0.3, 0.8), b = earthy(dice), gap = a * 0.1F;
  const std::uint32_t seed = dice.bits();
  return [=](float x, float y) {
    Cover c;
    const float wx = x + 0.15F * size * wave(x / size * 3, y / size * 3, seed + 1),
                wy = y + 0.15F * size * wave(x / size * 3, y / size * 3, seed + 2);
    const Scatter s = scatter(wx / size, wy / size, seed);
    const float rim = s.second - s.first;
    const Colour own = blend<Colour>(a, b, chance_of(s.number, 1)) * (0.5F + 0.9F * chance_of(s.number, 2));
    c.colour = own * (1 + 0.25F * rough(x * 14 / size * 0.2F, y * 14 / size * 0.2F, 3, seed + 3));
    c.colour = blend<Colour>(gap, c.colour, step(0.02F, flat ? 0.08F : 0.25F, rim));
    c.height = size * 0.3F * std::sqrt(within(rim, 0, 1)) + 0.01F * rough(x * 12, y * 12, 2, seed + 4);
    return c;
  };
}

Texture greenery(Dice dice, bool lawn) {
  const Colour light = paint(dice.between(55, 115), dice.between(0.2, 0.5), dice.between(0.35, 0.75)),
               dark = light * dice.between(0.05, 0.3);
  const std::uint32_t seed = dice.bits();
  return [=](float x, float y) {
    Cover c;
    float h = 0;
    if (lawn) {
      // Blades in a few directions, the uppermost seen.
      for (std::uint32_t layer = 0; layer < 4; ++layer) {
        const float turn = 6.28F * chance_of(seed + layer, 7);
        const float p = x * std::cos(turn) + y * std::sin(turn), q = y * std::cos(turn) - x * std::sin(turn);
        h = std::max(h, wave(p * 3 + 0.4F * wave(p * 2, q * 2, seed + 9), q * 34, seed + layer) +
                            0.3F * wave(p * 2, q * 2, seed + 20 + layer));
      }
    } else {
      h = rough(x * 12, y * 12, 4, seed) + 0.7F * (0.5F - scatter(x * 22, y * 22, seed + 1).first);
    }
    c.colour = blend<Colour>(dark, light, step(-0.3F, 0.9F, h)) * (1 + 0.2F * wave(x * 3, y * 3, seed + 5));
    c.height = 0.04F * h;
    return c;
  };
}

Texture planks(Dice dice) {
  const Colour wood = paint(dice.between(18, 45), dice.between(0.2, 0.65), dice.between(0.35, 0.85));
  const float turn = dice.between(0, kPi), width = dice.between(0.6, 2);
  const std::uint32_t seed = dice.bits();
  return [=](float x, float y) {
    Cover c;
    const float p = x * std::cos(turn) + y * std::sin(turn), q = y * std::cos(turn) - x * std::sin(turn);
    const float board = std::floor(q / width);
    const float grain = rough(p * 1.2F + board * 17, q * 26 + 2 * wave(p * 0.7F, q * 2, seed), 3, seed + 1);
    c.colour = wood * (1 + 0.35F * grain) *
               (0.85F + 0.3F * chance_of(static_cast<std::uint32_t>(static_cast<int>(board) + 99), 1));
    const float gap = std::abs(q / width - board - 0.5F);
    c.colour *= 1 - 0.8F * step(0.485F, 0.497F, gap);
    c.height = 0.004F * grain;
    c.gloss = 0.1F;
    return c;
  };
}

Texture litter(Dice dice) {
  const std::uint32_t seed = dice.bits();
  const float hue = dice.between(18, 42), size = dice.between(0.3, 0.7);
  return [=](float x, float y) {
    Cover c;
    const float wx = x + 0.25F * size * wave(x / size * 2, y / size * 2, seed + 1),
                wy = y + 0.25F * size * wave(x / size * 2, y / size * 2, seed + 2);
    const Scatter s = scatter(wx / size, wy / size, seed);
    const float turn = 6.28F * chance_of(s.number, 3), p = x * std::cos(turn) + y * std::sin(turn);
    c.colour = paint(hue + 25 * (chance_of(s.number, 1) - 0.5F), 0.35F + 0.4F * chance_of(s.number, 4),
                     0.25F + 0.5F * chance_of(s.number, 2));
    c.colour *= 1 + 0.2F * std::sin(p / size * 30) * step(0, 0.2F, s.second - s.first) +
                0.2F * rough(x * 15, y * 15, 3, seed);
    c.colour *= 0.25F + 0.75F * step(0, 0.12F, s.second - s.first);
    c.height = 0.1F * size * step(0, 0.3F, s.second - s.first);
    return c;
  };
}

Texture speckled(Dice dice) {
  const Colour base = paint(dice.between(0, 360), dice.between(0, 0.4), dice.between(0.3, 0.95));
  const Colour specks = paint(dice.between(0, 360), dice.between(0, 0.7), dice.between(0.05, 1));
  const float pitch = dice.between(0.02, 0.15), share = dice.between(0.2, 0.8),
              size = dice.between(0.1, 0.35);
  const std::uint32_t seed = dice.bits();
  return [=](float x, float y) {
    Cover c;
    const Scatter s = scatter(x / pitch, y / pitch, seed);
    const bool on = chance_of(s.number, 1) < share;
    c.colour = base * (1 + 0.06F * rough(x * 3, y * 3, 3, seed + 1));
    if (on)
      c.colour = blend<Colour>(c.colour, blend<Colour>(specks, base, 0.6F * chance_of(s.number, 2)),
                               step(size, size * 0.8F, s.first));
    c.gloss = 0.15F;
    return c;
  };
}

// Beyond nature: any two colours in patches of any size, blotched like a belly at times.
Texture anything(const Colour& belly, Dice dice) {
  const Colour a = dice.odds(0.3) ? Colour(belly * dice.between(0.5, 1.1))
                                  : paint(dice.between(0, 360), dice.between(0, 1), dice.between(0.1, 1)),
               b = paint(dice.between(0, 360), dice.between(0, 1), dice.between(0.02, 1));
  const float scale = std::exp(dice.between(std::log(1.0), std::log(30.0))), sharp = dice.between(0.02, 0.6);
  const std::uint32_t seed = dice.bits();
  const int octaves = dice.from(1, 4);
  const float stretch = dice.odds(0.3) ? dice.between(2, 8) : 1, turn = dice.between(0, kPi);
  return [=](float x, float y) {
    Cover c;
    const float p = x * std::cos(turn) + y * std::sin(turn), q = y * std::cos(turn) - x * std::sin(turn);
    c.colour = blend<Colour>(a, b, step(-sharp, sharp, rough(p * scale, q * scale / stretch, octaves, seed)));
    return c;
  };
}

Texture texture_of(const std::string& setting, Dice& dice) {
  if (setting == "white-tray")
    return plain(grey(dice, 0.75, 1), 0.05F, 0.004F, dice.between(0, 0.5), dice.apart(1));
  if (setting == "grey-box")
    return plain(dice.odds(0.5)
                     ? grey(dice, 0.05, 0.6)
                     : paint(dice.between(0, 360), dice.between(0.2, 0.9), dice.between(0.15, 0.8)),
                 0.12F, 0.006F, dice.between(0, 0.6), dice.apart(1));
  if (setting == "paper")
    return plain(grey(dice, 0.8, 1), 0.04F, dice.between(0.005, 0.04), 0, dice.apart(1));
  if (setting == "squared-paper") return squared_paper(dice.apart(1));
  if (setting == "cloth") return cloth(dice.apart(1), false);
  if (setting == "net-bag") return cloth(dice.apart(1), true);
  if (setting == "foam")
    return plain(paint(dice.between(0, 360), dice.between(0, 0.7), dice.between(0.2, 0.95)), 0.06F, 0.02F, 0,
                 dice.apart(1));
  if (setting == "wet-soil") return soil(dice.apart(1));
  if (setting == "gravel") return stones(dice.apart(1), dice.between(0.05, 0.25), false);
  if (setting == "stone") return stones(dice.apart(1), dice.between(1, 3), true);
  if (setting == "moss") return greenery(dice.apart(1), false);
  if (setting == "lawn") return greenery(dice.apart(1), true);
  if (setting == "planks") return planks(dice.apart(1));
  if (setting == "leaf-litter") return litter(dice.apart(1));
  return speckled(dice.apart(1));
}

}  // namespace

Surface Ground::at(const Flat& place) const {
  const Cover here = cover(place[0], place[1]);
  Surface out;
  out.albedo = here.colour.max(0.003F).min(0.95F);
  out.gloss = here.gloss;
  out.spread = spread;
  if (bumpy) {
    constexpr float kStep = 0.006F;
    const float dx = cover(place[0] + kStep, place[1]).height - here.height,
                dy = cover(place[0], place[1] + kStep).height - here.height;
    out.normal = Point(-dx / kStep, -dy / kStep, 1).normalized();
  }
  return out;
}

Ground draw_ground(const std::string& setting, const Colour& belly, bool wild, Dice dice) {
  static const std::array<const char*, 10> kFar = {"grey-box",    "wet-soil",  "gravel", "moss",
                                                   "lawn",        "planks",    "cloth",  "stone",
                                                   "leaf-litter", "white-tray"};
  Ground ground;
  const bool pane = setting == "clear-tray" || setting == "clear-tray-lid";
  const bool hand = setting == "bare-hand" || setting == "glove" || setting == "fingers";
  std::string own = setting;
  if (setting == "clear-tray-lid")
    own = "white-tray";
  else if (pane || hand)
    own = kFar[static_cast<std::size_t>(dice.below(static_cast<int>(kFar.size())))];
  ground.level = pane   ? -dice.between(0.05, setting == "clear-tray" ? 2.5 : 0.4)
                 : hand ? -dice.between(0.4, 2)
                        : 0;
  ground.cover = texture_of(own, dice);
  static const std::array<const char*, 6> kSmooth = {"white-tray", "grey-box",       "squared-paper",
                                                     "planks",     "speckled-board", "net-bag"};
  ground.bumpy = std::find(kSmooth.begin(), kSmooth.end(), own) == kSmooth.end();
  ground.spread = dice.between(0.1, 0.5);
  if (wild && dice.odds(0.45)) {
    ground.cover = anything(belly, dice.apart(2));
    ground.bumpy = false;
  }
  const auto photo = dice.odds(0.6) ? GroundPhoto::draw(dice.apart(3)) : std::nullopt;
  if (photo) {
    const auto shared = std::make_shared<GroundPhoto>(*photo);
    ground.cover = [shared](float x, float y) {
      Cover c;
      c.colour = shared->at(x, y);
      c.height = 0.03F * luminance(c.colour);
      return c;
    };
    ground.bumpy = dice.odds(0.5);
  }
  return ground;
}

}  // namespace evet::render::solid
