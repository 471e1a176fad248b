// Against the examples of FIPS 180-4 (NIST, "SHA256" example values) and of the NESSIE/NIST long message.
#include "matcher/base/sha256.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

TEST(Sha256, GivesTheExamplesOfFips180) {
  // One block, two blocks: FIPS 180-2, appendix B.1 and B.2; the empty message: NIST CAVP SHA256ShortMsg, Len
  // = 0.
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256_hex(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  // A million times "a": FIPS 180-2, appendix B.3.
  EXPECT_EQ(sha256_hex(std::string(1000000, 'a')),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Sha256, OfBytesAndOfTextAreTheSame) {
  const std::string text("a\0b\xff", 4);
  EXPECT_EQ(sha256_hex(text), sha256_hex(std::as_bytes(std::span(text.data(), text.size()))));
  EXPECT_NE(sha256_hex(text), sha256_hex("a"));
}

}  // namespace
}  // namespace evet
