// How one photograph was taken: everything that differs from capture to capture, drawn from the
// ranges of a difficulty.
#pragma once
#include <string>

#include "tools/render/body.h"
#include "tools/render/rng.h"
#include "tools/render/spec.h"

namespace evet::render {

struct Range {
  double low, high;
  double draw(Rng& rng) const { return rng.uniform(low, high); }
};

// What a difficulty allows. Angles in degrees, lengths in shares of the picture's diagonal unless said.
struct DifficultyRanges {
  Range bend_deg, tilt_deg, length_share;
  double most_roll;          // half-widths
  double most_turn_deg;      // from head up
  double most_width_change;  // share
  double most_covered;       // of the belly, by limbs, fingers and leaves
  double cut_chance;         // that throat or vent is cut off by the frame
  Range years;               // between captures
  Range glare, blur, motion, noise, clutter,
      white_balance;  // 0..1 strengths; blur and motion shares of the diagonal
  Range jpeg_quality;
};
const DifficultyRanges& ranges(Difficulty difficulty);
const DifficultyRanges& wild_ranges();

enum class CutEnd { none, throat, vent };

struct CapturePlan {
  Pose pose;
  double length_share = 0.4, tilt_deg = 0, tilt_azimuth_rad = 0, distance = 5, distortion = 0;
  CutEnd cut = CutEnd::none;
  double cut_u = 0;      // how much of the belly lies beyond the frame
  int limbs_across = 0;  // folded over the belly
  double most_covered = 0;
  bool wild = false, foreign = false;
  std::string background, light;
  double glare = 0, blur = 0, motion = 0, noise = 0, clutter = 0, white_balance = 0, jpeg_quality = 90;
};
CapturePlan draw_capture(const CaptureSpec& spec, Rng rng);

}  // namespace evet::render
