#include "tests/matcher/base/layers.h"

#include <algorithm>
#include <regex>
#include <sstream>
#include <stdexcept>

namespace evet::layers {
namespace {

std::vector<std::string> words(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> list;
  for (std::string word; stream >> word;) list.push_back(word);
  return list;
}

// Lines "left : right" of the fenced block of this name.
std::vector<std::pair<std::vector<std::string>, std::vector<std::string>>> block(const std::string& readme,
                                                                                 const std::string& name) {
  const size_t start = readme.find("```" + name + "\n");
  const size_t end = start == std::string::npos ? start : readme.find("\n```", start + 3);
  if (end == std::string::npos) throw std::runtime_error("the block '" + name + "' is missing");
  std::istringstream lines(readme.substr(start, end - start));
  std::string line;
  std::getline(lines, line);
  std::vector<std::pair<std::vector<std::string>, std::vector<std::string>>> list;
  while (std::getline(lines, line)) {
    const size_t colon = line.find(':');
    if (colon == std::string::npos) throw std::runtime_error("a line without colon: " + line);
    list.emplace_back(words(line.substr(0, colon)), words(line.substr(colon + 1)));
  }
  return list;
}

// Whether `path` is `place` or lies in it.
bool lies_in(const std::string& path, const std::string& place) {
  return path == place || path.rfind(place + "/", 0) == 0;
}
bool lies_in_any(const std::string& path, const std::vector<std::string>& places) {
  return std::any_of(places.begin(), places.end(), [&](const auto& place) { return lies_in(path, place); });
}

}  // namespace

Rules rules_of(const std::string& readme) {
  Rules rules;
  for (const auto& [left, right] : block(readme, "layers"))
    for (const std::string& folder : left) rules.may_use[folder] = right;
  for (const auto& [left, right] : block(readme, "libraries"))
    for (const std::string& library : left) rules.may_include[library] = right;
  return rules;
}

std::vector<std::string> breaches(const Rules& rules, const std::string& path, const std::string& source) {
  std::vector<std::string> found;
  const auto of_folder = std::find_if(rules.may_use.begin(), rules.may_use.end(),
                                      [&](const auto& rule) { return lies_in(path, rule.first); });
  if (of_folder == rules.may_use.end()) return {path + ": its folder is not in the list of layers"};
  static const std::regex kInclude(R"re(^\s*#\s*include\s*([<"])([^>"]+)[>"])re");
  std::istringstream lines(source);
  for (std::string line; std::getline(lines, line);) {
    std::smatch match;
    if (!std::regex_search(line, match, kInclude)) continue;
    const std::string target = match[2];
    if (lies_in_any(target, {"matcher", "models", "tools", "tests"})) {
      if (!lies_in(target, of_folder->first) && !lies_in_any(target, of_folder->second))
        found.push_back(path + ": includes " + target + ", which is not below " + of_folder->first);
      continue;
    }
    for (const auto& [library, folders] : rules.may_include) {
      const bool is_it = lies_in(target, library) || target == library + ".hpp";
      if (is_it && !lies_in_any(path, folders))
        found.push_back(path + ": includes <" + target + ">, which is not for " + of_folder->first);
    }
  }
  return found;
}

}  // namespace evet::layers
