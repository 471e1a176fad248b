#include "matcher/base/uuid.h"

#include <array>
#include <cstdint>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"

namespace evet {
namespace {

using Raw = std::array<std::uint8_t, 16>;
constexpr char kHex[] = "0123456789abcdef";
constexpr bool is_dash(size_t at) {
  return at == 8 || at == 13 || at == 18 || at == 23;
}

std::string text_of(const Raw& raw) {
  std::string text;
  text.reserve(36);
  for (const std::uint8_t byte : raw) {
    if (is_dash(text.size())) text += '-';
    text += kHex[byte >> 4];
    text += kHex[byte & 15];
  }
  return text;
}

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  return -1;
}

Raw raw_of(std::string_view text) {
  Raw raw{};
  size_t nibble = 0;
  for (const char c : text)
    if (c != '-') {
      raw[nibble / 2] = static_cast<std::uint8_t>(raw[nibble / 2] << 4 | digit(c));
      ++nibble;
    }
  return raw;
}

void stamp_version(Raw& raw) {
  raw[6] = static_cast<std::uint8_t>((raw[6] & 0x0f) | 0x70);
  raw[8] = static_cast<std::uint8_t>((raw[8] & 0x3f) | 0x80);
}

Raw fresh(Env& env) {
  Raw raw{};
  env.fill_random(std::as_writable_bytes(std::span(raw).subspan(6)));
  const auto ms = static_cast<std::uint64_t>(env.now().unix_ms);
  for (size_t i = 0; i < 6; ++i) raw[i] = static_cast<std::uint8_t>(ms >> (40 - 8 * i));
  stamp_version(raw);
  return raw;
}

// Adds one to the 122 free bits, stepping over the version and variant bits.
void increment(Raw& raw) {
  for (size_t i = 16; i-- > 0;) {
    const std::uint8_t free_bits = i == 6 ? 0x0f : i == 8 ? 0x3f : 0xff;
    const auto next = static_cast<std::uint8_t>(((raw[i] & free_bits) + 1) & free_bits);
    raw[i] = static_cast<std::uint8_t>((raw[i] & ~free_bits) | next);
    if (next != 0) return;
  }
  throw Error(ErrorKind::storage, "ledger", messages::kNoEntryIdIsLeft,
              messages::kEntryWithImpossibleTimeWas);
}

}  // namespace

bool is_uuid7(std::string_view text) {
  if (text.size() != 36) return false;
  for (size_t i = 0; i < text.size(); ++i)
    if (is_dash(i) ? text[i] != '-' : digit(text[i]) < 0) return false;
  return text[14] == '7' && (text[19] == '8' || text[19] == '9' || text[19] == 'a' || text[19] == 'b');
}

std::int64_t unix_ms_of(std::string_view uuid7) {
  const Raw raw = raw_of(uuid7);
  std::int64_t ms = 0;
  for (size_t i = 0; i < 6; ++i) ms = ms << 8 | raw[i];
  return ms;
}

std::string uuid7(Env& env) {
  return text_of(fresh(env));
}

std::string uuid7_after(Env& env, std::string_view previous) {
  std::string text = text_of(fresh(env));
  if (text > previous) return text;
  Raw next = raw_of(previous);
  increment(next);
  return text_of(next);
}

}  // namespace evet
