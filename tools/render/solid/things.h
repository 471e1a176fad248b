// Things beside, under and over the animal: hands, leaves, blades, rulers, pebbles.
#pragma once
#include <vector>

#include "tools/render/solid/body.h"
#include "tools/render/solid/limbs.h"

namespace evet::render::solid {

// A bare or gloved hand: look and size are one person's.
struct Hand {
  std::function<Surface(const Touch&)> look;
  float finger = 0.14F;  // radius, belly lengths
};
Hand draw_hand(bool gloved, bool wild, Dice dice);

// A palm and fingers under the animal, their upper side at height 0.
std::vector<Mesh> hand_below(const Hand& hand, Dice dice);
// A finger that comes from outside and rests with its tip on the animal at `tip` (a place of the ground).
Mesh finger_to(const Hand& hand, const Flat& tip, float tip_height, const Flat& from, Dice dice);

Mesh leaf(const Flat& at, float turn, float length, float height, Dice dice);
Mesh blade(const Flat& from, const Flat& to, float height, Dice dice);
Mesh slab(const Flat& at, float turn, const Flat& half, float thickness,
          std::function<Surface(const Touch&)> look);
Mesh ruler(const Flat& at, float turn, Dice dice);
Mesh pebble(const Flat& at, float radius, float base, Dice dice);
Mesh stick(const Flat& from, const Flat& to, float radius, float base, Dice dice);

// Beside the animal: more of them with `clutter`.
std::vector<Mesh> things_beside(const Body& body, const Plan& plan, float level, Dice dice);
// Over the belly, one after the other; the caller takes as many as the allowance bears.
std::vector<Mesh> things_over(const Body& body, const Plan& plan, const HeightOver& height_over,
                              const Hand& hand, Dice dice);
// In place of an animal: a leaf, a stick, a hand alone, pebbles.
std::vector<Mesh> things_instead(const Hand& hand, Dice dice);

}  // namespace evet::render::solid
