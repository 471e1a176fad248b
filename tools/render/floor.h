// A floor, as a function of the place.
#pragma once
#include <functional>

#include "tools/render/vec.h"

namespace evet::render {

// Albedo of the floor at a place (world frame, belly lengths); `footprint`: distance between samples, for
// patterns that fade where they are finer than a pixel.
using Floor = std::function<Vec3(Vec2 place, float footprint)>;

}  // namespace evet::render
