#include "tools/render/individual.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "tools/render/choose.h"
#include "tools/render/mechanisms.h"

namespace evet::render {

namespace {

SkinColours draw_colours(Rng rng) {
  SkinColours colours;
  // Pale yellow 54 degrees to orange-red 14 degrees; most are orange.
  double hue = rng.chance(0.7) ? rng.uniform(22, 42) : rng.uniform(14, 54);
  double saturation = rng.chance(0.2) ? rng.uniform(0.45, 0.7) : rng.uniform(0.72, 0.97);
  const double value = rng.uniform(0.78, 0.99);
  Rng rare = rng.fork(1);
  if (rare.chance(0.07)) {
    hue = rare.uniform(40, 60);  // lemon
  } else if (rare.chance(0.06)) {
    hue = rare.uniform(8, 16);  // red
  }
  if (rare.chance(0.06)) saturation = rare.uniform(0.25, 0.45);  // cream
  colours.ground = hsv(hue, saturation, value);
  colours.ground_patch =
      hsv(hue + rng.uniform(-13, 16), saturation * rng.uniform(0.6, 1.05), value * rng.uniform(0.8, 1.08));
  colours.dark = hsv(rng.chance(0.3) ? rng.uniform(200, 260) : rng.uniform(15, 50), rng.uniform(0.05, 0.45),
                     rng.uniform(0.07, 0.30));
  colours.flank = hsv(rng.uniform(20, 60), rng.uniform(0.1, 0.4), rng.uniform(0.10, 0.30));
  colours.flank_dot = hsv(rng.uniform(30, 220), rng.uniform(0, 0.15), rng.uniform(0.6, 0.9));
  colours.throat = mix(colours.ground, rng.chance(0.5) ? hsv(hue + 8, 0.45, 0.8) : hsv(30, 0.3, 0.3),
                       rng.uniformf(0.2, 0.9));
  colours.throat_dot = rng.chance(0.5) ? colours.dark : colours.flank_dot;
  return colours;
}

Rng rng_of(std::uint64_t world_seed, std::uint32_t individual) {
  return Rng(mix64(mix64(world_seed, 0x5ca1e), individual));
}

// Share of dark in fiftieths, and number of spots in octaves: one of each is about as easily seen.
std::array<double, 2> density(const cv::Mat1b& dark) {
  cv::Mat1i labels;
  const int spots = cv::connectedComponents(dark, labels, 8) - 1;
  return {50 * dark_share(dark), std::log2(1 + spots)};
}

}  // namespace

Individual make_look_alike(std::uint64_t world_seed, std::uint32_t individual, const Conditions& conditions) {
  constexpr std::uint64_t kGrown = 8;
  const Rng rng = rng_of(world_seed, individual);
  Individual animal = make_individual(world_seed, individual, conditions);
  const auto own = density(grow_pattern(animal.mechanism, rng.fork(2)));
  cv::Mat1b likest;
  double least = 0;
  for (std::uint64_t k = 1; k <= kGrown; ++k) {
    const cv::Mat1b dark = grow_pattern(animal.mechanism, rng.fork(2).fork(k));
    const auto other = density(dark);
    const double apart = std::hypot(other[0] - own[0], other[1] - own[1]);
    if (likest.empty() || apart < least) likest = dark, least = apart;
  }
  animal.pattern = PatternField(likest, rng.fork(3).fork(1));
  animal.seed = mix64(animal.seed, 1);
  return animal;
}

Individual make_individual(std::uint64_t world_seed, std::uint32_t individual, const Conditions& conditions) {
  const Rng rng = rng_of(world_seed, individual);
  Individual animal;
  animal.seed = mix64(world_seed, individual);
  const bool foreign = conditions.foreign;
  animal.mechanism =
      choose_name(foreign ? foreign_mechanism_names() : mechanism_names(), conditions.only_mechanisms,
                  conditions.without_mechanisms, rng.fork(1), foreign ? "foreign mechanism" : "mechanism");
  animal.pattern = PatternField(grow_pattern(animal.mechanism, rng.fork(2)), rng.fork(3));
  animal.colours = draw_colours(rng.fork(4));
  Rng shape = rng.fork(5);
  animal.patchiness = shape.uniformf(0, 0.9);
  animal.patch_scale = shape.uniformf(3, 12);
  animal.halo = shape.chance(0.4) ? shape.uniformf(0.1, 0.5) : 0;
  animal.edge_softness = shape.uniformf(0.001, 0.006);
  animal.edge_wave = shape.uniformf(0.05, 0.25);
  animal.throat_darkness = shape.uniformf(0.1, 1);
  animal.hue_drift_per_year = shape.uniformf(-2, 2.5);
  animal.half_width = shape.uniformf(0.115, 0.165);
  animal.belly_share = shape.uniformf(0.41, 0.47);
  animal.head_length = shape.uniformf(0.24, 0.31);
  animal.head_width = shape.uniformf(0.72, 0.95);
  animal.tail_length = shape.uniformf(0.75, 1.15);
  animal.tail_width = shape.uniformf(0.3, 0.5);
  animal.keel = shape.uniformf(0.25, 0.7);
  animal.limb_thickness = shape.uniformf(0.85, 1.25);
  Rng more = rng.fork(6);
  // On some animals the dark of the flanks comes far round to the belly's side.
  if (more.chance(0.25)) animal.belly_share = more.uniformf(0.37, 0.41);
  animal.shoulder = more.uniformf(-0.06, 0.08);
  animal.hip = more.uniformf(-0.08, 0.09);
  animal.flank_blend = more.chance(0.6) ? 0.02f : more.uniformf(0.02, 0.14);
  animal.flank_stipple = more.uniformf(0.1, 1);
  animal.stipple_pitch = more.uniformf(24, 52);
  animal.limb_dark = more.uniformf(-0.45, 0.4);
  animal.grooves = more.chance(0.4) ? more.uniformf(0.02, 0.12) : 0;
  animal.vent_dark = more.chance(0.2) ? more.uniformf(0, 0.2) : more.uniformf(0.3, 1);
  if (more.chance(0.25)) {
    // The belly's colour, and sometimes its spots, run on to the chin.
    animal.throat_spots = more.uniformf(0, 1);
    animal.throat_darkness *= 0.3f;
    animal.colours.throat = mix(animal.colours.throat, animal.colours.ground, more.uniformf(0.6, 1));
  }
  return animal;
}

}  // namespace evet::render
