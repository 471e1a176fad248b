#include "tools/drawings/pdf_text.h"

#include <fmt/format.h>

namespace evet {

std::optional<std::string> pdf_text(const std::string& utf8) {
  std::string out;
  for (std::size_t i = 0; i < utf8.size(); ++i) {
    const auto byte = static_cast<unsigned char>(utf8[i]);
    if (byte >= 0x20 && byte < 0x7f) {
      if (byte == '(' || byte == ')' || byte == '\\') out += '\\';
      out += utf8[i];
      continue;
    }
    // Of two bytes C2 and C3 alone begin what ISO 8859-1 has, 0xA0 to 0xFF.
    const auto next = i + 1 < utf8.size() ? static_cast<unsigned char>(utf8[i + 1]) : 0;
    const unsigned sign = (byte & 0x03U) << 6 | (next & 0x3FU);
    if ((byte != 0xc2 && byte != 0xc3) || (next & 0xC0U) != 0x80 || sign < 0xa0) return std::nullopt;
    out += fmt::format("\\{:03o}", sign);
    ++i;
  }
  return out;
}

}  // namespace evet
