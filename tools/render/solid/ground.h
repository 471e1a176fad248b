// What the animal lies on, or what is seen behind a pane or a hand: an endless plane with a texture.
#pragma once
#include <functional>
#include <string>

#include "tools/render/solid/dice.h"
#include "tools/render/solid/mesh.h"

namespace evet::render::solid {

struct Cover {  // of the ground at a place
  Colour colour = Colour::Constant(0.5F);
  float height = 0;  // belly lengths, for its slopes
  float gloss = 0;
};

struct Ground {
  float level = 0;  // height of the plane
  bool bumpy = false;
  float spread = 0.4F;
  std::function<Cover(float x, float y)> cover;
  Surface at(const Flat& place) const;
};

// `setting` as in setting_names(); those that have no ground of their own (hands, panes) get one at random,
// further down. A share of the grounds are photographs where there are any.
Ground draw_ground(const std::string& setting, const Colour& belly, bool wild, Dice dice);

}  // namespace evet::render::solid
