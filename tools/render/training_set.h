// A flat training set of rendered photographs for fitting networks. The format is described in README.md.
#pragma once
#include <filesystem>

#include "tools/render/scene.h"

namespace evet::render {

struct TrainingOptions {
  std::uint64_t world_seed = 1;
  std::uint32_t first_individual = 0;
  int samples = 1000;
  int captures_per_individual = 4;
  int long_side_px = 400;   // of the rendered picture, before it is reduced to the network's input
  double wild_share = 0.5;  // of the pictures, beyond nature
  int threads = 1;
  Conditions conditions;  // its lists; the difficulty and `wild` are drawn for each sample
  void check() const;     // throws std::invalid_argument
};

inline constexpr int kInputSide = 256, kTargetSide = 128, kFacts = 16;

// What a training sample shows: everything follows from the options' seeds and the sample's index.
CaptureSpec training_spec(const TrainingOptions& options, int sample);

// One sample in the layout of the files.
struct TrainingSample {
  std::vector<std::uint8_t> input;   // kInputSide^2 x 3, RGB, letterboxed
  std::vector<std::uint8_t> shares;  // kTargetSide^2 x 4: belly, clear, animal, dark
  std::vector<std::uint16_t> uv;     // kTargetSide^2 x 2, IEEE half floats
  std::vector<float> facts;          // kFacts
};
TrainingSample to_sample(const CaptureSpec& spec, const RenderedPhoto& photo);

// Writes or goes on with the set in `folder`; returns how many samples were rendered this time.
int write_training_set(const std::filesystem::path& folder, const TrainingOptions& options);

}  // namespace evet::render
