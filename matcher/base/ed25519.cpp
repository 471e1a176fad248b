#include "matcher/base/ed25519.h"

#include <openssl/evp.h>
#include <openssl/pem.h>

#include <vector>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"

namespace evet {
namespace {

using Octets = std::vector<unsigned char>;
constexpr std::size_t kKeyBytes = 32, kSignatureBytes = 64;

std::string hex_of(const Octets& bytes) {
  std::string text;
  for (const unsigned char byte : bytes)
    text += "0123456789abcdef"[byte >> 4], text += "0123456789abcdef"[byte & 15];
  return text;
}

// Empty when it is not hex of that many bytes.
Octets octets_of(const std::string& hex, std::size_t wanted) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  if (hex.size() != 2 * wanted || hex.find_first_not_of(kDigits) != std::string::npos) return {};
  Octets bytes(wanted);
  for (std::size_t i = 0; i < wanted; ++i)
    bytes[i] = static_cast<unsigned char>(kDigits.find(hex[2 * i]) << 4 | kDigits.find(hex[2 * i + 1]));
  return bytes;
}

// What OpenSSL could not make, for want of memory, is an error and never a wrong signature.
void require(bool holds) {
  if (!holds) throw Error(ErrorKind::storage, "signature", messages::kSignatureFailed);
}
std::shared_ptr<EVP_PKEY> owned(EVP_PKEY* key) {
  return {key, EVP_PKEY_free};
}
std::shared_ptr<EVP_MD_CTX> context() {
  const std::shared_ptr<EVP_MD_CTX> made(EVP_MD_CTX_new(), EVP_MD_CTX_free);
  require(made != nullptr);
  return made;
}
const unsigned char* bytes_of(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}
}  // namespace

SigningKey::SigningKey(std::shared_ptr<void> key) : key_(std::move(key)) {
  Octets bytes(kKeyBytes);
  std::size_t size = bytes.size();
  require(EVP_PKEY_get_raw_public_key(static_cast<EVP_PKEY*>(key_.get()), bytes.data(), &size) == 1);
  public_key_ = hex_of(bytes);
}

SigningKey SigningKey::of_seed(const Seed& seed) {
  const auto key = owned(EVP_PKEY_new_raw_private_key(
      EVP_PKEY_ED25519, nullptr, reinterpret_cast<const unsigned char*>(seed.data()), seed.size()));
  require(key != nullptr);
  return SigningKey(key);
}

SigningKey SigningKey::of_pem(const std::string& pem, const std::string& item) {
  const std::shared_ptr<BIO> text(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())), BIO_free_all);
  require(text != nullptr);
  char none[] = "";  // never ask for a passphrase
  const auto key = owned(PEM_read_bio_PrivateKey(text.get(), nullptr, nullptr, none));
  if (key == nullptr || EVP_PKEY_id(key.get()) != EVP_PKEY_ED25519)
    throw Error(ErrorKind::bad_input, item, messages::kIsNoEd25519Key, messages::kPutKeyBack);
  return SigningKey(key);
}

std::string SigningKey::pem() const {
  const std::shared_ptr<BIO> text(BIO_new(BIO_s_mem()), BIO_free_all);
  require(text != nullptr);
  require(PEM_write_bio_PKCS8PrivateKey(text.get(), static_cast<EVP_PKEY*>(key_.get()), nullptr, nullptr, 0,
                                        nullptr, nullptr) == 1);
  char* data = nullptr;
  const long size = BIO_get_mem_data(text.get(), &data);
  return {data, static_cast<std::size_t>(size)};
}

std::string SigningKey::sign(std::string_view text) const {
  Octets signature(kSignatureBytes);
  std::size_t size = signature.size();
  const auto with = context();
  require(EVP_DigestSignInit(with.get(), nullptr, nullptr, nullptr, static_cast<EVP_PKEY*>(key_.get())) == 1);
  require(EVP_DigestSign(with.get(), signature.data(), &size, bytes_of(text), text.size()) == 1);
  return hex_of(signature);
}

namespace {

// False as well where OpenSSL got no memory within: it does not tell the two apart.
bool seems_to_fit(const Octets& public_key, std::string_view text, const Octets& signature) {
  const auto key =
      owned(EVP_PKEY_new_raw_public_key(EVP_PKEY_ED25519, nullptr, public_key.data(), public_key.size()));
  require(key != nullptr);
  const auto with = context();
  require(EVP_DigestVerifyInit(with.get(), nullptr, nullptr, nullptr, key.get()) == 1);
  const int fits =
      EVP_DigestVerify(with.get(), signature.data(), signature.size(), bytes_of(text), text.size());
  require(fits >= 0);
  return fits == 1;
}

// Of the empty text: RFC 8032, section 7.1, TEST 1.
constexpr const char* kKnownKey = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a";
constexpr const char* kKnownSignature =
    "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0"
    "595bbe24655141438e7a100b";

}  // namespace

bool signature_fits(const std::string& public_key, std::string_view text, const std::string& signature) {
  const Octets key = octets_of(public_key, kKeyBytes), bytes = octets_of(signature, kSignatureBytes);
  if (key.empty() || bytes.empty()) return false;
  if (seems_to_fit(key, text, bytes)) return true;
  // Nobody's word is doubted for want of memory: only where one that fits is seen to, it is asked again.
  require(seems_to_fit(octets_of(kKnownKey, kKeyBytes), {}, octets_of(kKnownSignature, kSignatureBytes)));
  return seems_to_fit(key, text, bytes);
}

}  // namespace evet
