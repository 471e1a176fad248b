// UUID version 7 (RFC 9562, section 5.7): 48 bits of Unix milliseconds, then random bits. As text they sort
// by time.
#pragma once
#include <string>
#include <string_view>

#include "matcher/base/env.h"

namespace evet {

// "019e6a3b-7c11-7f00-8a2e-3d5b9c40e1f2"
std::string uuid7(Env& env);

// A fresh one that sorts after `previous` even when the clock has been set back (RFC 9562, section 6.2: the
// random part then serves as a counter). `previous` may be empty.
std::string uuid7_after(Env& env, std::string_view previous);

// Milliseconds since 1970 that a UUIDv7 carries (RFC 9562, section 5.7). Of a text for
// which is_uuid7() holds.
std::int64_t unix_ms_of(std::string_view uuid7);
bool is_uuid7(std::string_view text);

}  // namespace evet
