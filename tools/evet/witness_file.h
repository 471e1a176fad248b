// Heads of a ledger that somebody has seen, in a small text file of their own: a line each, the hash, when it
// was seen, how many entries there were, and the root of the tree over them. Kept where the catalogue is not, it shows whether the ledger
// was ever cut back or written anew between two looks, whoever owns the folder.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "matcher/catalogue/audit.h"

namespace evet {

// None when the file is not there yet. Errors: bad_input naming the line.
std::vector<Witnessed> read_witnessed(const std::filesystem::path& file, Env& env);
// Adds a line, unless the last one has the same hash.
void add_witnessed(const std::filesystem::path& file, const std::string& hash, size_t entries,
                   const std::string& root, Env& env);

}  // namespace evet
