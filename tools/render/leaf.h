// One fallen leaf, on a floor or over an animal.
#pragma once
#include <cstdint>

#include "tools/render/rng.h"
#include "tools/render/vec.h"

namespace evet::render {

// `across`, `along`: place in the leaf's own frame, length 1 from -0.5 to 0.5.
struct LeafLook {
  Vec3 colour, vein;
  float width = 0.3f, serration = 0.03f;
  std::uint32_t seed = 0;
};
LeafLook draw_leaf(Vec3 belly_ground, Rng& rng);
bool leaf_at(const LeafLook& leaf, float along, float across, Vec3& colour);

}  // namespace evet::render
