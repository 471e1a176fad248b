// One animal of the solid world: its build, its colours and its pattern.
#pragma once
#include <string>

#include "tools/render/scene.h"
#include "tools/render/solid/pattern.h"
#include "tools/render/solid/shapes.h"

namespace evet::render::solid {

enum class Kind { large_newt, small_newt, salamander, frog, fish };

// Lengths in belly lengths; widths along the body relative to half_width.
struct Build {
  float half_width = 0.15F;
  float height = 0.75F;       // of the trunk to its width
  float belly_share = 0.42F;  // of the half round from the midline of the belly that carries belly colour
  float belly_flat = 2.5F, back_flat = 2;  // exponents of the cross-section, 2 = ellipse
  float head_length = 0.28F, head_width = 0.8F, head_height = 0.55F, snout = 2, neck = 0.72F,
        jaw_place = 0.45F;
  float shoulder = 0.9F, hip = 0.85F, gut = 0.05F, gut_place = 0.6F, vent_width = 0.6F;
  float tail_length = 1, tail_width = 0.3F, tail_height = 0.55F, tail_taper = 1;
  float cloaca = 0.03F, cloaca_length = 0.04F;
  float fold_depth = 0.04F, fold_curve = 0.02F;
  float ribs = 0.01F, lumps = 0.02F;
  float arm_length = 0.36F, leg_length = 0.38F, limb_radius = 0.024F, digit_length = 0.1F;
  int fingers = 4, toes = 5;
  bool has_limbs = true;
};

struct Paints {
  Colour ground, ground_second, dark, flank, flank_second, throat, limb, limb_second, tail_under, tail, dot;
  float ground_mottle = 0.3F;    // how far ground_second comes through
  float throat_pattern = 0.3F;   // 0..1: how much of the belly's pattern goes on under the throat
  float throat_freckles = 0.4F;  // share of small pale or dark specks
  bool pale_freckles = true;
  float limb_bands = 0.3F, limb_spots = 0.3F, toe_rings = 0.5F;
  float limb_pattern_pitch = 0.06F;
  float flank_dots = 0.5F, dot_size = 0.3F, dot_pitch = 0.03F;
  float flank_pattern = 0.3F;                   // how far blotches run on over the flank
  float edge_width = 0.06F, edge_waves = 0.1F;  // of the belly's edge, in v
  float vent_dark = 0.5F, fold_dark = 0.4F;
  float dark_edge = 0.006F;  // softness of blotches, belly lengths
  float grain = 0.3F;        // roughness of the skin
};

struct Animal {
  Kind kind = Kind::large_newt;
  Build build;
  Paints paints;
  Pattern pattern;
  std::string rule;
  std::uint32_t seed = 0;  // of its speckles and lumps
};

// Follows from the seeds, and from `conditions` only through the lists of rules. A look-alike is of the same
// build, colours and kind of pattern, grown anew.
Animal make_animal(std::uint64_t world_seed, std::uint32_t individual, const Conditions& conditions,
                   bool look_alike = false);
// Beyond nature, for fitting.
void make_wild(Animal& animal, Dice dice);
// Another species with the individual's number.
void make_other_kind(Animal& animal, Kind kind, Dice dice);

// Half-widths from the midline along the skin to |v| = 1, in belly lengths, of the trunk's middle.
float half_skin_of(const Build& build);

}  // namespace evet::render::solid
