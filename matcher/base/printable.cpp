#include "matcher/base/printable.h"

#include <fmt/format.h>

#include <cstdint>
#include <iterator>

#include "matcher/base/utf8.h"

namespace evet {
namespace {

bool controls_the_line(std::uint32_t c) {
  return c < 0x20 || (c >= 0x7f && c <= 0x9f) || (c >= 0x200b && c <= 0x200f) ||
         (c >= 0x2028 && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069) || c == 0xfeff;
}

}  // namespace

std::string printable(std::string_view text, std::size_t at_most) {
  std::string out;
  while (!text.empty()) {
    if (out.size() >= at_most) return out + "...";
    const CodePoint c = first_code_point(text);
    if (c.bytes == 0) {
      fmt::format_to(std::back_inserter(out), "\\x{:02x}", static_cast<unsigned char>(text[0]));
    } else if (c.value == '\n') {
      out += "\\n";
    } else if (c.value == '\r') {
      out += "\\r";
    } else if (c.value == '\t') {
      out += "\\t";
    } else if (c.value < 0x80 && controls_the_line(c.value)) {
      fmt::format_to(std::back_inserter(out), "\\x{:02x}", c.value);
    } else if (controls_the_line(c.value)) {
      fmt::format_to(std::back_inserter(out), "\\u{{{:04x}}}", c.value);
    } else {
      out += text.substr(0, c.bytes);
    }
    text.remove_prefix(c.bytes == 0 ? 1 : c.bytes);
  }
  return out;
}

}  // namespace evet
