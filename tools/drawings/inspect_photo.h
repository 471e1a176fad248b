// `evet inspect`: one photo, every stage of it as a picture and its measures as JSON, in a folder.
#pragma once
#include <filesystem>
#include <nlohmann/json.hpp>

#include "matcher/base/env.h"
#include "matcher/belly/find_belly.h"

namespace evet {

struct InspectOptions {
  BellyOptions belly;
};

// Writes `<stage>.png` or `.jpg` and `quality.json` into `out` (made if it is not there), and returns what it
// wrote to quality.json: {"photo", "usable", "source", "confidence", "p_head_right", "quality", "notes",
// "drawings"} and, where a strip was cut, "geometry": {"midline", "left_edge", "right_edge", "outline",
// "throat", "vent": pixels x, y of the full-size upright photo; "p_head_right", "p_laid_right"}. Errors:
// those of read_file and decode_photo for the photo, and of check_can_make_folder for `out`, told first;
// storage when the disk fails.
nlohmann::json inspect_photo(const std::filesystem::path& photo, const std::filesystem::path& out, Env& env,
                             const InspectOptions& options = {});

}  // namespace evet
