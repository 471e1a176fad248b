// Small helps for messages that a person reads at midnight: names shown safely, near misses found.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "matcher/base/message.h"

namespace evet {

// 'IMG 1.jpg', made printable (see matcher/base/printable.h) and, where it is long, cut short.
std::string in_quotes(std::string_view text);

// The word of `known` that `word` was probably meant to be: at most two letters wrong, dropped, added or
// swapped, and fewer than half of them; letter case does not count. Empty when nothing is near.
std::optional<std::string> near_miss(std::string_view word, std::span<const std::string> known);

// ASCII letters only: column names and the few coded values of a sheet are ASCII.
std::string lower_ascii(std::string_view text);

// "a, b and c", or as the language has it: a text with {some} and {last}.
std::string listed(std::span<const std::string> words);
std::string listed(std::span<const std::string> words, const MessageText& with_the_last);
// With nothing but `between` them.
std::string joined(std::span<const std::string> words, std::string_view between);

// "99.7 %"; "more than 99.9 %" and "less than 0.1 %" at the ends: a match is never certain.
std::string percent(double probability);

}  // namespace evet
