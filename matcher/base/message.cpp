#include "matcher/base/message.h"

#include <libintl.h>

#include <algorithm>
#include <cassert>
#include <clocale>

namespace evet {
namespace {

constexpr const char* kDomain = "evet";

std::string said(const std::variant<std::string, std::size_t, Message>& value) {
  if (const auto* text = std::get_if<std::string>(&value)) return *text;
  if (const auto* number = std::get_if<std::size_t>(&value)) return std::to_string(*number);
  return std::get<Message>(value).words();
}

}  // namespace

Message::Message(const MessageText& text) : text_(&text) {}

Message::Message(const MessageText& text, std::vector<Argument> arguments)
    : text_(&text), arguments_(std::move(arguments)) {}

std::string Message::argument(std::string_view name) const {
  const auto at = std::find_if(arguments_.begin(), arguments_.end(),
                               [&](const Argument& one) { return one.name == name; });
  return at == arguments_.end() ? std::string() : said(at->value);
}

std::string Message::words() const {
  const char* form = nullptr;
  if (text_->english_many != nullptr) {
    const auto count = std::find_if(arguments_.begin(), arguments_.end(),
                                    [](const Argument& one) { return one.name == "n"; });
    assert(count != arguments_.end() && "a text of one or many needs the argument n");
    const auto* n = count == arguments_.end() ? nullptr : std::get_if<std::size_t>(&count->value);
    form = dngettext(kDomain, text_->english, text_->english_many, n == nullptr ? 2 : *n);
  } else {
    form = dgettext(kDomain, text_->english);
  }
  std::string words;
  for (std::string_view rest = form; !rest.empty();) {
    const std::size_t open = rest.find('{'), close = rest.find('}', open);
    words += rest.substr(0, open);
    if (close == std::string_view::npos) break;
    const std::string_view name = rest.substr(open + 1, close - open - 1);
    const bool given = std::any_of(arguments_.begin(), arguments_.end(),
                                   [&](const Argument& one) { return one.name == name; });
    assert(given && "a text names an argument that its message lacks");
    words += given ? argument(name) : std::string(rest.substr(open, close - open + 1));
    rest.remove_prefix(close + 1);
  }
  return words;
}

Message bare(std::string words) {
  static constexpr MessageText kBare("", "{words}");
  return {kBare, {{"words", std::move(words)}}};
}

std::string Reason::words() const {
  const std::string what_would_be_right = right ? right->words() : std::string();
  return what_would_be_right.empty() ? wrong.words() : wrong.words() + "; " + what_would_be_right;
}

void speak_from(const std::string& folder) {
  std::setlocale(LC_MESSAGES,
                 "");  // words alone: numbers stay as they are, for whoever reads them by program
  bindtextdomain(kDomain, folder.c_str());
  bind_textdomain_codeset(kDomain, "UTF-8");
}

}  // namespace evet
