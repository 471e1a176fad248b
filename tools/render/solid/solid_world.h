// The second way to draw: animals as solid bodies, traced. It shares nothing with the drawn world but the
// words of scene.h and the files that are written.
#pragma once
#include "tools/render/scene.h"

namespace evet::render::solid {

// As render::render and render::skin_pattern, for World::solid.
RenderedPhoto photograph(const CaptureSpec& spec, bool look_alike = false);
cv::Mat1b pattern_of(std::uint64_t world_seed, std::uint32_t individual, double years, cv::Size canvas,
                     const Conditions& conditions);

}  // namespace evet::render::solid
