// What scene.h offers of both ways to draw.
#include "tools/render/background.h"
#include "tools/render/individual.h"
#include "tools/render/light.h"
#include "tools/render/mechanisms.h"
#include "tools/render/pattern_field.h"
#include "tools/render/scene.h"
#include "tools/render/solid/capture_plan.h"
#include "tools/render/solid/pattern.h"
#include "tools/render/solid/solid_world.h"

namespace evet::render {

std::vector<std::string> mechanisms(World world) {
  return world == World::solid ? solid::rule_names() : mechanism_names();
}
std::vector<std::string> backgrounds(World world) {
  return world == World::solid ? solid::setting_names() : background_names();
}
std::vector<std::string> lights(World world) {
  return world == World::solid ? solid::lighting_names() : light_names();
}
RenderedPhoto render(const CaptureSpec& spec) {
  if (spec.world == World::solid) return solid::photograph(spec);
  return render(make_individual(spec.world_seed, spec.individual, spec.conditions), spec);
}

cv::Mat1b skin_pattern(std::uint64_t world_seed, std::uint32_t individual, double years, cv::Size canvas,
                       const Conditions& conditions, World world) {
  if (world == World::solid) return solid::pattern_of(world_seed, individual, years, canvas, conditions);
  const cv::Mat1f field = make_individual(world_seed, individual, conditions).pattern.at_years(years);
  cv::Mat1b dark(canvas);
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c) {
      const float u = (static_cast<float>(r) + 0.5f) / static_cast<float>(dark.rows),
                  v = (static_cast<float>(c) + 0.5f) / static_cast<float>(dark.cols) * 2 - 1;
      dark(r, c) = sample_field(field, u, v) < 0 ? 255 : 0;
    }
  return dark;
}

}  // namespace evet::render
