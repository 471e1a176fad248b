// What the animal lies on.
#pragma once
#include <string>
#include <vector>

#include "tools/render/floor.h"
#include "tools/render/rng.h"
#include "tools/render/vec.h"

namespace evet::render {

std::vector<std::string> background_names();

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

}  // namespace evet::render
