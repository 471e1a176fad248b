// The measures of a photo's quality as JSON: {"sharpness", "glare_share", "dark_share", "seen_share",
// "belly_length_px", "bend_deg", "roll", "p_belly"}, and "belly_length_mm" with "belly_length_error_mm" where
// a scale lay beside the animal.
#pragma once
#include <nlohmann/json.hpp>

#include "matcher/belly/quality.h"

namespace evet {

nlohmann::json json_of(const Quality& quality);
// What is not there stays 0. Errors: bad_input for a measure that is no number.
Quality quality_of(const nlohmann::json& json);

}  // namespace evet
