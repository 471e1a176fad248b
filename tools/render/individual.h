// One animal: what its skin and shape keep from capture to capture.
#pragma once
#include <cstdint>
#include <string>

#include "tools/render/pattern_field.h"
#include "tools/render/spec.h"
#include "tools/render/vec.h"

namespace evet::render {

struct SkinColours {
  Vec3 ground, ground_patch;  // belly ground and the patches of other pigment in it
  Vec3 dark;                  // of the pattern
  Vec3 flank, flank_dot;      // above the edge of the belly
  Vec3 throat, throat_dot;    // under the chin
};

struct Individual {
  std::uint64_t seed = 0;
  std::string mechanism;
  PatternField pattern;
  SkinColours colours;
  float patchiness = 0;     // weight of ground_patch
  float patch_scale = 6;    // patches a belly length
  float halo = 0;           // darkening of the ground round the spots
  float edge_softness = 0;  // of the spots, belly lengths
  float edge_wave = 0.1f;   // by how much the flank's boundary wavers beyond |v| = 1
  float throat_darkness = 0.5f;
  float hue_drift_per_year = 0;
  // Shape, in belly lengths. `belly_share`: |v| = 1 lies at this share of the half circumference.
  float half_width = 0.13f, belly_share = 0.44f;
  float head_length = 0.27f, head_width = 0.8f;  // width relative to half_width
  float tail_length = 0.95f, tail_width = 0.4f, keel = 0.4f;
  float limb_thickness = 1;
  float shoulder = 0, hip = 0;  // added to the half-width there, relative to the widest
  float flank_blend = 0.02f;    // width of the change from belly to flank, in v
  float flank_stipple = 0.8f, stipple_pitch = 38;
  float limb_dark = 0;  // > 0: limbs mostly dark, < 0: mostly of the belly's colour
  float grooves = 0;    // between the ribs
  float vent_dark = 0.8f;
  float throat_spots = 0;  // dark spots under the chin like the belly's, 0..1
};

// Depends on the seeds alone, and on `conditions` only through the lists of mechanisms.
Individual make_individual(std::uint64_t world_seed, std::uint32_t individual,
                           const Conditions& conditions = {});

// Another animal that looks alike: of the same colours, shape and kind of pattern, grown anew. Of several
// such patterns the one whose share of dark and number of spots are nearest to the animal's own.
Individual make_look_alike(std::uint64_t world_seed, std::uint32_t individual,
                           const Conditions& conditions = {});

// As render(spec) with spec.individual drawn already: many captures of one animal share the work of its skin.
RenderedPhoto render(const Individual& animal, const CaptureSpec& spec);

}  // namespace evet::render
