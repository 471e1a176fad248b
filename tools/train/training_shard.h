// Rendered photographs with their truth, packed for training: one file, a shard, holds some hundred of them.
//
// A picture is letterboxed to kPicture x kPicture (centred, padding grey 128); its truth lies on a grid half
// as fine. Layout of a shard, little-endian, arrays one after the other:
//   char[8]  "EVTRAIN1"
//   int32    count n, kPicture, kTruth, kFacts
//   uint8    n x kPicture x kPicture x 3   pictures, RGB
//   uint8    n x kTruth x kTruth           flags: 1 belly, 2 animal, 4 clear, 8 u and v are known; the
//                                          part of the body (render::BodyPart) times 16
//   int16    n x kTruth x kTruth x 2       u and v times kUvScale; 0 where unknown
//   float32  n x kFacts                    facts, in the order of `Fact`, then the midline, x and y in
//   picture
//                                          pixels, 65 points, throat fold first
#pragma once
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "tools/render/scene.h"

namespace evet::train {

inline constexpr int kPicture = 448;
inline constexpr int kTruth = kPicture / 2;
inline constexpr float kUvScale = 8192;
inline constexpr int kMidlinePoints = 65;

inline constexpr float kSolidNames = 100;

enum Fact {
  kDifficulty,  // 0 gentle, 1 middle, 2 hardest, 3 wild
  kSubject,     // as in render::Subject, 0 = belly
  kMechanism,   // place in the world's render::mechanisms(), -1 where there is none; kSolidNames added for
                // the solid world, and so with the two below
  kBackground,
  kLight,
  kWorldSeed,
  kIndividual,
  kCapture,
  kLength,  // of the belly along its midline, picture pixels
  kBend,    // degrees
  kRoll,    // half-widths
  kWidth,   // of the photo inside the letterbox, picture pixels
  kHeight,
  kWorldKind,  // 0 drawn, 1 solid
  kMidline = 16,
  kFacts = kMidline + 2 * kMidlinePoints
};

struct Sample {
  std::vector<std::uint8_t> picture, flags;
  std::vector<std::int16_t> uv;
  std::vector<float> facts;
};

// What to draw for the `index`-th sample of a shard. Shards of one number are the same everywhere. `tuning`
// shards take world seeds 100 to 199, others 1 to 99; 200 and up are never drawn, they are for scores.
struct Draw {
  render::CaptureSpec spec;
  double oversampling = 1;  // how much larger than the letterbox the photo is rendered before it is reduced
};
Draw draw(std::uint32_t shard, std::uint32_t index, bool tuning);

Sample pack(const Draw& drawn, const render::RenderedPhoto& photo);

// Written beside `path` and then renamed, so that a reader never meets half a shard.
void write_shard(const std::filesystem::path& path, const std::vector<Sample>& samples);

}  // namespace evet::train
