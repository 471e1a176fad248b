// Legs, arms, fingers and toes.
#pragma once
#include "tools/render/raster.h"
#include "tools/render/rng.h"

namespace evet::render {

using Surface = std::vector<std::vector<Raster::Vertex>>;

// Four limbs, `across` of them folded over the belly. The id of a tube (in Fragment::u) is 8 * limb + digit.
std::vector<Surface> limb_surfaces(const Individual& animal, const Body& body, const Camera& camera,
                                   int across, Rng rng);

}  // namespace evet::render
