// The animal as a bent tube lying belly to the camera: pose, cross-section, limbs, and points on its skin.
//
// World frame: x right and y down as in the picture before perspective, z towards the camera, z = 0 the
// floor; unit: belly length. The head is up (towards -y) at turn 0. s is the geometric place round the tube:
// 0 faces up (to the camera), +-0.5 about the sides, +-1 the underneath; v = s / belly_share - roll.
#pragma once
#include <vector>

#include "tools/render/individual.h"
#include "tools/render/rng.h"
#include "tools/render/vec.h"

namespace evet::render {

enum class BendShape { c, s, kink };

struct Pose {
  BendShape bend_shape = BendShape::c;
  double bend_deg = 0;      // integral of |curvature| over the trunk
  double turn_deg = 0;      // of the vent-to-throat chord from up, clockwise in the picture
  double roll = 0;          // the pattern lies this many half-widths towards +v's side of the ridge
  double width_change = 0;  // fed or gravid: +0.1 is 10 % wider
  double gravid_shape = 0;  // 0..1: how much of the change sits in the hind belly
  double flatness = 2;      // exponent of the belly side of the cross-section; 2 = ellipse
  double height = 0.8;      // of the cross-section relative to its width
  double head_turn_deg = 0, tail_turn_deg = 0, tail_wave_deg = 0;
  double tail_on_side = 0;  // 0..1
};

// Cross-section through the tube at one u.
struct Ring {
  float u;
  Vec2 centre, tangent, side;  // unit vectors: towards the tail, and towards +s
  float half_width, half_height, height_of_centre;
  float width_slope;  // d half_width / d u
};

// The unit cross-section by arc length.
class CrossSection {
 public:
  CrossSection(double flatness, double height);
  struct Point {
    float x, z, normal_x, normal_z;
  };
  Point at(float s) const;  // s in [-1, 1]; x in [-1, 1], z in [-1, 1] of the half height

 private:
  std::vector<Point> half_;  // s = 0 .. 1
};

class Body {
 public:
  Body(const Individual& animal, const Pose& pose, Rng rng);
  struct SkinPoint {
    Vec3 position, normal;
  };
  SkinPoint point(const Ring& ring, float s) const;
  Ring ring_at(double u) const;
  const std::vector<Ring>& rings() const { return rings_; }
  // s of a place on the belly.
  float s_of_v(float v) const { return (v + static_cast<float>(roll_)) * belly_share_; }
  float v_of_s(float s) const { return s / belly_share_ - static_cast<float>(roll_); }
  double first_u() const { return rings_.front().u; }
  double last_u() const { return rings_.back().u; }

 private:
  // The whole, so that the chord from vent to throat has this direction, and its middle is the origin.
  void turn_to(double turn_deg);

  std::vector<Ring> rings_;
  CrossSection section_;
  float belly_share_;
  double roll_;
};

}  // namespace evet::render
