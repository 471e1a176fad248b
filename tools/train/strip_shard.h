// Straightened bellies with their true pattern, packed for training: two captures of each
// animal, side by side.
//
// A strip is cut from a rendered photograph where the belly finder found it, errors, flanks and all
// (found_strip.h), or, where it found none, along the true body coordinates; on the frame of the spot map.
// Layout of a shard, little-endian, arrays one after the other:
//   char[8]  "EVSTRIP1"
//   int32    count n (even; samples 2 i and 2 i + 1 are one animal), kMapRows, kMapCols, kStripFacts
//   uint8    n x kMapRows x kMapCols x 3   strips, RGB; 128 where nothing was seen
//   uint8    n x kMapRows x kMapCols       255 where skin is plainly seen, 0 where covered, glaring or unseen
//   uint8    n x kMapRows x kMapCols       dark share of the skin there, 0 to 255, by the photo's truth
//   uint8    n x kMapRows x kMapCols       the whole true pattern at that age, also where out of sight
//   float32  n x kStripFacts               facts, in the order of `StripFact`
#pragma once
#include <cstdint>
#include <filesystem>
#include <vector>

#include "matcher/pattern/pattern.h"
#include "tools/render/scene.h"

namespace evet::train {

enum StripFact {
  kStripDifficulty,
  kStripMechanism,  // place in the world's render::mechanisms()
  kStripWorldSeed,
  kStripIndividual,
  kStripYears,
  kStripLength,
  kStripRoll,
  kStripWorldKind,  // 0 drawn, 1 solid
  kStripFacts = 8
};

struct StripSample {
  std::vector<std::uint8_t> rgb, valid, dark, pattern;
  std::vector<float> facts;
};

// The two captures of the `index`-th animal of a shard; world seeds as for training shards.
std::pair<render::CaptureSpec, render::CaptureSpec> draw_pair(std::uint32_t shard, std::uint32_t index,
                                                              bool tuning);

// Along the truth.
StripSample cut(const render::CaptureSpec& spec, const render::RenderedPhoto& photo);

// The whole true pattern and the facts, the same however the strip was cut.
void add_facts(StripSample& sample, const render::CaptureSpec& spec, const render::Truth& truth);

void write_strip_shard(const std::filesystem::path& path, const std::vector<StripSample>& samples);

}  // namespace evet::train
