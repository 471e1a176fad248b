#include "tests/tools/evet/pseudo_language.h"

#include <cstdlib>
#include <fstream>
#include <regex>
#include <stdexcept>

#include "matcher/base/message.h"

namespace evet::try_out {
namespace {

// The quoted part of a line of a .po: msgid "photo" -> photo, still escaped.
std::string quoted_part(const std::string& line) {
  const std::size_t open = line.find('"');
  return line.substr(open + 1, line.rfind('"') - open - 1);
}

// In guillemets, but for line ends before and after: msgfmt wants those as they are in English.
std::string so(const std::string& text) {
  const std::string end = "\\n";
  std::size_t from = 0, to = text.size();
  while (text.compare(from, end.size(), end) == 0) from += end.size();
  while (to >= from + end.size() && text.compare(to - end.size(), end.size(), end) == 0) to -= end.size();
  return "\"" + text.substr(0, from) + "«" + text.substr(from, to - from) + "»" + text.substr(to) + "\"\n";
}

std::string translated(const std::string& pot_path) {
  std::ifstream pot(pot_path);
  std::string po =
      "msgid \"\"\nmsgstr \"Content-Type: text/plain; charset=UTF-8\\nPlural-Forms: nplurals=2; "
      "plural=n!=1;\\n\"\n\n";
  std::string one, many;
  std::string* at = nullptr;
  const auto entry = [&] {
    if (!one.empty() && many.empty())
      po += "msgid \"" + one + "\"\nmsgstr " + so(one) + "\n";
    else if (!one.empty())
      po += "msgid \"" + one + "\"\nmsgid_plural \"" + many + "\"\nmsgstr[0] " + so(one) + "msgstr[1] " +
            so(many) + "\n";
    one.clear(), many.clear(), at = nullptr;
  };
  for (std::string line; std::getline(pot, line);) {
    if (line.starts_with("msgid_plural"))
      at = &many;
    else if (line.starts_with("msgid"))
      entry(), at = &one;
    else if (line.starts_with("msgstr"))
      at = nullptr;
    if (at != nullptr && line.find('"') != std::string::npos) *at += quoted_part(line);
  }
  entry();
  return po;
}

}  // namespace

void write_pseudo_language(const std::filesystem::path& folder) {
  const auto place = folder / "de" / "LC_MESSAGES";
  std::filesystem::create_directories(place);
  std::ofstream(folder / "de.po") << translated(EVET_SOURCE_DIR "/tools/messages/evet.pot");
  const std::string command = "msgfmt -o " + (place / "evet.mo").string() + " " + (folder / "de.po").string();
  if (std::system(command.c_str()) != 0)
    throw std::runtime_error("msgfmt does not take the made-up language");
}

void speak_pseudo_language(const std::filesystem::path& folder) {
  ::setenv("LC_ALL", "C.UTF-8", 1), ::setenv("LANGUAGE", "de", 1);
  speak_from(folder.string());
}

std::string outside(const std::string& text) {
  const std::string open = "«", close = "»";
  std::string out;
  int depth = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool opens = text.compare(i, open.size(), open) == 0,
               closes = text.compare(i, close.size(), close) == 0;
    if (opens || closes) {
      depth += opens ? 1 : -1;
      i += open.size() - 1;
      out += '_';
    } else if (depth == 0) {
      out += text[i];
    }
  }
  return out;
}

std::string read_of_page(const std::string& html) {
  std::string text = std::regex_replace(html, std::regex("<(style|script)[^>]*>[^]*?</(style|script)>"), "");
  std::string attributes;
  const std::regex said(R"re((?:aria-label|alt|title|placeholder)="([^"]*)")re");
  for (std::sregex_iterator at(text.begin(), text.end(), said), end; at != end; ++at)
    attributes += (*at)[1].str() + "\n";
  return std::regex_replace(text, std::regex("<[^>]*>"), "\n") + "\n" + attributes;
}

std::vector<std::string> bare_words(const std::string& text) {
  std::vector<std::string> found;
  const std::regex words(R"([A-Za-z][a-z]+,? [a-z]{2,}[^\n]*)");
  const std::string bare = outside(text);
  for (std::sregex_iterator at(bare.begin(), bare.end(), words), end; at != end; ++at)
    found.push_back(at->str());
  return found;
}

}  // namespace evet::try_out
