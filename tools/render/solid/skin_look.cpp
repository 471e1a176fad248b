#include "tools/render/solid/skin_look.h"

#include "tools/render/solid/texture_noise.h"

namespace evet::render::solid {

Point bumped(const Touch& touch, float strength, float size, std::uint32_t seed) {
  if (strength <= 0) return touch.normal;
  const Point p = touch.at / size;
  const float here = wave(p[0], p[1], p[2], seed);
  constexpr float kStep = 0.2F;
  const Point slope(wave(p[0] + kStep, p[1], p[2], seed) - here, wave(p[0], p[1] + kStep, p[2], seed) - here,
                    wave(p[0], p[1], p[2] + kStep, seed) - here);
  return (touch.normal - slope * (strength / kStep)).normalized();
}

namespace {

// Small round specks scattered over the skin: how much of one lies here.
float speck(float x, float y, float pitch, float size, float share, std::uint32_t seed) {
  const Scatter s = scatter(x / pitch, y / pitch, seed);
  if (chance_of(s.number, 11) >= share) return 0;
  const float radius = size * (0.5F + 0.8F * chance_of(s.number, 12));
  return 1 - step(radius * 0.75F, radius * 1.1F, s.first);
}

struct Place {
  float u, s, v, x;  // x: belly lengths across, along the skin
};

class Coat {
 public:
  Coat(const Animal& animal, const SkinState& state)
      : animal_(animal), state_(state), girth_(animal.pattern.half_skin / animal.build.belly_share) {}

  Colour colour_at(float u, float s) const {
    const Place at{u, s, s / animal_.build.belly_share, s * girth_};
    return state_.back ? upper_side(at) : under_side(at);
  }

 private:
  float fold_distance(const Place& at) const {
    return at.u - animal_.build.fold_curve * (1 - (at.s / 0.5F) * (at.s / 0.5F));
  }

  Colour flank(const Place& at) const {
    const Paints& p = animal_.paints;
    Colour c = blend<Colour>(p.flank, p.flank_second,
                             step(-0.3F, 0.5F, rough(at.u * 8, at.x * 8, 3, animal_.seed + 3)));
    const float low = step(0.96F, 0.7F, std::abs(at.s));
    const float dot = speck(at.u, at.x, p.dot_pitch, p.dot_size, p.flank_dots * low, animal_.seed + 4);
    return blend<Colour>(c, p.dot, dot);
  }

  Colour upper_side(const Place& at) const {
    const Paints& p = animal_.paints;
    Colour c = flank(at);
    const float ink =
        1 - step(-p.dark_edge, p.dark_edge, animal_.pattern.edge_distance(at.u, at.v, state_.years));
    c = blend<Colour>(c, Colour(p.flank * 0.45F), ink * 0.8F);
    // A pale, orange or no stripe along the back.
    const float stripe = bell(at.s, 0.03F) * (chance_of(animal_.seed, 21) < 0.4F ? 0.8F : 0);
    c = blend<Colour>(c, chance_of(animal_.seed, 22) < 0.5F ? p.ground : p.dot, stripe);
    return c * (1 + 0.15F * rough(at.u * 30, at.x * 30, 2, animal_.seed + 5));
  }

  Colour under_side(const Place& at) const {
    const Paints& p = animal_.paints;
    const float waves = p.edge_waves * wave(at.u * 5, at.s > 0 ? 3.0F : 9.0F, animal_.seed + 1) +
                        0.4F * p.edge_waves * wave(at.u * 17, at.s > 0 ? 3.0F : 9.0F, animal_.seed + 2);
    const float beyond = step(1 - p.edge_width, 1 + p.edge_width, std::abs(at.v) + waves);
    Colour belly =
        blend<Colour>(p.ground, p.ground_second,
                      p.ground_mottle * step(-0.4F, 0.6F, rough(at.u * 7, at.x * 7, 2, animal_.seed + 6)));
    belly *= 1 + 0.1F * rough(at.u * 45, at.x * 45, 2, animal_.seed + 7);
    Colour c = blend<Colour>(belly, flank(at), beyond);

    const float fold = fold_distance(at), throat = step(0.014F, -0.014F, fold);
    if (throat > 0) c = blend<Colour>(c, throat_colour(at), throat);
    const float tail = step(1.0F, 1.1F, at.u);
    if (tail > 0) {
      const float under = step(0.3F, 0.16F, std::abs(at.s));
      c = blend<Colour>(c, blend<Colour>(p.tail, p.tail_under, under), tail);
      c = blend<Colour>(
          c, p.dot, tail * speck(at.u, at.x, p.dot_pitch, p.dot_size, 0.6F * p.flank_dots, animal_.seed + 8));
    }

    const float edge = animal_.pattern.edge_distance(at.u, at.v, state_.years);
    float ink = 1 - step(-p.dark_edge, p.dark_edge, edge);
    ink *= blend(1.0F, p.flank_pattern, beyond);
    ink *= blend(1.0F, p.throat_pattern, step(0.0F, -0.02F, fold));
    ink *= blend(1.0F, 0.6F * p.flank_pattern + 0.4F * p.vent_dark, step(1, 1.06F, at.u));
    Colour dark = p.dark * (1 + 0.25F * rough(at.u * 25, at.x * 25, 2, animal_.seed + 9));
    c = blend<Colour>(c, dark, ink);

    c *= 1 - 0.6F * p.fold_dark * bell(fold, 0.006F) * step(0.55F, 0.4F, std::abs(at.s));
    const float vent = bell(at.u - 1.02F, 0.8F * animal_.build.cloaca_length) * bell(at.s, 0.12F);
    c = blend<Colour>(c, p.dark, 0.7F * p.vent_dark * vent);
    c *= 1 - 0.7F * bell(at.u - 1.02F, 0.5F * animal_.build.cloaca_length) * bell(at.s, 0.012F);
    const float l = animal_.build.head_length;
    if (at.u < -0.15F * l)  // the mouth's line along the jaw
      c *= 1 - 0.5F * bell(std::abs(at.s) - 0.47F, 0.012F) * step(-0.15F * l, -0.3F * l, at.u);
    return c;
  }

