// Whole numbers as people list them: "3-8" or "3,5,8", or both: "3-5,8,12".
#pragma once
#include <string>
#include <vector>

namespace evet {

// From 1 up, in the order in which they are listed. Errors: usage naming `item`.
std::vector<int> numbers_listed(const std::string& item, const std::string& text);

}  // namespace evet
