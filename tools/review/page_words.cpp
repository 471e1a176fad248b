#include "tools/review/page_words.h"

#include <libintl.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <nlohmann/json.hpp>
#include <optional>

#include "matcher/base/utf8.h"
#include "tools/review/assets.h"

namespace evet::review {
namespace {

constexpr const char* kDomain = "evet";  // as in matcher/base/message.cpp
constexpr int kNumbers = 200;            // see words.js

// The units of UTF-16 that "\u00e9" and its like give, one after another; `at` is moved behind them.
std::u16string units_at(std::string_view script, std::size_t& at) {
  std::u16string units;
  while (script.substr(at, 2) == "\\u") {
    unsigned unit = 0;
    const char* const first = script.data() + std::min(at + 2, script.size());
    const char* const last = script.data() + std::min(at + 6, script.size());
    if (last - first != 4 || std::from_chars(first, last, unit, 16).ptr != last) break;
    units += static_cast<char16_t>(unit);
    at += 6;
  }
  return units;
}

// The string that begins with a quote at `at`, which is moved behind its end; nothing where there is none that ends
// in its line: an apostrophe in a comment begins no string.
std::optional<std::string> string_at(std::string_view script, std::size_t& at) {
  if (at >= script.size() || script[at] != '\'') return std::nullopt;
  std::string out;
  for (std::size_t i = at + 1; i < script.size() && script[i] != '\n'; ++i) {
    if (script[i] == '\'') {
      at = i + 1;
      return out;
    }
    if (script[i] != '\\') {
      out += script[i];
    } else if (const std::u16string units = units_at(script, i); !units.empty()) {
      out += utf8_of(units).value_or("\uFFFD");  // a half of a pair alone: no text has it
      --i;
    } else if (++i < script.size()) {
      out += script[i] == 'n' ? '\n' : script[i];
    }
  }
  return std::nullopt;
}

bool part_of_name(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '$' || c == '.';
}

nlohmann::json forms_of(const std::string& one, const std::string& many) {
  std::vector<std::string> forms;
  std::string which;
  for (int n = 0; n < kNumbers; ++n) {
    const std::string form = ::dngettext(kDomain, one.c_str(), many.c_str(), static_cast<unsigned long>(n));
    const auto at = std::find(forms.begin(), forms.end(), form);
    which += static_cast<char>('0' + (at - forms.begin()));
    if (at == forms.end()) forms.push_back(form);
  }
  const bool english = forms == std::vector<std::string>{many, one};
  return english ? nlohmann::json() : nlohmann::json{{"forms", forms}, {"which", which}};
}

}  // namespace

PageTexts texts_in_script(std::string_view script) {
  PageTexts out;
  for (std::size_t at = script.find('\''); at != std::string_view::npos; at = script.find('\'', at)) {
    const bool said = at > 2 && script.substr(at - 2, 2) == "t(" && !part_of_name(script[at - 3]);
    const std::size_t from = at;
    const auto text = string_at(script, at);
    if (!text) {
      at = from + 1;
    } else if (said) {
      out.one.push_back(*text);
    } else if (text->find("{n}") != std::string::npos && script.substr(at, 2) == ", ") {
      at += 2;
      if (const auto many = string_at(script, at)) out.many.emplace_back(*text, *many);
    }
  }
  return out;
}

std::string spoken_script() {
  nlohmann::json one = nlohmann::json::object(), many = nlohmann::json::object();
  for (const AssetFile& file : embedded_assets()) {
    const std::string_view name = file.name;
    if (!name.ends_with(".js") || name.ends_with(".min.js") || name.ends_with(".umd.min.js")) continue;
    const PageTexts texts = texts_in_script({file.begin, file.end});
    for (const std::string& english : texts.one)
      if (const std::string words = ::dgettext(kDomain, english.c_str()); words != english)
        one[english] = words;
    for (const auto& [singular, plural] : texts.many)
      if (nlohmann::json forms = forms_of(singular, plural); !forms.is_null())
        many[singular] = std::move(forms);
  }
  return "export default " + nlohmann::json{{"one", one}, {"many", many}}.dump() + ";\n";
}

}  // namespace evet::review
