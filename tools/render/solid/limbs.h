// Arms and legs with elbows, wrists, knees, ankles and digits, in free poses.
#pragma once
#include <functional>
#include <vector>

#include "tools/render/solid/body.h"

namespace evet::render::solid {

// Height of the trunk over a place of the ground; less than 0 where there is none.
using HeightOver = std::function<float(const Flat&)>;

// `across`: how many of the limbs, in an order of chance, are laid over the belly. Meshes of arms and legs
// come with their part; place = (0 shoulder .. 1 wrist .. 2 tip of a digit, round).
std::vector<Mesh> limbs_of(const Animal& animal, const Body& body, const Posture& posture, const Plan& plan,
                           int across, const HeightOver& height_over, const Dice& dice);

}  // namespace evet::render::solid
