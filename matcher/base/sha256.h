// SHA-256 (FIPS 180-4) through OpenSSL: names of photos, links of the ledger.
#pragma once
#include <array>
#include <string>
#include <string_view>

#include "matcher/base/env.h"

namespace evet {

using Digest = std::array<unsigned char, 32>;

// Throws std::bad_alloc where OpenSSL gets no memory: there is never a wrong digest.
Digest sha256(BytesView bytes);
Digest sha256(std::string_view text);

// 64 lower-case hex digits.
std::string hex(const Digest& digest);
std::string sha256_hex(BytesView bytes);
std::string sha256_hex(std::string_view text);

}  // namespace evet
