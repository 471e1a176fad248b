// Takes apart what gzip packed: the networks' weights lie packed inside the library.
#pragma once
#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace evet {

// The bytes of one gzip member (RFC 1952). Errors: bad_input naming `item` when it is cut off, damaged, or
// unpacks to more than `at_most` bytes.
std::vector<std::byte> gunzip(std::span<const std::byte> packed, const std::string& item,
                              size_t at_most = 64u << 20);

}  // namespace evet
