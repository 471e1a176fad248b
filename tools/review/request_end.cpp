#include <algorithm>
#include <optional>
#include <string_view>

#include "tools/review/front.h"

namespace evet::review {
namespace {

constexpr std::string_view kEnd = "\r\n\r\n";

bool same_letters(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return a.size() == b.size() &&
         std::equal(a.begin(), a.end(), b.begin(), [&](char x, char y) { return lower(x) == lower(y); });
}

struct SaidLength {
  int lengths = 0;
  std::optional<std::size_t> length;  // absent: none said, or none that is a number
  bool other_length = false;          // Transfer-Encoding
};

SaidLength said_of_body(std::string_view head) {
  SaidLength said;
  for (std::size_t at = head.find("\r\n"); at != std::string_view::npos && at + 2 < head.size();) {
    at += 2;
    const std::size_t next = head.find("\r\n", at);
    const std::string_view line = head.substr(at, next == std::string_view::npos ? next : next - at);
    at = next;
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos) continue;
    if (same_letters(line.substr(0, colon), "transfer-encoding")) said.other_length = true;
    if (!same_letters(line.substr(0, colon), "content-length")) continue;
    ++said.lengths;
    std::string_view digits = line.substr(colon + 1);
    while (!digits.empty() && (digits.front() == ' ' || digits.front() == '\t')) digits.remove_prefix(1);
    while (!digits.empty() && (digits.back() == ' ' || digits.back() == '\t')) digits.remove_suffix(1);
    std::size_t length = 0;
    bool number = !digits.empty() && digits.size() <= 12;
    for (const char c : digits) {
      number = number && c >= '0' && c <= '9';
      length = length * 10 + static_cast<std::size_t>(c - '0');
    }
    said.length = number ? std::optional(length) : std::nullopt;
  }
  return said;
}

}  // namespace

RequestEnd request_end(const std::string& bytes, const FrontLimits& limits) {
  const std::size_t end = bytes.find(kEnd);
  if (end == std::string::npos || end > limits.head_bytes)
    return {bytes.size() > limits.head_bytes ? RequestEnd::too_large : RequestEnd::unfinished, 0};
  const std::size_t head = end + kEnd.size();
  const SaidLength said = said_of_body(std::string_view(bytes).substr(0, end + 2));
  if (said.lengths == 0 && !said.other_length) return {RequestEnd::whole, head};
  // Two lengths, none that is a number, or too long a body: told by the head, and nothing more is read.
  if (said.other_length || said.lengths > 1 || !said.length || *said.length > limits.body_bytes)
    return {RequestEnd::head_only, head};
  if (bytes.size() < head + *said.length) return {};
  return {RequestEnd::whole, head + *said.length};
}

}  // namespace evet::review
