// Rules that lay down blots one by one; blots that come near each other flow together.
#include <vector>

#include "tools/render/solid/pattern_rules.h"
#include "tools/render/solid/shapes.h"
#include "tools/render/solid/texture_noise.h"

namespace evet::render::solid {

namespace {

struct Blot {
  Flat at;  // across, along
  float radius, stretch, turn;
};

// Blots as soft bells; the canvas then holds minus their sum.
class Inkwell {
 public:
  Inkwell(Canvas& canvas, const Manner& manner, std::uint32_t seed)
      : canvas_(canvas), manner_(manner), seed_(seed) {
    canvas_.depth.setTo(0);
  }
  void drop(const Blot& blot) {
    const float reach = 2.6F * blot.radius * std::max(blot.stretch, 1.0F), cell = canvas_.cell;
    const float mid = 0.5F * static_cast<float>(canvas_.depth.cols);
    const int r0 = std::max(0, static_cast<int>((blot.at[1] - reach - canvas_.first_u) / cell)),
              r1 = std::min(canvas_.depth.rows,
                            static_cast<int>((blot.at[1] + reach - canvas_.first_u) / cell) + 1),
              c0 = std::max(0, static_cast<int>((blot.at[0] - reach) / cell + mid)),
              c1 = std::min(canvas_.depth.cols, static_cast<int>((blot.at[0] + reach) / cell + mid) + 1);
    const float cosine = std::cos(blot.turn), sine = std::sin(blot.turn);
    const float along = blot.radius * std::sqrt(blot.stretch), across = blot.radius / std::sqrt(blot.stretch);
    for (int r = r0; r < r1; ++r)
      for (int c = c0; c < c1; ++c) {
        const float dx = canvas_.x_of(c) - blot.at[0], dy = canvas_.u_of(r) - blot.at[1];
        const float p = (dx * cosine + dy * sine) / across, q = (dy * cosine - dx * sine) / along;
        const float d = p * p + q * q;
        if (d < 7) canvas_.depth(r, c) -= std::exp(-d * 0.9F);
      }
  }
  // Blots like beads from one place to another.
  void chain(const Flat& from, const Flat& to, float radius) {
    const int beads = 1 + static_cast<int>((to - from).norm() / (0.7F * radius));
    for (int i = 0; i <= beads; ++i)
      drop({blend<Flat>(from, to, static_cast<float>(i) / static_cast<float>(beads)), radius, 1, 0});
  }
  void finish() {
    const float s = manner_.scale * 0.35F;
    for (int r = 0; r < canvas_.depth.rows; ++r)
      for (int c = 0; c < canvas_.depth.cols; ++c)
        canvas_.depth(r, c) +=
            1.1F * manner_.wobble * rough(canvas_.u_of(r) / s, canvas_.x_of(c) / s, 2, seed_);
  }

