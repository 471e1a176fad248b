#include "tools/words/markup.h"

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

}  // namespace evet
