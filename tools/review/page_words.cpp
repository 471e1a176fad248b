#include "tools/review/page_words.h"

#include <libintl.h>

#include <algorithm>
#include <cctype>
#include <nlohmann/json.hpp>
#include <optional>

#include "tools/review/assets.h"

namespace evet::review {
namespace {

constexpr const char* kDomain = "evet";  // as in matcher/base/message.cpp
constexpr int kNumbers = 200;            // see words.js

void add_utf8(unsigned sign, std::string& out) {
  if (sign < 0x80) {
    out += static_cast<char>(sign);
  } else if (sign < 0x800) {
    out += static_cast<char>(0xC0 | sign >> 6);
    out += static_cast<char>(0x80 | (sign & 0x3F));
  } else {
    out += static_cast<char>(0xE0 | sign >> 12);
    out += static_cast<char>(0x80 | (sign >> 6 & 0x3F));
    out += static_cast<char>(0x80 | (sign & 0x3F));
  }
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
    } else if (script[++i] == 'u' && i + 4 < script.size()) {
      add_utf8(static_cast<unsigned>(std::stoul(std::string(script.substr(i + 1, 4)), nullptr, 16)), out);
      i += 4;
    } else {
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
  for (const AssetFile& file : asset_files()) {
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
