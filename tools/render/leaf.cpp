#include "tools/render/leaf.h"
#include "tools/render/noise.h"

namespace evet::render {

LeafLook draw_leaf(Vec3 belly_ground, Rng& rng) {
  LeafLook leaf;
  leaf.colour = rng.chance(0.35) ? belly_ground * rng.uniformf(0.6, 1.05)
                                 : hsv(rng.uniform(12, rng.chance(0.25) ? 100 : 50), rng.uniform(0.35, 0.9),
                                       rng.uniform(0.25, 0.85));
  leaf.vein = leaf.colour * (rng.chance(0.5) ? rng.uniformf(0.4, 0.7) : rng.uniformf(1.2, 1.6));
  leaf.width = rng.uniformf(0.16, 0.42);
  leaf.serration = rng.uniformf(0, 0.12);
  leaf.seed = rng.next32();
  return leaf;
}

bool leaf_at(const LeafLook& leaf, float along, float across, Vec3& colour) {
  if (std::abs(along) > 0.6f || std::abs(across) > 0.6f) return false;
  const float t = along + 0.5f;  // stalk at 0
  if (t < -0.1f || t > 1) return false;
  const float curve = across + 0.06f * std::sin(along * 4 + static_cast<float>(leaf.seed % 7));
  if (t < 0.02f) {
    colour = leaf.vein * 0.8f;
    return std::abs(curve) < 0.012f;
  }
  const float outline =
      leaf.width * 1.6f * std::sqrt(t) * (1 - t) * (1.25f + leaf.serration * std::sin(t * 55));
  if (std::abs(curve) > outline) return false;
  const float mottle = fractal_noise(along * 9, across * 9, leaf.seed, 3);
  colour = leaf.colour * (0.9f + 0.3f * mottle);
  const float side = std::abs(curve) * 1.1f - t;
  const float rib = std::abs(side * 9 - std::round(side * 9));
  if (std::abs(curve) < 0.010f || rib < 0.06f) colour = mix(colour, leaf.vein, 0.7f);
  colour = colour * (1 - 0.25f * smooth_step(0.7f, 1.0f, std::abs(curve) / std::max(outline, 1e-4f)));
  return true;
}

}  // namespace evet::render
