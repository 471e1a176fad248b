#include "matcher/base/gunzip.h"

#include <gtest/gtest.h>

#include <array>

#include "matcher/base/error.h"

namespace evet {
namespace {

// "evet\n" packed by the gzip program (RFC 1952), without name and time: `printf 'evet\n' | gzip -9n`.
constexpr std::array<unsigned char, 25> kPacked = {0x1f, 0x8b, 0x08, 0x00, 0x00, 0x00, 0x00, 0x00, 0x02,
                                                   0x03, 0x4b, 0x2d, 0x4b, 0x2d, 0xe1, 0x02, 0x00, 0x47,
                                                   0xac, 0x3e, 0x3c, 0x05, 0x00, 0x00, 0x00};

std::vector<std::byte> packed() {
  std::vector<std::byte> bytes;
  for (const unsigned char byte : kPacked) bytes.push_back(std::byte{byte});
  return bytes;
}

std::string text(const std::vector<std::byte>& bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

TEST(Gunzip, GivesBackWhatGzipPacked) {
  EXPECT_EQ(text(gunzip(packed(), "weights")), "evet\n");
  EXPECT_EQ(text(gunzip(packed(), "weights", 5)), "evet\n");
}

TEST(Gunzip, EveryCutIsAnError) {
  const std::vector<std::byte> whole = packed();
  for (size_t length = 0; length < whole.size(); ++length)
    EXPECT_THROW(gunzip(std::span(whole).first(length), "weights"), Error) << length;
}

TEST(Gunzip, AChangedByteIsAnError) {
  std::vector<std::byte> bytes = packed();
  bytes[12] ^= std::byte{1};
  EXPECT_THROW(gunzip(bytes, "weights"), Error);
}

TEST(Gunzip, RefusesMoreThanItWasAllowed) {
  try {
    gunzip(packed(), "weights", 4);
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::bad_input);
    EXPECT_EQ(error.item(), "weights");
  }
}

}  // namespace
}  // namespace evet
