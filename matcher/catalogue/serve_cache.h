// The rows of a cache from elsewhere, in the process apart: what cache_apart.h asks for.
#pragma once
#include <string>

#include "matcher/photo/wire.h"

namespace evet {

// Answers until the asker has gone, which breaks the line.
void serve_cache(Line& line, const std::string& name, bool with_wal);

}  // namespace evet
