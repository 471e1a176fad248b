// A place told so coarsely that it gives no protected site away.
//
// Coordinates are replaced by the middle of the cell of a fixed grid of 0.1 degree in which they lie, with the
// distance to the cell's farthest corner as their uncertainty. The grid is the same for everybody and no chance is in
// it: many records of one pond cannot be averaged back to the pond. Source: Chapman 2020, Current Best Practices for
// Generalizing Sensitive Species Occurrence Data (GBIF Secretariat, doi 10.15468/doc-5jp4-5g10), which generalises to
// 0.1 degree where a precise place could do high harm; the article is quoted from memory.
#pragma once
#include <string>

namespace evet {

inline constexpr double kCoarseCellDeg = 0.1;

struct CoarsePlace {
  double latitude = 0, longitude = 0;  // of the cell's middle, WGS 84, degrees
  double uncertainty_m = 0;            // from there to the cell's farthest corner
  friend bool operator==(const CoarsePlace&, const CoarsePlace&) = default;
};

CoarsePlace coarse_place(double latitude, double longitude);

// "within the cell of 0.1° round 52.15° N, 1.45° W (about 11 km by 7 km)".
std::string in_words(const CoarsePlace& place);
// "52.12500° N, 1.50000° W".
std::string exact_place(double latitude, double longitude);

}  // namespace evet
