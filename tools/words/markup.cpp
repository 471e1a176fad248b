#include "tools/words/markup.h"

#include <algorithm>
#include <cstddef>

#include "matcher/base/printable.h"

namespace evet {

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : printable(text)) switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  return out;
}

std::string html(const MessageText& text, const std::vector<Message::Argument>& arguments) {
  std::vector<Message::Argument> by_name = arguments;  // strings say their own {name}: escaping keeps it
  for (Message::Argument& one : by_name)
    if (auto* markup = std::get_if<std::string>(&one.value)) *markup = "{" + one.name + "}";
  const std::string words = escaped(Message(text, by_name).words());
  std::string out;
  for (std::string_view rest = words; !rest.empty();) {
    const std::size_t open = rest.find('{'), close = rest.find('}', open);
    out += rest.substr(0, open);
    if (close == std::string_view::npos) break;
    const std::string_view name = rest.substr(open + 1, close - open - 1);
    const auto at = std::find_if(arguments.begin(), arguments.end(), [&](const Message::Argument& one) {
      return one.name == name && std::holds_alternative<std::string>(one.value);
    });
    out += at == arguments.end() ? std::string(rest.substr(open, close - open + 1))
                                 : std::get<std::string>(at->value);
    rest.remove_prefix(close + 1);
  }
  return out;
}

}  // namespace evet
