// The dark pattern of one animal's belly: grown by a rule from its seed, and ageing so that dark never turns
// back. Beyond the belly (|v| > 1, u < 0, u > 1) it goes on a little, for throats, flanks and tails that
// carry some of it.
#pragma once
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "tools/render/solid/dice.h"

namespace evet::render::solid {

const std::vector<std::string>& rule_names();

inline constexpr float kFirstU = -0.2F, kLastU = 1.2F, kFarthestV = 1.4F;

struct Pattern {
  cv::Mat1f distance;      // of the youngest pattern's edge, belly lengths, < 0 in the dark
  float spread = 0;        // belly lengths by which edges move outwards in many years
  float spread_years = 5;  // in which the first two thirds of it are done
  struct Dot {
    float u, across, born, most;  // across in belly lengths from the midline; most: its final radius
  };
  std::vector<Dot> dots;    // that appear with the years
  float half_skin = 0.16F;  // belly lengths from the midline to |v| = 1, along the skin

  // Belly lengths to the nearest edge, < 0 in the dark.
  float edge_distance(float u, float v, float years) const;
};

// `kind` decides scale, density and growth, `own` everything else: animals of one `kind` look alike.
Pattern grow_pattern(const std::string& rule, float half_skin, const Dice& kind, const Dice& own);

}  // namespace evet::render::solid
