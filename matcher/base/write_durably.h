// Files and folders that are on the disk once the call returns, whole or not at all.
#pragma once
#include "matcher/base/env.h"

namespace evet {

// The folder and those above it that are missing, each one's name on the disk when it returns.
void make_folders_durably(Env& env, const std::filesystem::path& path);

// Writes so that after a power cut `path` holds either all of `bytes` or what it held before. A link stays
// and what it leads to is written. Into a device or a pipe the bytes go as they are: it is never replaced.
// Parts that an earlier attempt for the same path left behind, killed half-way, are taken away.
void write_file_durably(Env& env, const std::filesystem::path& path, BytesView bytes);

}  // namespace evet
