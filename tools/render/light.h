// What lights a scene, and how skin and ground answer it.
#pragma once
#include <string>
#include <vector>

#include "tools/render/rng.h"
#include "tools/render/vec.h"

namespace evet::render {

std::vector<std::string> light_names();

struct Light {
  std::string name;
  Vec3 direction{0, 0, 1};  // unit, towards the light, world frame
  Vec3 key{1, 1, 1}, ambient{0.3f, 0.3f, 0.3f};
  float highlight = 1;        // strength of its mirror image on wet skin
  float shininess = 60;       // small and hard lights have high values
  bool ring = false;          // its mirror image is a ring
  Vec2 hot_spot{0, 0};        // centre of the beam, picture coordinates in half diagonals
  float hot_radius = 0;       // half diagonals; 0 = evenly lit
  float outside_beam = 0.1f;  // light left outside the beam
  float shadow_softness = 0.05f, shadow_strength = 0.5f;  // belly lengths; share of the key light taken
  std::vector<Light> others;  // further lamps: what counts is their key light, beam and highlight

  float beam(Vec2 place) const;  // share of the key light at a place in the picture (half diagonals)
};

Light draw_light(const std::string& name, Rng rng);
Light draw_wild_light(Rng rng);

// Kept back from training.
std::vector<std::string> foreign_light_names();
Light draw_foreign_light(const std::string& name, Rng rng);

// A unit vector between two angles off the vertical, from any side.
Vec3 towards(Rng& rng, double least_deg, double most_deg);

// Light thrown back towards the eye by the mirror-like wet surface (Blinn-Phong lobe, or a ring of it).
float mirror_lobe(const Light& light, Vec3 normal, Vec3 to_eye, float roughness);

}  // namespace evet::render
