#include "tools/drawings/pdf_text.h"

#include <fmt/format.h>
#include <utf8.h>

namespace evet {

std::optional<std::string> pdf_text(const std::string& utf8) {
  if (!utf8::is_valid(utf8)) return std::nullopt;
  std::string out;
  for (auto at = utf8.begin(); at != utf8.end();) {
    const char32_t sign = utf8::next(at, utf8.end());
    if (sign > 0xff || (sign >= 0x7f && sign < 0xa0) || sign < 0x20) return std::nullopt;
    if (sign == '(' || sign == ')' || sign == '\\')
      out += fmt::format("\\{}", static_cast<char>(sign));
    else if (sign < 0x7f)
      out += static_cast<char>(sign);
    else
      out += fmt::format("\\{:03o}", static_cast<unsigned>(sign));
  }
  return out;
}

}  // namespace evet
