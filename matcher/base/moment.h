// Times as text: ISO 8601 with offset for moments, plain dates for nights.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "matcher/base/env.h"

namespace evet {

std::string to_text(const Instant& instant);  // "2031-05-14T22:41:07.250+02:00"
std::optional<Instant> parse_instant(
    std::string_view text);                            // seconds' fraction optional, offset or Z needed
bool is_date(std::string_view text);                   // "2031-05-14", a day that exists
std::int64_t days_since_epoch(std::string_view date);  // of a text for which is_date() holds

}  // namespace evet
