// Spot maps of known animals, as a spot network gave them: what pairs are compared from.
//
// Layout of a file, little-endian, arrays one after the other:
//   char[8]  "EVMAPS01"
//   int32    count n, kMapRows, kMapCols, kMapFacts
//   uint8    n x kMapRows x kMapCols   probability that the skin is dark, 0 to 255; 0 where unknown
//   uint8    n x kMapRows x kMapCols   255 where known, else 0
//   float32  n x kMapFacts             world seed, individual, years
#pragma once
#include <filesystem>
#include <vector>

#include "tools/train/known_pairs.h"

namespace evet::train {

inline constexpr int kMapFacts = 3;

// The maps' whole patterns. Errors: bad_input, for a file of another kind or of another length.
std::vector<KnownPattern> read_map_shard(const std::filesystem::path& path);

}  // namespace evet::train
