// Small helps for messages that a person reads at midnight: names shown safely, near misses found.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace evet {

// 'IMG 1.jpg', with control characters written out (\n, \x1b) so that no name can garble a terminal or a log,
// and long text cut short.
std::string quoted(std::string_view text);

// The word of `known` that `word` was probably meant to be: at most two letters wrong, dropped, added or
// swapped, and fewer than half of them; letter case does not count. Empty when nothing is near.
std::optional<std::string> near_miss(std::string_view word, std::span<const std::string> known);

// ASCII letters only: column names and the few coded values of a sheet are ASCII.
std::string lower_ascii(std::string_view text);

// Offset of the first byte that is not well-formed UTF-8 (RFC 3629), or nothing.
std::optional<std::size_t> first_not_utf8(std::string_view text);

// 1 "photo", 2 "photos".
std::string counted(std::size_t n, std::string_view singular, std::string_view plural = {});

}  // namespace evet
