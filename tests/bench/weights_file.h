// The matching model that a bench scores: the program's own, or one from a file that is not built in yet.
#pragma once
#include <fstream>
#include <iterator>
#include <memory>
#include <string>

#include "matcher/search/likelihood.h"

namespace evet {

// Null for an empty name: the model that the program ships with. Errors: bad_input, by the file's name.
inline std::shared_ptr<const MatchingModel> matching_model_in(const std::string& file_name) {
  if (file_name.empty()) return nullptr;
  std::ifstream file(file_name);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  return std::make_shared<MatchingModel>(parse_matching_model(text, file_name));
}

}  // namespace evet
