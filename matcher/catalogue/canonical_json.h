// JSON in one and only one spelling, so that a hash over it means something: RFC 8785 (JSON Canonicalization
// Scheme). Keys sorted by UTF-16 code units, no spaces, numbers in the shortest form that ECMAScript writes.
#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>

namespace evet {

// Errors: bad_input for a number that is not finite or a text that is not UTF-8.
std::string canonical_json(const nlohmann::json& value);

}  // namespace evet
