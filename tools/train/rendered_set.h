// Rendered captures with known identities, brought to strips: for fitting and scoring the matching.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "matcher/belly/strip.h"
#include "tools/render/scene.h"

namespace evet::train {

// Where strips come from: cut along the true body coordinates, or found as the product finds them.
enum class StripSource { truth, pipeline };

struct SetSpec {
  std::vector<std::uint64_t> worlds;  // fit 1..99, tune 100..199, score 200 and up
  std::uint32_t individuals = 100;    // of each world
  std::uint32_t captures = 3;
  render::Difficulty difficulty = render::Difficulty::middle;
  StripSource source = StripSource::truth;
  double wobble = 0.01;  // of strips cut along the truth
  cv::Size photo{1600, 1200};
  int threads = 2;
};

struct SetPhoto {
  std::uint64_t world = 0;
  std::uint32_t individual = 0, capture = 0;
  double years = 0;
  std::optional<Strip> strip;  // absent when no usable belly was found
  double p_head_right = 1;
  std::string why_not;  // then: the first blocking note's measure
};

// The strip that a perfect belly finder would cut, but for errors of the size that real ones make when
// `wobble` is above 0: the belly's coordinates are bent smoothly by about that share of the length and of the
// half-width.
Strip strip_from_truth(const render::RenderedPhoto& photo, double wobble, std::uint64_t seed);

// Years since the first capture: spread over what the difficulty allows, a part of a season at least.
double years_of(render::Difficulty difficulty, std::uint32_t individual, std::uint32_t capture,
                std::uint32_t captures);

// In order of world, individual, capture, whatever the number of threads.
std::vector<SetPhoto> rendered_set(const SetSpec& spec);

// A set kept on disk, so that a fit can be repeated without rendering again.
void save_set(const std::vector<SetPhoto>& set, const std::string& path);
std::vector<SetPhoto> load_set(const std::string& path);

}  // namespace evet::train
