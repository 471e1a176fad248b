// SHA-256 (FIPS 180-4) through OpenSSL: names of photos, links of the ledger.
#pragma once
#include <string>
#include <string_view>

#include "matcher/base/env.h"

namespace evet {

// 64 lower-case hex digits.
std::string sha256_hex(BytesView bytes);
std::string sha256_hex(std::string_view text);

}  // namespace evet
