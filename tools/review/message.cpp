#include "tools/review/message.h"

#include <algorithm>

#include "matcher/base/utf8.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

bool letter_or_digit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}
bool path_character(char c) {
  return letter_or_digit(c) || c == '-' || c == '_' || c == '.' || c == ':';
}

std::optional<std::string> decoded(std::string_view text) {
  const auto digit = [](char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
  };
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+') {
      out += ' ';
    } else if (text[i] != '%') {
      out += text[i];
    } else {
      if (i + 2 >= text.size() || digit(text[i + 1]) < 0 || digit(text[i + 2]) < 0) return std::nullopt;
      out += static_cast<char>(digit(text[i + 1]) * 16 + digit(text[i + 2]));
      i += 2;
    }
  }
  if (first_not_utf8(out)) return std::nullopt;
  return out;
}

}  // namespace

std::string Request::header(const std::string& lower_case_name) const {
  const auto at = headers.find(lower_case_name);
  return at == headers.end() ? std::string() : at->second;
}

std::optional<Target> parse_target(std::string_view target) {
  if (target.empty() || target.front() != '/' || target.size() > kMaxTarget) return std::nullopt;
  const std::size_t mark = target.find('?');
  std::string_view path = target.substr(1, mark == std::string_view::npos ? mark : mark - 1);
  Target out;
  while (!path.empty()) {
    const std::size_t slash = path.find('/');
    const std::string_view part = path.substr(0, slash);
    if (part.empty() || part.front() == '.' || !std::all_of(part.begin(), part.end(), path_character))
      return std::nullopt;
    out.path.emplace_back(part);
    if (slash == std::string_view::npos) break;
    path.remove_prefix(slash + 1);
    if (path.empty()) return std::nullopt;  // a slash at the end
  }
  if (mark == std::string_view::npos) return out;
  std::string_view query = target.substr(mark + 1);
  while (!query.empty()) {
    const std::size_t end = query.find('&');
    const std::string_view pair = query.substr(0, end);
    query.remove_prefix(end == std::string_view::npos ? query.size() : end + 1);
    if (pair.empty()) continue;
    const std::size_t equals = pair.find('=');
    const auto name = decoded(pair.substr(0, equals));
    const auto value =
        decoded(equals == std::string_view::npos ? std::string_view() : pair.substr(equals + 1));
    if (!name || !value) return std::nullopt;
    out.query.emplace(*name, *value);
  }
  return out;
}

Response json_answer(const nlohmann::json& json, int status) {
  return {.status = status, .body = json.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace)};
}

Response error_answer(int status, const std::string& kind, const std::string& sentence,
                      const std::string& code) {
  nlohmann::json error{{"kind", kind}, {"sentence", sentence}};
  if (!code.empty()) error["code"] = code;
  return json_answer({{"error", error}}, status);
}

Response document(Response html) {
  html.headers["Content-Security-Policy"] =
      "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; "
      "frame-ancestors 'none'";
  return html;
}

}  // namespace evet::review
