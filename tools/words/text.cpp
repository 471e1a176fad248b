#include "tools/words/text.h"

#include <algorithm>
#include <vector>

namespace evet {
namespace {

// Optimal string alignment distance (Damerau 1964): edits are insert, drop, replace and swap of neighbours.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (a[i - 1] != b[j - 1])});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, now);
  }
  return last[b.size()];
}

// Length of the well-formed UTF-8 sequence at `at`, 0 when there is none (RFC 3629, section 4).
std::size_t sequence_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) -> unsigned {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u;
  };
  const unsigned lead = byte(at);
  if (lead < 0x80) return 1;
  std::size_t length = 0;
  unsigned low = 0x80, high = 0xBF;  // what the second byte may be
  if (lead >= 0xC2 && lead <= 0xDF) {
    length = 2;
  } else if (lead >= 0xE0 && lead <= 0xEF) {
    length = 3;
    if (lead == 0xE0) low = 0xA0;
    if (lead == 0xED) high = 0x9F;
  } else if (lead >= 0xF0 && lead <= 0xF4) {
    length = 4;
    if (lead == 0xF0) low = 0x90;
    if (lead == 0xF4) high = 0x8F;
  } else {
    return 0;
  }
  if (byte(at + 1) < low || byte(at + 1) > high) return 0;
  for (std::size_t i = 2; i < length; ++i)
    if (byte(at + i) < 0x80 || byte(at + i) > 0xBF) return 0;
  return length;
}

}  // namespace

std::string quoted(std::string_view text) {
  constexpr std::size_t kLongest = 80;
  static constexpr char kHex[] = "0123456789abcdef";
  std::string shown = "'";
  for (std::size_t i = 0; i < text.size();) {
    if (shown.size() > kLongest) return shown + "...'";
    const auto byte = static_cast<unsigned char>(text[i]);
    const std::size_t length = sequence_length(text, i);
    const bool c1_control = length == 2 && byte == 0xC2 && static_cast<unsigned char>(text[i + 1]) < 0xA0;
    if (length == 0 || c1_control || byte < 0x20 || byte == 0x7F) {
      const std::size_t bytes = c1_control ? 2 : 1;
      for (std::size_t k = 0; k < bytes; ++k) {
        const auto raw = static_cast<unsigned char>(text[i + k]);
        if (raw == '\n')
          shown += "\\n";
        else if (raw == '\r')
          shown += "\\r";
        else if (raw == '\t')
          shown += "\\t";
        else
          shown += {'\\', 'x', kHex[raw >> 4], kHex[raw & 15]};
      }
      i += bytes;
    } else {
      shown += text.substr(i, length);
      i += length;
    }
  }
  return shown + "'";
}

std::string lower_ascii(std::string_view text) {
  std::string lower(text);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return lower;
}

std::optional<std::string> near_miss(std::string_view word, std::span<const std::string> known) {
  constexpr std::size_t kMostLetters = 200;  // nobody's typing error; keeps the table small
  if (word.empty() || word.size() > kMostLetters) return std::nullopt;
  const std::string lower = lower_ascii(word);
  std::optional<std::string> best;
  std::size_t best_distance = 3;
  for (const std::string& candidate : known) {
    if (candidate.size() > kMostLetters) continue;
    const std::size_t distance = edit_distance(lower, lower_ascii(candidate));
    if (distance < best_distance && 2 * distance < std::max(word.size(), candidate.size())) {
      best = candidate;
      best_distance = distance;
    }
  }
  return best;
}

std::optional<std::size_t> first_not_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = sequence_length(text, i);
    if (length == 0) return i;
    i += length;
  }
  return std::nullopt;
}

std::string counted(std::size_t n, std::string_view singular, std::string_view plural) {
  std::string text = std::to_string(n) + " ";
  if (n == 1) return text.append(singular);
  return plural.empty() ? text.append(singular) + "s" : text.append(plural);
}

}  // namespace evet
