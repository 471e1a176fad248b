// Names as people count: c2 before c10.
#pragma once
#include <string>
#include <tuple>
#include <vector>

namespace evet {

// A text in pieces (letters, how long the number after them is, the number), so that numbers compare by value.
using NaturalKey = std::vector<std::tuple<std::string, size_t, std::string>>;
NaturalKey natural_key(const std::string& text);

}  // namespace evet
