// Brings one spot map onto another by a smooth deformation.
//
// From a rough placement, a grid of displacements (linear between its nodes) is fitted to the two maps by
// Gauss-Newton steps, first on quarter-size maps and then on half-size ones. What displacements cost was
// learned from how strips of one animal lie apart (strip_errors.h); only skin valid in both counts.
// Methods: image registration by Gauss-Newton, Baker & Matthews 2004, IJCV 56:221; free-form deformation on a
// grid, Rueckert et al. 1999, IEEE Trans. Med. Imaging 18:712.
#pragma once
#include <opencv2/core.hpp>

#include "matcher/pattern/pattern.h"
#include "matcher/pattern/placement.h"
#include "matcher/search/strip_errors.h"

namespace evet {

// A spot map reduced for alignment: dark share in [0,1] and weight in [0,1] (0 unknown).
struct Level {
  cv::Mat1f dark, weight;
  double variance = 0.1;  // of the dark share where known
};
struct AlignmentMaps {
  Level coarse;  // 64 x 20, smoothed
  Level fine;    // 128 x 40, lightly smoothed
};
AlignmentMaps alignment_maps(const SpotMap& map);

struct AlignOptions {
  int coarse_steps = 6;
  int fine_steps = 4;
  // What aligned maps of one animal still differ by, as a share of their own variance, times the number of
  // pixels of the coarse maps that err together: how much the prior weighs against the maps.
  double unlike = 3;
  void check() const;
};

// (u, v) of the fixed map -> (u, v) of the moving map: (u, v) + flow, linear between nodes.
struct Alignment {
  Flow flow{};
  double correlation = 0;  // masked, of the maps last worked on, -1 .. 1
  double overlap = 0;      // valid in both, share of the canvas
  cv::Point2d at(double u, double v) const;
};

// In two parts, so that several starts can be tried on the coarse maps and only the best
// finished on the fine.
Alignment align_coarse(const AlignmentMaps& fixed, const AlignmentMaps& moving, const Placement& start,
                       const AlignOptions& options = {});
void align_fine(const AlignmentMaps& fixed, const AlignmentMaps& moving, Alignment& alignment,
                const AlignOptions& options = {});

// The moving level drawn in the fixed frame.
Level drawn_onto(const Level& moving, const Alignment& alignment);

// Correlation of two levels of one size, weighted by the product of their weights; 0 when nothing overlaps.
double masked_correlation(const Level& a, const Level& b);

}  // namespace evet
