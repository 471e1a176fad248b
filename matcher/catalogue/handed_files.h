// For a process that may open no file (matcher/photo/sandbox.h): what SQLite reads there is what was handed
// over, open for reading, under names of its own. Nothing that SQLite writes leaves the process's memory.
#pragma once
#include <filesystem>

#include "matcher/base/env.h"

namespace evet {

// From now on SQLite's only files in this process, for good. A descriptor stays open.
void hand_to_sqlite();
void hand_file(const std::filesystem::path& name, int descriptor);
// In memory, where a journal may be played back into it.
void hand_file(const std::filesystem::path& name, Bytes bytes);
// Errors: storage.
Bytes read_whole(int descriptor, const std::filesystem::path& name);

}  // namespace evet
