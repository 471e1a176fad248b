// A hash tree over a list that only grows, and the short proof that a later list begins with an earlier one:
// RFC 6962, section 2.1 (SHA-256; leaves after a byte 0, nodes after a byte 1).
//
// Whoever has kept the size and the root of an earlier day can see from the proof alone that nothing before it
// was changed, left out or put in between.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "matcher/base/sha256.h"

namespace evet {

std::optional<Digest> digest_of(const std::string& hex);

Digest leaf_hash(std::string_view leaf);
// Of the hashes of the leaves; of none, the hash of nothing.
Digest root_of(const std::vector<Digest>& leaves);
// PROOF(earlier, D[leaves]); empty for 0 and for all. Asserts that there are so many leaves.
std::vector<Digest> consistency_proof(std::size_t earlier, const std::vector<Digest>& leaves);
// Whether the proof shows that the list with the later root begins with that of the earlier (RFC 9162, section
// 2.1.4.2, which states the check for the same trees).
bool consistent(std::size_t earlier, const Digest& earlier_root, std::size_t later, const Digest& later_root,
                const std::vector<Digest>& proof);

}  // namespace evet
