// Legs, arms, fingers and toes.
#pragma once
#include <array>

#include "tools/render/raster.h"
#include "tools/render/rng.h"

namespace evet::render {

using Surface = std::vector<std::vector<Raster::Vertex>>;

struct Limbs {
  std::vector<Surface> surfaces;  // the id of a tube (in Fragment::u) is 8 * limb + digit
  std::array<bool, 4> folded{};   // over the belly
};
Limbs draw_limbs(const Individual& animal, const Body& body, const Camera& camera, int across, Rng rng);

}  // namespace evet::render
