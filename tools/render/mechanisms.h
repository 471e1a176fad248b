// The ways in which a skin comes by its dark pattern. All give dark cells on the canvas of pattern_field.h.
#pragma once
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "tools/render/rng.h"

namespace evet::render {

std::vector<std::string> mechanism_names();
std::vector<std::string> foreign_mechanism_names();  // kept back from training

// 255 where dark, for a name of either list. Includes ragged edges; on some skins that are not foreign also
// inner holes and a second sprinkling of small dots.
cv::Mat1b grow_pattern(const std::string& mechanism, Rng rng);

// The share of the belly (|v| <= 1, 0 <= u <= 1) that is dark.
double dark_share(const cv::Mat1b& dark);

namespace detail {

// A field is high where the skin tends to be dark; grow_pattern() adds gradients and cuts it.
cv::Mat1f reaction_diffusion_field(Rng rng);  // Gray-Scott: spots, worms or nets
cv::Mat1f turing_field(Rng rng);              // short-range activation, long-range inhibition
cv::Mat1f blob_field(Rng rng);                // many noise-warped discs
cv::Mat1f blotch_field(Rng rng);              // a few big merged blotches
cv::Mat1f dot_field(Rng rng);                 // sparse fine dots
cv::Mat1f bar_field(Rng rng);                 // broken bars across
cv::Mat1f anisotropic_noise_field(Rng rng);
cv::Mat1f mirrored_field(Rng rng);  // nearly symmetric about the midline
cv::Mat1f net_field(Rng rng);       // dark net with islands of ground
cv::Mat1f trail_field(Rng rng);     // meandering chains of spots along the body
cv::Mat1f row_field(Rng rng);       // rows of spots along the sides, the middle nearly free
cv::Mat1f tongue_field(Rng rng);    // dark that comes in from the flanks
cv::Mat1f sprinkle_field(Rng rng);  // a few large spots among very many small ones
// Kept back from training.
cv::Mat1f mosaic_field(Rng rng);    // straight-edged tiles, each dark or not
cv::Mat1f lattice_field(Rng rng);   // nodes of a jittered lattice and lines between them
cv::Mat1f shatter_field(Rng rng);   // angular shards
cv::Mat1f ring_field(Rng rng);      // spots with hollow centres, some of them open
cv::Mat1f wave_field(Rng rng);      // straight and round waves that cross
cv::Mat1f scribble_field(Rng rng);  // wandering strokes

// One spot: a disc, stretched, turned and warped by noise. Raises `field` to at least 1 - distance/radius.
struct Spot {
  float row, col, radius, stretch, angle, warp;
  std::uint32_t seed;
};
inline constexpr float kNoSpot = -1.5f;  // far from every spot
void raise_spot(cv::Mat1f& field, const Spot& spot);

}  // namespace detail
}  // namespace evet::render
