// What two aligned spot maps say about each other, as numbers that a model turns into a likelihood ratio.
//
// Time runs one way: spots grow, neighbours merge and small ones appear, but a large spot does not go. So
// dark against clean ground counts by which map has the dark: spots that the later map lacks are `lost`,
// those that the earlier lacks are `gained`, and both count large clean areas only, never rims and never
// small dots.
#pragma once
#include <array>
#include <cstddef>
#include <string_view>
#include <vector>

#include "matcher/search/align.h"

namespace evet {

// Which of the two maps was photographed first. `unknown` treats both alike.
enum class Order { unknown, fixed_first, moving_first };

inline constexpr int kMeasures = 12;
inline constexpr std::array<std::string_view, kMeasures> kMeasureNames = {
    "fisher_z",     // atanh of the masked correlation after alignment
    "fine_z",       // the same for the detail left when broad structure is taken away
    "block_z",      // mean of the same over 8 x 2 blocks, weighted by what each can tell
    "information",  // fisher_z times the root of how many independent details were compared
    "lost",         // share of the earlier map's large spots that lie on the later's clean ground
    "gained",       // share of the later map's large spots that lie on the earlier's clean ground
    "strain",       // of the alignment, see strip_errors.h: square root, in standard deviations
    "moved",        // length of the mean displacement, in tenths of the half-width
    "code",         // normalised code distance of the best placement
    "overlap",      // valid in both, share of the canvas
    "described",    // cosine of the two descriptors
    "judged",       // by the pair network (pair_net.h), the mean of both orders when the order is unknown
};
using Measures = std::array<double, kMeasures>;

Measures measure(const AlignmentMaps& fixed, const AlignmentMaps& moving, const Alignment& alignment,
                 double code_distance, double cosine_similarity, Order order);

// A spot of the fixed map and its counterpart in the moving one, as indices into their lists.
struct SpotPair {
  std::size_t fixed = 0, moving = 0;
};

// Spots of `fixed` that have a counterpart in `moving`: the other's centroid falls within the larger one's
// radius of it (at least a fiftieth of the length) and neither is more than three times the other's area.
std::vector<SpotPair> spot_pairs(const std::vector<Spot>& fixed, const std::vector<Spot>& moving,
                                 const Alignment& alignment);
int matched_spots(const std::vector<Spot>& fixed, const std::vector<Spot>& moving,
                  const Alignment& alignment);

}  // namespace evet
