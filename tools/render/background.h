// What the animal lies on.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "tools/render/rng.h"
#include "tools/render/vec.h"

namespace evet::render {

std::vector<std::string> background_names();

// Albedo of the floor at a place (world frame, belly lengths); `footprint`: distance between samples, for
// patterns that fade where they are finer than a pixel.
using Floor = std::function<Vec3(Vec2 place, float footprint)>;

struct Background {
  std::string name;
  Floor albedo;
  float gloss = 0;  // mirror-like sheen: trays, water, gloves
};

// `belly_ground`: so that some floors share the belly's colour.
Background draw_background(const std::string& name, Vec3 belly_ground, Rng rng);
Background draw_wild_background(Vec3 belly_ground, Rng rng);

// Kept back from training.
std::vector<std::string> foreign_background_names();
Background draw_foreign_background(const std::string& name, Rng rng);

// One fallen leaf. `across`, `along`: place in the leaf's own frame, length 1 from -0.5 to 0.5.
struct LeafLook {
  Vec3 colour, vein;
  float width = 0.3f, serration = 0.03f;
  std::uint32_t seed = 0;
};
LeafLook draw_leaf(Vec3 belly_ground, Rng& rng);
bool leaf_at(const LeafLook& leaf, float along, float across, Vec3& colour);

}  // namespace evet::render
