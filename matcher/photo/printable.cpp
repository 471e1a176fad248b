#include "matcher/photo/printable.h"

#include <cstddef>
#include <cstdint>
#include <iterator>

#include "fmt/format.h"

namespace evet {
namespace {

struct CodePoint {
  std::uint32_t value = 0;
  std::size_t bytes = 0;  // 0: not UTF-8
};

// RFC 3629: the shortest form only, no surrogates, nothing above U+10FFFF.
CodePoint next_code_point(std::string_view text) {
  const auto byte = [&](std::size_t i) -> std::uint32_t { return static_cast<unsigned char>(text[i]); };
  const std::uint32_t lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t bytes = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc0 ? 2 : 0;
  if (bytes == 0 || lead > 0xf4 || text.size() < bytes) return {};
  std::uint32_t value = lead & (0x7fU >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xc0) != 0x80) return {};
    value = value << 6 | (byte(i) & 0x3f);
  }
  constexpr std::uint32_t smallest[] = {0, 0, 0x80, 0x800, 0x10000};
  if (value < smallest[bytes] || value > 0x10ffff || (value >= 0xd800 && value <= 0xdfff)) return {};
  return {value, bytes};
}

bool controls_the_line(std::uint32_t c) {
  return c < 0x20 || (c >= 0x7f && c <= 0x9f) || (c >= 0x200b && c <= 0x200f) ||
         (c >= 0x2028 && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069) || c == 0xfeff;
}

}  // namespace

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const CodePoint c = next_code_point(text);
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
