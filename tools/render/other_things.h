// What lies in the middle of a picture that shows no newt: a big leaf, or a frog or toad on its back.
#pragma once
#include "tools/render/clutter.h"

namespace evet::render {

Thing other_thing(const ClutterScene& scene, Rng rng);

}  // namespace evet::render
