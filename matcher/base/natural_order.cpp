#include "matcher/base/natural_order.h"

#include <algorithm>

namespace evet {

NaturalKey natural_key(const std::string& text) {
  NaturalKey out;
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  for (size_t at = 0; at < text.size();) {
    std::string words, number;
    while (at < text.size() && !digit(text[at])) words += text[at++];
    while (at < text.size() && digit(text[at])) number += text[at++];
    number.erase(0, std::min(number.find_first_not_of('0'), number.size()));
    out.emplace_back(words, number.size(), number);
  }
  return out;
}

}  // namespace evet