 private:
  Canvas& canvas_;
  const Manner& manner_;
  std::uint32_t seed_;
};

// Places at least `apart` from each other all over the canvas, by darts.
std::vector<Flat> darts(const Canvas& canvas, float apart, Dice& dice) {
  std::vector<Flat> kept;
  const float width = 1.4F * canvas.half_skin, length = 1.4F;
  const int tries = 8 * static_cast<int>(1 + 2 * width * length / (apart * apart));
  for (int i = 0; i < tries; ++i) {
    const Flat p(dice.between(-width, width), canvas.first_u + dice.between(0, length));
    bool free = true;
    for (const Flat& other : kept) free = free && (other - p).squaredNorm() > apart * apart;
    if (free) kept.push_back(p);
  }
  return kept;
}

}  // namespace

void chained_spots(Canvas& canvas, const Manner& manner, Dice dice) {
  Inkwell ink(canvas, manner, dice.bits());
  const std::vector<Flat> spots = darts(canvas, 0.8F * manner.scale, dice);
  const float chance = dice.between(0.15, 0.4);
  for (std::size_t i = 0; i < spots.size(); ++i) {
    ink.drop({spots[i], manner.scale * dice.between(0.18, 0.42), dice.between(1, manner.stretch + 0.3),
              dice.between(0, kPi)});
    for (std::size_t k = i + 1; k < spots.size(); ++k)
      if ((spots[k] - spots[i]).norm() < 1.35F * manner.scale && dice.odds(chance))
        ink.chain(spots[i], spots[k], manner.scale * dice.between(0.1, 0.17));
  }
  ink.finish();
}

void side_rows(Canvas& canvas, const Manner& manner, Dice dice) {
  Inkwell ink(canvas, manner, dice.bits());
  const float place = dice.between(0.45, 0.75) * canvas.half_skin, pitch = 0.95F * manner.scale;
  for (const float side : {-1.0F, 1.0F}) {
    float u = canvas.first_u + dice.between(0, pitch);
    while (u < 1.2F) {
      ink.drop({{side * place + dice.gauss() * 0.12F * canvas.half_skin, u},
                pitch * dice.between(0.22, 0.5),
                dice.between(0.8, 1.7),
                dice.between(-0.7, 0.7)});
      if (dice.odds(0.3))
        ink.chain({side * place, u},
                  {side * place * dice.between(-0.3, 0.6), u + pitch * dice.between(-0.6, 0.6)},
                  pitch * 0.14F);
      u += pitch * dice.between(0.6, 1.35);
    }
  }
  for (const Flat& spot : darts(canvas, 1.7F * manner.scale, dice))
    ink.drop({spot, manner.scale * dice.between(0.1, 0.22), 1, 0});
  ink.finish();
}

void middle_band(Canvas& canvas, const Manner& manner, Dice dice) {
  Inkwell ink(canvas, manner, dice.bits());
  const float width = dice.between(0.15, 0.4) * canvas.half_skin;
  float x = dice.between(-0.2, 0.2) * canvas.half_skin;
  float u = canvas.first_u;
  while (u < 1.2F) {
    x = within(x * 0.95F + dice.gauss() * 0.1F * canvas.half_skin, -0.45F * canvas.half_skin,
               0.45F * canvas.half_skin);
    if (dice.odds(0.86)) ink.drop({{x, u}, width * dice.between(0.6, 1.2), 1, 0});
    if (dice.odds(0.16)) {
      const float side = dice.side();
      ink.chain({x, u}, {side * canvas.half_skin * dice.between(0.4, 1.1), u + dice.between(-0.06, 0.06)},
                width * dice.between(0.35, 0.7));
    }
    u += 0.35F * width;
  }
  for (const Flat& spot : darts(canvas, 1.3F * manner.scale, dice))
    if (std::abs(spot[0]) > 0.5F * canvas.half_skin)
      ink.drop({spot, manner.scale * dice.between(0.12, 0.32), dice.between(0.8, 1.6), dice.between(0, kPi)});
  ink.finish();
}

void few_huge(Canvas& canvas, const Manner& manner, Dice dice) {
  Inkwell ink(canvas, manner, dice.bits());
  for (const Flat& spot : darts(canvas, 1.9F * manner.scale, dice)) {
    const float radius = manner.scale * dice.between(0.5, 0.95);
    for (int lobes = dice.from(2, 4); lobes > 0; --lobes)
      ink.drop({spot + radius * Flat(dice.gauss(), dice.gauss()) * 0.5F, radius * dice.between(0.4, 0.9),
                dice.between(0.7, 1.8), dice.between(0, kPi)});
  }
  // Specks between them, for few blots alone would not tell many animals apart.
  for (const Flat& spot : darts(canvas, 0.6F * manner.scale, dice))
    if (dice.odds(0.45)) ink.drop({spot, manner.scale * dice.between(0.07, 0.17), 1, 0});
  ink.finish();
}

void many_fine(Canvas& canvas, const Manner& manner, Dice dice) {
  Inkwell ink(canvas, manner, dice.bits());
  for (const Flat& spot : darts(canvas, 0.36F * manner.scale, dice))
    if (dice.odds(0.75))
      ink.drop({spot, manner.scale * dice.between(0.07, 0.19), dice.between(0.8, 1.6), dice.between(0, kPi)});
  ink.finish();
}

void broken_bars(Canvas& canvas, const Manner& manner, Dice dice) {
  Inkwell ink(canvas, manner, dice.bits());
  const float pitch = 0.8F * manner.scale;
  for (const float side : {-1.0F, 1.0F}) {
    float u = canvas.first_u + dice.between(0, pitch);
    while (u < 1.2F) {
      if (!dice.odds(0.12)) {
        const float inner = dice.between(-0.25, 0.5), outer = dice.between(0.8, 1.4),
                    slope = dice.between(-0.5, 0.5);
        ink.chain({side * inner * canvas.half_skin, u}, {side * outer * canvas.half_skin, u + slope * pitch},
                  pitch * dice.between(0.16, 0.3));
      }
      u += pitch * dice.between(0.7, 1.4);
    }
  }
  for (const Flat& spot : darts(canvas, 1.6F * manner.scale, dice))
    ink.drop({spot, manner.scale * dice.between(0.08, 0.2), 1, 0});
  ink.finish();
}

}  // namespace evet::render::solid
