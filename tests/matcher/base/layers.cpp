#include "tests/matcher/base/layers.h"

#include <algorithm>
#include <regex>
#include <set>
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

using Graph = std::map<std::string, std::set<std::string>>;

// Everything that can be reached from `start`, itself only if some way leads back.
std::set<std::string> reached_from(const Graph& graph, const std::string& start) {
  std::set<std::string> reached;
  std::vector<std::string> open{start};
  while (!open.empty()) {
    const std::string at = open.back();
    open.pop_back();
    const auto found = graph.find(at);
    if (found == graph.end()) continue;
    for (const std::string& next : found->second)
      if (reached.insert(next).second) open.push_back(next);
  }
  return reached;
}

// The two as seen from the deepest folder that holds both: "models/ask", "models/estimate".
std::pair<std::string, std::string> where_ways_part(const std::string& a, const std::string& b) {
  size_t shared = 0;  // up to and with the last '/' that both have
  for (size_t i = 0; i < std::min(a.size(), b.size()) && a[i] == b[i]; ++i)
    if (a[i] == '/') shared = i + 1;
  return {a.substr(0, a.find('/', shared)), b.substr(0, b.find('/', shared))};
}

std::string without_ending(const std::string& path) {
  return path.substr(0, path.rfind('.'));
}

// Whether `path` is `place` or lies in it.
bool lies_in(const std::string& path, const std::string& place) {
  return path == place || path.rfind(place + "/", 0) == 0;
}
bool lies_in_any(const std::string& path, const std::vector<std::string>& places) {
  return std::any_of(places.begin(), places.end(), [&](const auto& place) { return lies_in(path, place); });
}

bool is_ours(const std::string& path) {
  return lies_in_any(path, {"matcher", "models", "tools", "tests"});
}

// What follows #include in every line that has it.
std::vector<std::string> included(const std::string& source) {
  static const std::regex kInclude(R"re(^\s*#\s*include\s*([<"])([^>"]+)[>"])re");
  std::vector<std::string> list;
  std::istringstream lines(source);
  for (std::string line; std::getline(lines, line);)
    if (std::smatch match; std::regex_search(line, match, kInclude)) list.push_back(match[2]);
  return list;
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
  auto of_folder = rules.may_use.end();  // the rule of the smallest place that holds it
  for (auto rule = rules.may_use.begin(); rule != rules.may_use.end(); ++rule)
    if (lies_in(path, rule->first) &&
        (of_folder == rules.may_use.end() || rule->first.size() > of_folder->first.size()))
      of_folder = rule;
  if (of_folder == rules.may_use.end()) return {path + ": its folder is not in the list of layers"};
  for (const std::string& target : included(source)) {
    if (is_ours(target)) {
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

std::vector<std::string> own_includes(const std::string& source) {
  std::vector<std::string> list = included(source);
  std::erase_if(list, [](const std::string& target) { return !is_ours(target); });
  return list;
}

std::vector<std::string> own_imports(const std::string& path, const std::string& script) {
  static const std::regex kImport(R"re(\b(?:from|import)\s*\(?\s*['"]\./([^'"]+)['"])re");
  std::vector<std::string> list;
  for (std::sregex_iterator at(script.begin(), script.end(), kImport), end; at != end; ++at)
    list.push_back(path.substr(0, path.rfind('/') + 1) + (*at)[1].str());
  return list;
}

std::set<std::string> files_as_layers(const Rules& rules) {
  std::set<std::string> files;
  for (const auto& [place, below] : rules.may_use)
    if (place.find('.') != std::string::npos) files.insert(without_ending(place));
  return files;
}

std::vector<std::string> circles(const Includes& includes, const std::set<std::string>& layers) {
  const auto top = [](const std::string& path) { return path.substr(0, path.find('/')); };
  Graph graph;
  for (const auto& [path, targets] : includes)
    for (const std::string& target : targets) {
      const std::string a = without_ending(path), b = without_ending(target);
      const bool a_alone = layers.contains(a), b_alone = layers.contains(b);
      const auto [from, to] = where_ways_part(a, b);
      if (from != to && (top(a) == top(b) || !(a_alone || b_alone))) graph[from].insert(to);
      if (a_alone != b_alone) graph[a_alone ? a : top(a)].insert(b_alone ? b : top(b));
    }
  std::set<std::string> found;
  for (const auto& [node, ignored] : graph) {
    const std::set<std::string> ahead = reached_from(graph, node);
    if (!ahead.contains(node)) continue;
    std::string circle;
    for (const std::string& other : ahead)
      if (reached_from(graph, other).contains(node)) circle += (circle.empty() ? "" : " ") + other;
    found.insert(circle);
  }
  return {found.begin(), found.end()};
}

}  // namespace evet::layers
