#include "tools/render/solid/animal.h"

#include <algorithm>
#include <stdexcept>

namespace evet::render::solid {

namespace {

std::string chosen_rule(const Conditions& conditions, Dice dice) {
  std::vector<std::string> left;
  const auto named_in = [](const std::vector<std::string>& list, const std::string& name) {
    return std::find(list.begin(), list.end(), name) != list.end();
  };
  for (const auto* list : {&conditions.only_mechanisms, &conditions.without_mechanisms})
    for (const std::string& name : *list)
      if (!named_in(rule_names(), name))
        throw std::invalid_argument("no mechanism of the solid world is called '" + name + "'");
  for (const std::string& name : rule_names())
    if ((conditions.only_mechanisms.empty() || named_in(conditions.only_mechanisms, name)) &&
        !named_in(conditions.without_mechanisms, name))
      left.push_back(name);
  if (left.empty()) throw std::invalid_argument("the conditions leave no mechanism of the solid world");
  return left[static_cast<std::size_t>(dice.below(static_cast<int>(left.size())))];
}

Build drawn_build(Dice dice) {
  Build b;
  b.half_width = dice.between(0.115, 0.185);
  b.height = dice.between(0.6, 0.9);
  b.belly_share = dice.between(0.36, 0.48);
  b.belly_flat = dice.between(2.1, 3.2);
  b.back_flat = dice.between(1.8, 2.3);
  b.head_length = dice.between(0.22, 0.33);
  b.head_width = dice.between(0.68, 1.0);
  b.head_height = dice.between(0.4, 0.6);
  b.snout = dice.between(1.5, 3);
  b.neck = dice.between(0.6, 0.85);
  b.jaw_place = dice.between(0.38, 0.52);
  b.shoulder = dice.between(0.82, 0.98);
  b.hip = dice.between(0.74, 0.95);
  b.gut = dice.between(0, 0.12);
  b.gut_place = dice.between(0.45, 0.72);
  b.vent_width = dice.between(0.48, 0.72);
  b.tail_length = dice.odds(0.12) ? dice.between(0.25, 0.7) : dice.between(0.85, 1.45);
  b.tail_width = dice.between(0.2, 0.42);
  b.tail_height = dice.between(0.45, 0.95);
  b.tail_taper = dice.between(0.6, 1.6);
  const bool male = dice.odds(0.5);
  b.cloaca = male ? dice.between(0.025, 0.055) : dice.between(0.006, 0.025);
  b.cloaca_length = dice.between(0.03, 0.06);
  b.fold_depth = dice.between(0.005, 0.08);
  b.fold_curve = dice.between(-0.03, 0.05);
  b.ribs = dice.odds(0.5) ? dice.between(0, 0.025) : 0;
  b.lumps = dice.between(0.005, 0.035);
  b.arm_length = dice.between(0.3, 0.44);
  b.leg_length = dice.between(0.32, 0.46);
  b.limb_radius = dice.between(0.019, 0.034);
  b.digit_length = dice.between(0.07, 0.14);
  return b;
}

Colour dull(Dice& dice) {
  return paint(dice.between(10, 75), dice.between(0.1, 0.6), dice.between(0.12, 0.5));
}

Paints drawn_paints(Dice dice) {
  Paints p;
  const float hue = dice.odds(0.75) ? dice.between(24, 54) : dice.between(6, 26);
  p.ground = paint(hue, dice.between(0.6, 1), dice.between(0.75, 1));
  p.ground_second = paint(hue + dice.between(-16, 16), dice.between(0.35, 0.95), dice.between(0.7, 1));
  p.ground_mottle = dice.between(0, 0.8);
  p.dark = paint(dice.between(0, 360), dice.between(0, 0.4), dice.between(0.08, 0.3));
  p.flank = dice.odds(0.6) ? paint(dice.between(15, 60), dice.between(0.05, 0.45), dice.between(0.08, 0.3))
                           : dull(dice);
  p.flank_second = blend<Colour>(p.flank, dull(dice), dice.between(0.2, 1));
  switch (dice.below(4)) {
    case 0:
      p.throat = p.ground;
      break;
    case 1:
      p.throat = p.flank;
      break;
    case 2:
      p.throat = blend<Colour>(p.ground, p.flank, dice.between(0.3, 0.7));
      break;
    default:
      p.throat = paint(dice.between(5, 60), dice.between(0.1, 0.8), dice.between(0.3, 0.95));
  }
  p.throat_pattern = dice.odds(0.5) ? dice.between(0, 0.3) : dice.between(0.4, 1);
  p.throat_freckles = dice.between(0, 0.7);
  p.pale_freckles = dice.odds(0.6);
  p.limb = dice.odds(0.4)   ? p.flank
           : dice.odds(0.6) ? blend<Colour>(p.ground, p.flank, dice.unit())
                            : dull(dice);
  p.limb_second = dice.odds(0.5) ? p.ground : dice.odds(0.5) ? p.dark : dull(dice);
  p.limb_bands = dice.odds(0.5) ? dice.between(0, 1) : 0;
  p.limb_spots = dice.odds(0.6) ? dice.between(0, 0.8) : 0;
  p.toe_rings = dice.odds(0.6) ? dice.between(0.2, 1) : 0;
  p.limb_pattern_pitch = dice.between(0.03, 0.09);
  p.tail = dice.odds(0.6) ? p.flank : p.flank_second;
  p.tail_under = dice.odds(0.6) ? blend<Colour>(p.ground, p.ground_second, dice.unit()) : p.tail;
  p.dot = dice.odds(0.7) ? paint(dice.between(30, 220), dice.between(0, 0.25), dice.between(0.7, 1)) : p.dark;
  p.flank_dots = dice.odds(0.65) ? dice.between(0.1, 0.95) : 0;
  p.dot_size = dice.between(0.12, 0.4);
  p.dot_pitch = dice.between(0.014, 0.04);
  p.flank_pattern = dice.odds(0.5) ? dice.between(0.1, 1) : 0;
  p.edge_width = dice.between(0.015, 0.16);
  p.edge_waves = dice.between(0, 0.16);
  p.vent_dark = dice.between(0, 1);
  p.fold_dark = dice.between(0, 0.8);
  p.dark_edge = dice.between(0.0015, 0.008);
  p.grain = dice.between(0.05, 1);
  return p;
}

Colour anything(Dice& dice, double least = 0.05) {
  return paint(dice.between(0, 360), dice.between(0, 1), dice.between(least, 1));
}

}  // namespace

float half_skin_of(const Build& b) {
  // Half the girth of an ellipse of these axes (Ramanujan 1914), a little more for the flattened belly.
  const float a = b.half_width, c = b.half_width * b.height, h = (a - c) * (a - c) / ((a + c) * (a + c));
  const float half_girth = 0.5F * kPi * (a + c) * (1 + 3 * h / (10 + std::sqrt(4 - 3 * h)));
  return half_girth * b.belly_share * 1.04F;
}

Animal make_animal(std::uint64_t world_seed, std::uint32_t individual, const Conditions& conditions,
                   bool look_alike) {
  const Dice dice(Dice::blended(Dice::blended(0x50711D, world_seed), individual));
  const Dice own = look_alike ? dice.apart(77) : dice;
  Animal animal;
  animal.rule = chosen_rule(conditions, dice.apart(1));
  animal.build = drawn_build(dice.apart(2));
  animal.paints = drawn_paints(dice.apart(3));
  animal.pattern = grow_pattern(animal.rule, half_skin_of(animal.build), dice.apart(4), own.apart(5));
  animal.seed = own.apart(6).bits();
  return animal;
}

void make_wild(Animal& animal, Dice dice) {
  Build& b = animal.build;
  Paints& p = animal.paints;
  if (dice.odds(0.6)) {
    b.half_width *= dice.between(0.7, 1.4);
    b.height *= dice.between(0.8, 1.3);
    // Narrow: a turned animal shows a flank and yet its whole belly.
    b.belly_share = dice.between(0.24, 0.52);
    b.head_length *= dice.between(0.7, 1.25);
    b.head_width *= dice.between(0.75, 1.25);
    b.tail_length *= dice.between(0.2, 1.3);
    b.tail_width *= dice.between(0.6, 2);
    b.arm_length *= dice.between(0.6, 1.4);
    b.leg_length *= dice.between(0.6, 1.4);
    b.limb_radius *= dice.between(0.6, 1.7);
    b.fold_depth = dice.between(0, 0.1);
  }
  for (Colour* paint_of :
       {&p.throat, &p.limb, &p.limb_second, &p.tail, &p.tail_under, &p.flank, &p.flank_second, &p.dot})
    if (dice.odds(0.4)) *paint_of = anything(dice);
  if (dice.odds(0.4)) {
    p.ground = anything(dice, 0.45);
    p.ground_second = blend<Colour>(p.ground, anything(dice, 0.4), dice.between(0, 0.6));
    p.dark = anything(dice);
  }
  // Blotches stay darker than what they lie on, by eye and in their strongest colour.
  const float share = dice.between(0.1, 0.5);
  const float light = std::min(luminance(p.ground), luminance(p.ground_second));
  p.dark *= std::min({1.0F, share * light / std::max(1e-4F, luminance(p.dark)),
                      share * p.ground.maxCoeff() / std::max(1e-4F, p.dark.maxCoeff())});
  if (dice.odds(0.4)) p.throat_pattern = dice.between(0, 1);
  if (dice.odds(0.3)) {  // the belly goes on to the snout
    p.throat = blend<Colour>(p.ground, p.ground_second, dice.unit());
    p.throat_pattern = dice.between(0.6, 1);
  }
  if (dice.odds(0.4)) p.flank_pattern = dice.between(0, 1);
  if (dice.odds(0.4)) p.edge_width = dice.between(0.01, 0.3);
}

void make_other_kind(Animal& animal, Kind kind, Dice dice) {
  Build& b = animal.build;
  Paints& p = animal.paints;
  animal.kind = kind;
  switch (kind) {
    case Kind::large_newt:
      return;
    case Kind::small_newt:
      b.half_width *= dice.between(0.6, 0.85);
      b.limb_radius *= 0.8F;
      p.ground = paint(dice.between(20, 60), dice.between(0.1, 0.9), dice.between(0.7, 1));
      p.flank = paint(dice.between(30, 65), dice.between(0.2, 0.5), dice.between(0.35, 0.7));
      p.throat = blend<Colour>(p.ground, paint(40, 0.15F, 0.9F), dice.unit());
      p.throat_pattern = 0;
      p.tail = p.flank;
      p.limb = blend<Colour>(p.ground, p.flank, dice.unit());
      return;
    case Kind::salamander:
      b.half_width *= dice.between(0.9, 1.2);
      p.ground = p.flank = p.limb = p.tail = p.throat =
          paint(dice.between(0, 360), dice.between(0, 0.3), dice.between(0.06, 0.3));
      p.dark = paint(dice.between(35, 55), dice.between(0.6, 1), dice.between(0.7, 1));
      p.tail_under = p.ground;
      return;
    case Kind::frog:
      b.half_width = dice.between(0.28, 0.4);
      b.head_length = dice.between(0.25, 0.4);
      b.head_width = dice.between(0.75, 0.95);
      b.neck = 0.92F;
      b.tail_length = 0.02F;
      b.tail_width = 0.3F;
      b.vent_width = 0.35F;
      b.arm_length = dice.between(0.5, 0.65);
      b.leg_length = dice.between(0.9, 1.2);
      b.limb_radius = dice.between(0.05, 0.075);
      b.digit_length = dice.between(0.16, 0.26);
      p.ground = paint(dice.between(35, 70), dice.between(0.05, 0.4), dice.between(0.65, 1));
      p.dark = blend<Colour>(p.ground, dull(dice), dice.between(0.2, 0.8));
      p.flank = p.limb = dull(dice);
      p.throat = p.ground;
      return;
    case Kind::fish:
      b.half_width = dice.between(0.1, 0.2);
      b.height = dice.between(1.1, 1.8);
      b.head_width = dice.between(0.7, 0.9);
      b.neck = 0.95F;
      b.has_limbs = false;
      b.tail_length = dice.between(0.3, 0.6);
      b.tail_height = dice.between(0.9, 1.5);
      b.tail_width = 0.15F;
      p.ground = paint(dice.between(30, 220), dice.between(0, 0.3), dice.between(0.6, 1));
      p.dark = blend<Colour>(p.ground, dull(dice), dice.between(0.1, 0.6));
      p.flank = paint(dice.between(40, 220), dice.between(0.1, 0.4), dice.between(0.3, 0.8));
      p.tail = p.throat = p.ground;
  }
}

}  // namespace evet::render::solid
