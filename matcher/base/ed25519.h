// Ed25519 signatures (RFC 8032) through OpenSSL. Keys and signatures are lower-case hex: 64 and 128 digits.
#pragma once
#include <array>
#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

namespace evet {

class SigningKey {
 public:
  using Seed = std::array<std::byte, 32>;
  static SigningKey of_seed(const Seed& seed);
  // Errors: bad_input when it is no private Ed25519 key in PEM (PKCS #8), naming `item`.
  static SigningKey of_pem(const std::string& pem, const std::string& item);
  std::string pem() const;
  const std::string& public_key() const { return public_key_; }
  std::string sign(std::string_view text) const;

 private:
  explicit SigningKey(std::shared_ptr<void> key);
  std::shared_ptr<void> key_;
  std::string public_key_;
};

// Whether the owner of `public_key` signed `text`. False as well for what is no key or no signature.
bool signature_fits(const std::string& public_key, std::string_view text, const std::string& signature);

}  // namespace evet
