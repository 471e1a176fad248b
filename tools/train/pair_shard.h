// Compared pairs of spot maps, the one drawn onto the other, packed for training the pair network.
//
// Layout of a shard, little-endian, arrays one after the other:
//   char[8]  "EVPAIR01"
//   int32    count n, rows, columns (those of a fine alignment map), kPairFacts
//   uint8    n x 4 x rows x columns   fixed map: dark, weight; moving one drawn onto it: dark, weight
//   float32  n x kPairFacts           same (1 or 0); how many pairs it stands for; order (0 unknown,
//                                     1 fixed first, 2 moving first); the measures (evidence.h) but the
//                                     last, which is such a network's own
// Shares are 0 to 255.
#pragma once
#include <filesystem>
#include <vector>

#include "tools/train/known_pairs.h"

namespace evet::train {

inline constexpr int kPairFacts = 3 + kMeasures - 1;
static_assert(kMeasureNames.back() == "judged");

// `patterns` are what the pairs' indices mean. Errors: storage.
void write_pair_shard(const std::vector<KnownPattern>& patterns, const std::vector<ComparedPair>& pairs,
                      const std::filesystem::path& path);

}  // namespace evet::train
