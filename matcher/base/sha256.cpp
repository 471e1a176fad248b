#include "matcher/base/sha256.h"

#include <openssl/evp.h>

#include <array>
#include <cassert>

namespace evet {

std::string sha256_hex(BytesView bytes) {
  std::array<unsigned char, 32> digest{};
  unsigned int length = 0;
  [[maybe_unused]] const int ok =
      EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr);
  assert(ok == 1 && length == digest.size());
  static constexpr char kHex[] = "0123456789abcdef";
  std::string hex;
  hex.reserve(2 * digest.size());
  for (const unsigned char byte : digest) {
    hex += kHex[byte >> 4];
    hex += kHex[byte & 15];
  }
  return hex;
}

std::string sha256_hex(std::string_view text) {
  return sha256_hex(std::as_bytes(std::span(text.data(), text.size())));
}

}  // namespace evet
