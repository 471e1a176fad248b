// How the animal's skin looks at each place.
#pragma once
#include "tools/render/solid/animal.h"
#include "tools/render/solid/mesh.h"

namespace evet::render::solid {

struct SkinState {
  float years = 0, wet = 0.3F;
  bool back = false;         // the upper side is shown instead of the belly
  float contact_height = 9;  // of the pane that the skin touches, where there is one
  std::uint32_t seed = 0;    // of this capture: drops, dirt
};

std::function<Surface(const Touch&)> trunk_look(const Animal& animal, const SkinState& state);
std::function<Surface(const Touch&)> limb_look(const Animal& animal, const SkinState& state);
std::function<Surface(const Touch&)> eye_look(const Animal& animal);

// A surface's normal tilted by fine bumps of the given size.
Point bumped(const Touch& touch, float strength, float size, std::uint32_t seed);

}  // namespace evet::render::solid
