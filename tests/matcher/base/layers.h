// The lists of matcher/README.md, and what in a source file breaks them.
#pragma once
#include <map>
#include <string>
#include <vector>

namespace evet::layers {

struct Rules {
  std::map<std::string, std::vector<std::string>> may_use;      // folder -> folders or files
  std::map<std::string, std::vector<std::string>> may_include;  // a library's header or folder -> folders
};

// Throws std::runtime_error for a block that is missing or a line that cannot be read.
Rules rules_of(const std::string& readme);

// One line a breach: "matcher/belly/x.cpp: includes ..., which ...".
std::vector<std::string> breaches(const Rules& rules, const std::string& path, const std::string& source);

}  // namespace evet::layers
