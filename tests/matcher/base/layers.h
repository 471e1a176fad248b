// The lists of matcher/README.md, and what in a source file breaks them.
#pragma once
#include <map>
#include <set>
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

// Path of a file -> paths of the files that it takes in.
using Includes = std::map<std::string, std::vector<std::string>>;

// The project's own files that a source includes: "matcher/base/error.h".
std::vector<std::string> own_includes(const std::string& source);
// The scripts beside it that a script imports, at its head or later on, by their paths.
std::vector<std::string> own_imports(const std::string& path, const std::string& script);

// The single files of the list's left side, without their endings: layers of their own.
std::set<std::string> files_as_layers(const Rules& rules);

// Circles of includes. A header and its source file count as one, named without the ending; so does each
// folder as seen from the one that it lies in. One line a circle, its members sorted: "models/ask
// models/estimate"; sorted. Files that are layers of their own stand beside the folders, not in one of them.
std::vector<std::string> circles(const Includes& includes, const std::set<std::string>& layers = {});

}  // namespace evet::layers
