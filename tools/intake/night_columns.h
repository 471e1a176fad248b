// The columns of a sheet that tell of its nights and not of captures.
#pragma once
#include <string>
#include <vector>

namespace evet {

// By the keys of tools/words/night_fields.h.
const std::vector<std::string>& night_columns();

}  // namespace evet
