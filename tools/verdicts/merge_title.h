// Are two catalogues about to be merged that were never one?
#pragma once
#include "tools/verdicts/objections.h"

namespace evet {

// "another_title" where neither began as a copy of the other and they bear different titles; or nothing.
std::vector<Against> objections_to_merge(const Catalogue& into, const Catalogue& other);

}  // namespace evet
