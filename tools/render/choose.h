// Drawing a name from a list under the "only" and "without" lists of Conditions.
#pragma once
#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

#include "tools/render/rng.h"

namespace evet::render {

// The same name as without lists wherever the lists allow it. Throws std::invalid_argument on an unknown name
// or when nothing is left.
inline std::string choose_name(const std::vector<std::string>& all, const std::vector<std::string>& only,
                               const std::vector<std::string>& without, Rng rng, const std::string& kind) {
  const auto has = [](const std::vector<std::string>& list, const std::string& name) {
    return std::find(list.begin(), list.end(), name) != list.end();
  };
  for (const auto* list : {&only, &without})
    for (const std::string& name : *list)
      if (!has(all, name)) throw std::invalid_argument("no " + kind + " is called '" + name + "'");
  std::vector<std::string> left;
  for (const std::string& name : all)
    if ((only.empty() || has(only, name)) && !has(without, name)) left.push_back(name);
  if (left.empty()) throw std::invalid_argument("the conditions leave no " + kind);
  for (;;) {
    const std::string& name = rng.pick(all);
    if (has(left, name)) return name;
  }
}

}  // namespace evet::render
