// Compared pairs in a file of comma-separated values, so that a model can be fitted again without rendering.
#pragma once
#include <filesystem>
#include <vector>

#include "tools/train/known_pairs.h"

namespace evet::train {

// One line a pair: same (1 or 0), weight, independent, query, gallery, animal, then the measures under their
// names. Errors: storage.
void write_pairs(const std::vector<ComparedPair>& pairs, const std::filesystem::path& path);

// Errors: bad_input, with the line, for a file of other measures or a line that is not such a pair.
std::vector<ComparedPair> read_pairs(const std::filesystem::path& path);
// Of several files; queries are numbered anew so that no two files share one. The numbers of gallery and
// animal stay those of their file.
std::vector<ComparedPair> read_pairs(const std::vector<std::filesystem::path>& paths);

}  // namespace evet::train