  Colour throat_colour(const Place& at) const {
    const Paints& p = animal_.paints;
    const float side = step(0.85F, 1.25F, std::abs(at.v));
    Colour c = blend<Colour>(p.throat, flank(at), side);
    c *= 1 + 0.14F * rough(at.u * 18, at.x * 18, 3, animal_.seed + 12);
    const float fine = speck(at.u, at.x, 0.016F, 0.3F, p.throat_freckles, animal_.seed + 13);
    return blend<Colour>(c, p.pale_freckles ? p.dot : p.dark, fine * 0.8F);
  }

  const Animal& animal_;
  SkinState state_;
  float girth_;
};

void wet_skin(const Animal& animal, const SkinState& state, const Touch& touch, Surface& out) {
  const Paints& p = animal.paints;
  const float dry = step(-0.1F, 0.5F, wave(touch.at[0] * 5, touch.at[1] * 5, touch.at[2] * 5, state.seed));
  out.gloss = state.wet * (0.4F + 0.6F * dry);
  out.spread = 0.18F + 0.25F * p.grain;
  out.bleed = 0.25F;
  out.normal = bumped(touch, 0.05F + 0.2F * p.grain, 0.008F + 0.008F * p.grain, state.seed + 1);
  const float gap = state.contact_height - touch.at[2];
  if (gap < 0.004F) {  // wetted against the pane: deeper in colour, mirrors nothing
    const float contact = 1 - step(0.0005F, 0.004F, gap);
    out.albedo *= 1 - 0.12F * contact;
    out.gloss *= 1 - contact;
    out.normal = blend<Point>(out.normal, Point(0, 0, 1), contact).normalized();
  }
}

}  // namespace

std::function<Surface(const Touch&)> trunk_look(const Animal& animal, const SkinState& state) {
  return [coat = Coat(animal, state), &animal, state](const Touch& touch) {
    Surface out;
    out.albedo = coat.colour_at(touch.place[0], touch.place[1]).max(0.003F).min(0.95F);
    wet_skin(animal, state, touch, out);
    return out;
  };
}

std::function<Surface(const Touch&)> limb_look(const Animal& animal, const SkinState& state) {
  return [&animal, state](const Touch& touch) {
    const Paints& p = animal.paints;
    const float along = touch.place[0], round = touch.place[1];
    const float pitch = p.limb_pattern_pitch * 3;
    Colour c = state.back ? blend<Colour>(p.limb, p.flank, 0.7F) : p.limb;
    const float band =
        step(0.1F, 0.4F, std::sin(along * 2 * kPi / pitch * 0.5F + 2 * wave(along * 3, round, animal.seed)));
    const float spot = step(0.05F, 0.3F,
                            wave(touch.at[0] / p.limb_pattern_pitch, touch.at[1] / p.limb_pattern_pitch,
                                 touch.at[2] / p.limb_pattern_pitch, animal.seed + 31));
    c = blend<Colour>(c, p.limb_second,
                      std::max(p.limb_bands * band, p.limb_spots * spot) * (along < 1 ? 1 : 0.4F));
    if (along > 1) {
      const float ring = step(0.0F, 0.25F, std::sin((along - 1) * 14));
      c = blend<Colour>(c, p.ground, p.toe_rings * ring);
    }
    Surface out;
    out.albedo =
        (c * (1 + 0.15F * wave(touch.at[0] * 70, touch.at[1] * 70, touch.at[2] * 70, animal.seed + 32)))
            .max(0.003F)
            .min(0.95F);
    wet_skin(animal, state, touch, out);
    return out;
  };
}

std::function<Surface(const Touch&)> eye_look(const Animal& animal) {
  return [&animal](const Touch& touch) {
    Surface out;
    out.albedo = touch.place[0] < 0.6F ? Colour(0.01F, 0.01F, 0.01F) : Colour(0.5F * animal.paints.ground);
    out.gloss = 0.9F;
    out.spread = 0.08F;
    out.normal = touch.normal;
    return out;
  };
}

}  // namespace evet::render::solid
