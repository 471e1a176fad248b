// JSON in one and only one spelling, so that a hash over it means something: RFC 8785 (JSON Canonicalization
// Scheme). Keys sorted by UTF-16 code units, no spaces, numbers in the shortest form that ECMAScript writes.
#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>

namespace evet {

// Errors: bad_input for a number that is not finite, a text that is not UTF-8, or more than kDeepest levels.
std::string canonical_json(const nlohmann::json& value);

// Any JSON text. Errors: bad_input for what is not JSON, or is nested so deep that walking it could exhaust
// the stack.
nlohmann::json read_json(const std::string& text);
inline constexpr int kDeepest = 64;

}  // namespace evet
