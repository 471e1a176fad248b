// What is and what is not UTF-8 (RFC 3629): the shortest form only, no surrogates, nothing above U+10FFFF.
#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace evet {

// Offset of the first byte that is not well-formed UTF-8, or nothing.
std::optional<std::size_t> first_not_utf8(std::string_view text);

struct CodePoint {
  std::uint32_t value = 0;
  std::size_t bytes = 0;  // 0: what stands there is not UTF-8
};
// The one that `text`, which may not be empty, begins with.
CodePoint first_code_point(std::string_view text);

// Its UTF-16 code units; nothing for a text that is not UTF-8.
std::optional<std::u16string> utf16_of(std::string_view text);
// And back; nothing where half of a surrogate pair stands alone.
std::optional<std::string> utf8_of(std::u16string_view units);

}  // namespace evet
