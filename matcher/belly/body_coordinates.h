// Where on the animal each pixel of a photo lies.
//
// Body coordinates: u runs along the belly from the throat fold (0) to the vent (1); v runs across the
// unrolled belly skin from -1 (the edge that lies left when the head is up in the picture) over the midline
// (0) to +1 (right edge). Both belong to the skin: a rolled animal shows, say, v from -0.5 to 1.
#pragma once
#include <opencv2/core.hpp>
#include <string>

namespace evet {

// Dense, on a grid of its own (network: coarse; from a user's midline: any). Pixel centres are at +0.5.
// Found by nobody: all maps empty, confidence 0.
struct BodyCoordinates {
  cv::Mat1f p_belly;  // [0,1]: this pixel shows belly skin, |v| <= 1 and 0 <= u <= 1
  cv::Mat1f p_clear;  // [0,1]: and shows it plainly: no glare, finger, net or leaf over it
  cv::Mat2f uv;       // meaningful where p_belly is high
  // [0,1]: this cell shows that part of the body; empty where the source knows no parts.
  cv::Mat1f p_head, p_fore_limb, p_hind_limb, p_tail;
  cv::Mat1f error;              // expected error of u (v's is kVErrorPerU as large); empty: not known
  cv::Matx23d photo_from_grid;  // photo (x, y) in pixels of Photo::bgr from grid (x, y)
  double steepness = 0;     // of u along the belly against its expected error, as HeadEvidence; 0: not told
  double p_head_right = 1;  // probability that u runs from head to vent and not the other way
  double confidence = 0;    // [0,1]: how far this map should be trusted; low asks for the fallback
  double p_animal = 0;      // [0,1]: that the picture shows any part of an animal, belly or not
  double p_small_kind = 0;  // [0,1]: that the animal, if there is one, shows a small species' underside
  std::string source;       // "network", "geometry" or "midline" (a user's own points)
};

// A half-width is about a seventh of the belly's length, so an error of a pixel weighs more in v than in u.
inline constexpr double kVErrorPerU = 4;

// The same skin read with the other end as the head: u -> 1 - u, v -> -v, p_head_right -> 1 - p_head_right.
BodyCoordinates turned_end_for_end(const BodyCoordinates& coordinates);

}  // namespace evet
