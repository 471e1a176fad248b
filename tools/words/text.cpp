#include "tools/words/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "matcher/base/printable.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"

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

}  // namespace

std::string in_quotes(std::string_view text) {
  constexpr std::size_t kLongest = 80;
  return "'" + printable(text, kLongest) + "'";
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

std::string joined(std::span<const std::string> words, std::string_view between) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) text.append(i > 0 ? between : "").append(words[i]);
  return text;
}

std::string listed(std::span<const std::string> words, const MessageText& with_the_last) {
  if (words.size() < 2) return joined(words, {});
  return in_words(with_the_last,
                  {{"some", joined(words.first(words.size() - 1), ", ")}, {"last", words.back()}});
}

std::string listed(std::span<const std::string> words) {
  return listed(words, messages::kAndTheLast);
}

std::string percent(double probability) {
  if (probability > 0.999) return in_words(messages::kMoreThanShare, {{"share", "99.9 %"}});
  if (probability < 0.001) return in_words(messages::kLessThanShare, {{"share", "0.1 %"}});
  const double share = 100 * probability;
  return fmt::format("{:.{}f} %", share, share >= 10 && share <= 90 ? 0 : 1);
}

}  // namespace evet
