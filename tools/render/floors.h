// The floors of background.cpp, one function a kind. Lengths in belly lengths.
#pragma once
#include "tools/render/floor.h"
#include "tools/render/rng.h"

namespace evet::render::floors {

// A thin line every `pitch`: coverage in [0,1], fading to its mean where it cannot be resolved.
float ruled(float x, float pitch, float width, float footprint);

Floor tray(Vec3 base, Rng rng);
Floor graph_paper(Rng rng);
Floor cloth(Rng rng);
Floor wood(Rng rng);
Floor clear_box(Floor below, Rng rng);
Floor net(Vec3 strand, Floor below, Rng rng);

Floor gravel(Rng rng);
Floor grass(Rng rng);
Floor leaf_litter(Vec3 belly_ground, Rng rng);
Floor slate(Rng rng);
Floor water(Rng rng);
Floor soil(Rng rng);

// What may lie under a net, a clear box or a hand.
Floor plain_below(Vec3 belly_ground, Rng rng);

// A palm or glove. `lines`: how deep its creases are.
Floor hand(Vec3 base, float lines, Vec3 belly_ground, Rng rng);

}  // namespace evet::render::floors
