#include "matcher/base/sha256.h"

#include <openssl/evp.h>

#include <new>

namespace evet {

Digest sha256(BytesView bytes) {
  Digest digest{};
  unsigned int length = 0;
  // It fails for nothing but want of memory: it makes itself a context each time.
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1 ||
      length != digest.size())
    throw std::bad_alloc();
  return digest;
}

Digest sha256(std::string_view text) {
  return sha256(std::as_bytes(std::span(text.data(), text.size())));
}

std::string hex(const Digest& digest) {
  static constexpr char kHex[] = "0123456789abcdef";
  std::string text;
  text.reserve(2 * digest.size());
  for (const unsigned char byte : digest) {
    text += kHex[byte >> 4];
    text += kHex[byte & 15];
  }
  return text;
}

std::string sha256_hex(BytesView bytes) {
  return hex(sha256(bytes));
}

std::string sha256_hex(std::string_view text) {
  return hex(sha256(text));
}

}  // namespace evet
