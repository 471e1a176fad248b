// Rendered captures with known identities, as photo files and as strips: for fitting and
// scoring the matching.
#pragma once
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "matcher/belly/strip.h"
#include "matcher/pattern/pattern.h"
#include "tools/render/scene.h"

namespace evet::train {

inline constexpr std::uint64_t kFirstScoredWorld = 200;

struct SetSpec {
  std::uint64_t world = 1;  // fit 1..99, tune 100..199, score 200 and up
  std::uint32_t first = 0;  // individuals first .. first + individuals - 1
  std::uint32_t individuals = 100;
  std::uint32_t captures = 3;     // of each; the most when they vary
  bool varied = false;            // individual i is caught 2 + i % (captures - 1) times
  bool look_alikes = false;       // not the individuals, but one that looks like each
  std::uint32_t last_photos = 1;  // photos of the last capture; one of each other
  render::Difficulty difficulty = render::Difficulty::middle;
  render::Subject subject = render::Subject::belly;
  bool foreign = false;  // conditions kept back from fits and tuning: worlds from 200 up only
  render::World drawing = render::World::drawn;  // the way to draw
  cv::Size photo{1024, 768};
  std::string name() const;  // says all of the above; a file name
};

// One photo that a set holds of an individual.
struct PlannedPhoto {
  std::uint32_t capture = 0, photo = 0;  // photo 0, 1, ... of the capture
  bool last = false;                     // of the individual's last capture
  double years = 0;                      // since the individual's first capture
};
// In order of time; where captures vary, the time before the last one does not go with their number.
// Photos of one capture show the animal at one age, each in a pose, on a floor and in a
// light of its own: more varied than one session's photos would be.
std::vector<PlannedPhoto> planned_photos(const SetSpec& spec, std::uint32_t individual);

// Look-alikes have numbers of their own: this and the number of whom they look like.
inline constexpr std::uint32_t kLookAlikes = 500000;

// What is known of a rendered photo.
struct PhotoFacts {
  std::uint32_t individual = 0;
  PlannedPhoto plan;
  std::string mechanism, background, light;
};

struct SetPhoto {
  PhotoFacts facts;
  std::vector<std::byte> jpeg;  // as a camera would have written it
  Strip true_strip;             // cut along the true body coordinates
};

render::Difficulty difficulty_named(const std::string& name);  // "gentle", "middle", "hardest"

// Where strips come from: cut along the truth, or found as the product finds them.
enum class StripSource { truth, pipeline };

struct SetStrip {
  PhotoFacts facts;
  std::optional<Strip> strip;  // absent when no usable belly was found
  double p_head_right = 1, p_laid_right = 1;
  std::string why_not;  // then: the first blocking note's measure
};
// The pattern of a strip that is there, with the doubt about how it was laid, as the product makes it.
Pattern pattern_of(const SetStrip& found);

// Years since the first capture: spread over what the difficulty allows, a part of a season at least.
double years_of(render::Difficulty difficulty, std::uint32_t individual, std::uint32_t capture,
                std::uint32_t captures);

// The strip that a perfect belly finder would cut.
Strip strip_from_truth(const render::RenderedPhoto& photo);

// In order of individual, then time, whatever the number of threads.
std::vector<SetPhoto> rendered_set(const SetSpec& spec, int threads = 2);
std::vector<SetStrip> strips_of(const std::vector<SetPhoto>& set, StripSource source, int threads = 2);

// The same, kept in `folder` under the set's name so that a fit can be repeated without rendering again; an
// empty folder keeps nothing. Delete the files when the renderer or the belly finder has changed.
void keep_rendered(const SetSpec& spec, const std::filesystem::path& folder, int threads = 2);
std::vector<SetPhoto> kept_set(const SetSpec& spec, const std::filesystem::path& folder, int threads = 2);
std::vector<SetStrip> kept_strips(const SetSpec& spec, StripSource source,
                                  const std::filesystem::path& folder, int threads = 2);

}  // namespace evet::train
