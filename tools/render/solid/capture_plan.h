// How one photograph of the solid world was taken: what differs from capture to capture, within the ranges of
// a difficulty.
#pragma once
#include <string>

#include "tools/render/scene.h"
#include "tools/render/solid/dice.h"

namespace evet::render::solid {

struct Span {
  double low, high;
  float draw(Dice& dice) const { return dice.between(low, high); }
};

// Angles in degrees; blur and motion in shares of the picture's diagonal; the rest 0..1.
struct Limits {
  Span bend, tilt, length_share;
  double roll, turn, width_change, covered, cut_chance;
  Span gloss, blur, motion, noise, clutter, colour_cast, jpeg_quality;
};
const Limits& limits_of(const Conditions& conditions);

const std::vector<std::string>& setting_names();  // what the animal lies on or is held in: "backgrounds"
const std::vector<std::string>& lighting_names();

struct Plan {
  float bend = 0, tilt = 0, tilt_towards = 0, length_share = 0.4F, roll = 0, turn = 0, width_change = 0;
  float covered = 0;    // the most of the belly that may be covered
  float cut_share = 0;  // of the belly beyond the frame; 0: none is meant to be
  bool cut_head = false;
  float gloss = 0, blur = 0, motion = 0, noise = 0, clutter = 0, colour_cast = 0, jpeg_quality = 90;
  std::string setting, lighting;
  bool wild = false, gentle = false;
};
Plan draw_plan(const CaptureSpec& spec, const Dice& dice);

}  // namespace evet::render::solid
