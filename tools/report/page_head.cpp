#include "tools/report/page_head.h"

#include "fmt/format.h"
#include "matcher/base/printable.h"
#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/report/sections.h"
#include "tools/words/in_words.h"
#include "tools/words/markup.h"
#include "tools/words/messages.h"

namespace evet::report {
namespace {

// A CSS string: of ASCII all but letters, digits and blanks is written as escapes, each ended by a blank,
// so that no text can end it.
std::string css_string(std::string_view text) {
  std::string out = "\"";
  for (const char c : printable(text)) {
    const bool simple = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                        c == ' ' || (c & 0x80) != 0;
    out += simple ? std::string(1, c) : fmt::format("\\{:06x} ", static_cast<unsigned>(c));
  }
  return out + "\"";
}

// "page " counter(page) " of " counter(pages), or as a language has it.
std::string page_of_pages() {
  const std::string words = in_words(messages::kPageOfPages, {{"page", "\x01"}, {"pages", "\x02"}});
  std::string css, between;
  const auto add = [&](const std::string& what) { css += (css.empty() ? "" : " ") + what; };
  const auto end_words = [&] {
    if (!between.empty()) add(css_string(between));
    between.clear();
  };
  for (const char c : words)
    if (c == '\x01' || c == '\x02')
      end_words(), add(c == '\x01' ? "counter(page)" : "counter(pages)");
    else
      between += c;
  end_words();
  return css;
}

}  // namespace

std::string page_numbers(std::string_view what) {
  return fmt::format(
      "@page {{ @bottom-left {{ content: {}; font: 7.5pt sans-serif; color: #56645e; }}\n"
      "@bottom-right {{ content: {}; font: 7.5pt sans-serif; color: #56645e; }} }}\n",
      css_string(what), page_of_pages());
}

std::string page_head(std::string_view program, std::string_view title, std::string_view more_style) {
  return fmt::format(
      R"(<!doctype html>
<html lang="{}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="{}">
<title>{}</title>
<style>
{}{}</style>
</head>
<body>
)",
      html(messages::kLanguageOfThePage), escaped(program), escaped(title), style_sheet(), more_style);
}

}  // namespace evet::report
