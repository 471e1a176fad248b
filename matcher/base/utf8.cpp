#include "matcher/base/utf8.h"

#include <utf8.h>

#include <iterator>

namespace evet {

std::optional<std::size_t> first_not_utf8(std::string_view text) {
  const auto* const wrong = utf8::find_invalid(text.begin(), text.end());
  if (wrong == text.end()) return std::nullopt;
  return static_cast<std::size_t>(wrong - text.begin());
}

CodePoint first_code_point(std::string_view text) {
  const auto* at = text.begin();
  try {
    const std::uint32_t value = utf8::next(at, text.end());
    return {value, static_cast<std::size_t>(at - text.begin())};
  } catch (const utf8::exception&) {
    return {};
  }
}

std::optional<std::u16string> utf16_of(std::string_view text) {
  std::u16string units;
  try {
    utf8::utf8to16(text.begin(), text.end(), std::back_inserter(units));
  } catch (const utf8::exception&) {
    return std::nullopt;
  }
  return units;
}

std::optional<std::string> utf8_of(std::u16string_view units) {
  std::string text;
  try {
    utf8::utf16to8(units.begin(), units.end(), std::back_inserter(text));
  } catch (const utf8::exception&) {
    return std::nullopt;
  }
  return text;
}

}  // namespace evet
