// The colour of a capture's skin at any place on the animal.
#pragma once
#include "tools/render/individual.h"
#include "tools/render/raster.h"

namespace evet::render {

struct SkinLook {
  SkinColours colours;
  bool is_back = false;       // the animal shows its back
  float throat_as_belly = 0;  // how far the belly's colours and pattern go on under the throat
  bool small_newt = false;    // slim, with an unspotted or finely dotted belly
  float dot_strength = 0;     // of the small newt's dots
  float dot_pitch = 26;       // dots a belly length
  float dot_size = 0.18f;     // share of the pitch
  float band = 9;             // |v| to which the small newt's belly has its ground; pale beyond
  float orange_edge = 2;      // of a back: |s| from which the belly's colour shows
  float stripe = 0;           // half-width of a back's light stripe, in s
};

class Skin {
 public:
  // `footprint`: belly lengths a pixel, for edges that neither alias nor blur.
  Skin(const Individual& animal, const SkinLook& look, double years, float footprint);

  struct Sample {
    Vec3 albedo;
    float wet = 1;                 // strength of its mirror reflection
    float bump_x = 0, bump_y = 0;  // of the surface normal, world frame
  };
  Sample at(const Fragment& fragment, float v) const;
  bool is_dark(float u, float v) const { return sample_field(field_, u, v) < 0; }
  const cv::Mat1f& field() const { return field_; }

 private:
  Vec3 belly(float u, float v) const;
  Vec3 throat(float u, float v) const;
  Vec3 flank(float u, float v) const;
  Vec3 tail(float u, float s) const;
  Vec3 limb(float id, float s) const;
  Vec3 back(float u, float s) const;

  const Individual& animal_;
  SkinLook look_;
  cv::Mat1f field_;
  float footprint_;
  std::uint32_t seed_;
};

}  // namespace evet::render
