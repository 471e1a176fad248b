// The demo's two survey seasons at a pond that does not exist: who is caught on which night, how each photo
// is taken, and what stands on the sheet. Every photograph follows from the seed.
#pragma once
#include <cstdint>
#include <vector>

#include "tools/render/night.h"

namespace evet::render {

struct DemoScenario {
  std::vector<NightPhoto> earlier, last_night;
};
DemoScenario demo_scenario(std::uint64_t seed, cv::Size size = {1600, 1200});

}  // namespace evet::render
