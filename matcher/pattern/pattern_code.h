// A pattern as bits: the signs of the band-passed spot map at fixed places.
//
// Four filters (differences of Gaussians at two scales, and the slope along u and along v), each read on a
// grid of 32 places along the belly and 16 across: bit ((filter * 32 + place along) * 16 + place across). A
// bit is known where enough skin is valid under the filter and the response is not too weak to trust its
// sign. After J. Daugman, Pattern Recognition 36:279 (2003): phase bits with masks, compared by the share of
// differing bits among those known in both.
#pragma once
#include <array>
#include <opencv2/core.hpp>

#include "matcher/pattern/pattern.h"
#include "matcher/pattern/placement.h"

namespace evet {

inline constexpr int kCodeFilters = 4;
inline constexpr int kCodeAlong = 32;
inline constexpr int kCodeAcross = 16;
static_assert(kCodeFilters * kCodeAlong * kCodeAcross == 64 * PatternCode::kWords);

// Filter responses of a whole map, so that many placements can be read from them at little cost.
struct BandResponses {
  std::array<cv::Mat1f, kCodeFilters> value;  // map frame; 0 where unknown
  std::array<float, kCodeFilters> weakest{};  // magnitudes below this are not trusted; unknown is below too
};
BandResponses band_responses(const SpotMap& map);

// The code as it would be had the pattern lain at `placement`: the bit at (u, v) is read at placement(u, v).
PatternCode read_code(const BandResponses& responses, const Placement& placement = {});

}  // namespace evet
