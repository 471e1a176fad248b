// Head, trunk and tail as one skin swept along a bent spine. u runs along the belly (0 throat fold, 1 vent;
// beyond it head and tail), s round the skin by arc length from the middle of the belly (0) to the middle of
// the back (+-1), positive on the animal's side that lies right when the head is up.
#pragma once
#include <vector>

#include "tools/render/solid/animal.h"
#include "tools/render/solid/capture_plan.h"
#include "tools/render/solid/mesh.h"

namespace evet::render::solid {

// How the animal lies.
struct Posture {
  float bend = 0, roll = 0, turn = 0;  // degrees, half-widths, degrees; as Truth has them
  float width_change = 0;
  float head_turn = 0, tail_turn = 0, tail_wave = 0, tail_twist = 0;  // degrees
  float twist = 0;                // of the trunk along its length, degrees
  float arch = 0, head_lift = 0;  // belly lengths
  bool on_glass = false;          // pressed to a pane between it and the camera, at kPane
  float press = 0.02F;            // how deep
  bool lopsided = false;
};
inline constexpr float kPane = 0.34F;  // height of the pane, belly lengths

Posture draw_posture(const Plan& plan, bool on_glass, Dice dice);

class Body {
 public:
  Body(const Animal& animal, const Posture& posture, Dice dice);

  Point at(float u, float s) const;  // on the skin
  Point spine(float u) const;
  Point along(float u) const;  // towards the tail
  Point side(float u) const;   // towards +s in the picture plane
  Mesh trunk() const;          // head and trunk; place = (u, s)
  Mesh tail() const;
  void turn_by(float angle);  // about the upright axis, counter-clockwise as seen
  // -v of the skin halfway between the sides as seen from above, mean over the trunk.
  float roll_seen() const { return roll_seen_; }
  float first_u() const { return rings_.front().u; }
  float last_u() const { return rings_.back().u; }
  float half_width() const { return animal_.build.half_width; }

 private:
  struct Ring {
    float u;
    Point centre, along, side;
  };
  static constexpr int kRound = 52;  // steps round the skin
  void lay_spine(const Posture& posture, Dice dice);
  void wrap_skin(const Posture& posture, Dice dice);
  Mesh part_of_skin(std::size_t first, std::size_t last) const;
  std::size_t ring_before(float u) const;

  const Animal& animal_;
  std::vector<Ring> rings_;
  std::vector<Point> skin_;  // kRound + 1 a ring
  float roll_seen_ = 0;
};

}  // namespace evet::render::solid
