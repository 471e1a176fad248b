// Training strips as the product cuts them: where the belly finder found the belly, not where it is.
#pragma once
#include <optional>

#include "tools/train/strip_shard.h"

namespace evet::train {

// `valid` is belly skin plainly seen, so 0 on flanks, limbs and floor that the strip took in. None where the
// finder gives no usable strip.
std::optional<StripSample> cut_as_found(const render::CaptureSpec& spec, const render::RenderedPhoto& photo);

}  // namespace evet::train
