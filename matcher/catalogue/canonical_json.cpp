#include "matcher/catalogue/canonical_json.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>
#include <string_view>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/base/utf8.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

using Json = nlohmann::json;

// ECMAScript's Number::toString: shortest digits that read back the same, plain notation for exponents -7 < e
// < 21.
void write_number(double value, std::string& out) {
  if (!std::isfinite(value))
    throw Error(ErrorKind::bad_input, "a number", messages::kIsNotFinite, messages::kLeaveOutOrGiveNumber);
  if (value == 0) {
    out += '0';
    return;
  }
  char raw[40];
  const auto end = std::to_chars(raw, raw + sizeof raw, std::abs(value), std::chars_format::scientific).ptr;
  const std::string_view text(raw, static_cast<size_t>(end - raw));
  const size_t e = text.find('e');
  int exponent = 0;
  std::from_chars(text.data() + e + (text[e + 1] == '+' ? 2 : 1), end, exponent);
  std::string digits(text.substr(0, e));
  std::erase(digits, '.');
  const int k = static_cast<int>(digits.size());
  const int n = exponent + 1;  // digits before the decimal point
  if (value < 0) out += '-';
  if (k <= n && n <= 21) {
    out += digits + std::string(static_cast<size_t>(n - k), '0');
  } else if (0 < n && n <= 21) {
    out += digits.substr(0, static_cast<size_t>(n)) + '.' + digits.substr(static_cast<size_t>(n));
  } else if (-6 < n && n <= 0) {
    out += "0." + std::string(static_cast<size_t>(-n), '0') + digits;
  } else {
    out += digits.substr(0, 1);
    if (k > 1) out += '.' + digits.substr(1);
    out += exponent < 0 ? "e-" : "e+";
    out += std::to_string(std::abs(exponent));
  }
}

void write_text(const std::string& text, std::string& out) {
  static constexpr char kHex[] = "0123456789abcdef";
  out += '"';
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    switch (c) {
      case '"':
        out += "\\\"";
        break;
      case '\\':
        out += "\\\\";
        break;
      case '\b':
        out += "\\b";
        break;
      case '\f':
        out += "\\f";
        break;
      case '\n':
        out += "\\n";
        break;
      case '\r':
        out += "\\r";
        break;
      case '\t':
        out += "\\t";
        break;
      default:
        if (byte < 0x20) {
          out += "\\u00";
          out += kHex[byte >> 4];
          out += kHex[byte & 15];
        } else {
          out += c;
        }
    }
  }
  out += '"';
}

// Throws when it is not UTF-8 (overlong forms and lone surrogates included).
std::u16string utf16(const std::string& text) {
  std::optional<std::u16string> units = utf16_of(text);
  if (!units)
    throw Error(ErrorKind::bad_input, "a text", messages::kIsNotValidUtf8, messages::kSaveFileAsUtf8);
  return std::move(*units);
}

Error too_deep() {
  return {ErrorKind::bad_input, "JSON",
          Message(messages::kIsNestedDeeperThanLevels, {{"deepest", std::to_string(kDeepest)}})};
}

void write(const Json& value, std::string& out, int depth) {
  if (depth > kDeepest) throw too_deep();
  switch (value.type()) {
    case Json::value_t::object: {
      std::vector<std::pair<std::u16string, const std::string*>> keys;
      for (const auto& [key, unused] : value.items()) keys.emplace_back(utf16(key), &key);
      std::sort(keys.begin(), keys.end());
      out += '{';
      for (const auto& [units, key] : keys) {
        if (out.back() != '{') out += ',';
        write_text(*key, out);
        out += ':';
        write(value.at(*key), out, depth + 1);
      }
      out += '}';
      break;
    }
    case Json::value_t::array:
      out += '[';
      for (size_t i = 0; i < value.size(); ++i) {
        if (i > 0) out += ',';
        write(value[i], out, depth + 1);
      }
      out += ']';
      break;
    case Json::value_t::string:
      utf16(value.get_ref<const std::string&>());  // refuses what is not UTF-8
      write_text(value.get_ref<const std::string&>(), out);
      break;
    case Json::value_t::boolean:
      out += value.get<bool>() ? "true" : "false";
      break;
    case Json::value_t::number_integer:
    case Json::value_t::number_unsigned:
    case Json::value_t::number_float:
      write_number(value.get<double>(), out);
      break;
    default:
      out += "null";
  }
}

}  // namespace

std::string canonical_json(const Json& value) {
  std::string out;
  write(value, out, 0);
  return out;
}

Json read_json(const std::string& text) {
  int depth = 0;
  bool quoted = false;
  for (size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '\\') {
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && (c == '[' || c == '{')) {
      if (++depth > kDeepest) throw too_deep();
    } else if (!quoted && (c == ']' || c == '}')) {
      --depth;
    }
  }
  try {
    return Json::parse(text);
  } catch (const Json::exception& error) {
    throw Error(ErrorKind::bad_input, "JSON",
                Message(messages::kCannotBeReadCatalogue, {{"error", error.what()}}));
  }
}

}  // namespace evet
