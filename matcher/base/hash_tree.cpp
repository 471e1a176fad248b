#include "matcher/base/hash_tree.h"

#include <bit>
#include <cassert>
#include <span>

namespace evet {
namespace {

std::string_view text_of(const Digest& digest) {
  return {reinterpret_cast<const char*>(digest.data()), digest.size()};
}

Digest node(const Digest& left, const Digest& right) {
  std::string both(1, '\1');
  both += text_of(left), both += text_of(right);
  return sha256(both);
}

using Leaves = std::span<const Digest>;

// The greatest power of two below `n`, which is at least 2.
std::size_t split(std::size_t n) {
  return std::bit_floor(n - 1);
}

Digest root(Leaves leaves) {
  if (leaves.empty()) return sha256(std::string_view());
  if (leaves.size() == 1) return leaves[0];
  const std::size_t k = split(leaves.size());
  return node(root(leaves.first(k)), root(leaves.subspan(k)));
}

// SUBPROOF(m, D, whole): `whole` says that the first m leaves are a tree whose root the reader knows.
void subproof(std::size_t m, Leaves leaves, bool whole, std::vector<Digest>& out) {
  if (m == leaves.size()) {
    if (!whole) out.push_back(root(leaves));
    return;
  }
  const std::size_t k = split(leaves.size());
  if (m <= k) {
    subproof(m, leaves.first(k), whole, out);
    out.push_back(root(leaves.subspan(k)));
  } else {
    subproof(m - k, leaves.subspan(k), false, out);
    out.push_back(root(leaves.first(k)));
  }
}

}  // namespace

std::optional<Digest> digest_of(const std::string& hex) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  Digest digest;
  if (hex.size() != 2 * digest.size() || hex.find_first_not_of(kDigits) != std::string::npos)
    return std::nullopt;
  for (std::size_t i = 0; i < digest.size(); ++i)
    digest[i] = static_cast<unsigned char>(kDigits.find(hex[2 * i]) << 4 | kDigits.find(hex[2 * i + 1]));
  return digest;
}

Digest leaf_hash(std::string_view leaf) {
  return sha256(std::string(1, '\0') + std::string(leaf));
}

Digest root_of(const std::vector<Digest>& leaves) {
  return root(leaves);
}

std::vector<Digest> consistency_proof(std::size_t earlier, const std::vector<Digest>& leaves) {
  assert(earlier <= leaves.size());
  std::vector<Digest> proof;
  if (earlier > 0) subproof(earlier, leaves, true, proof);
  return proof;
}

bool consistent(std::size_t earlier, const Digest& earlier_root, std::size_t later, const Digest& later_root,
                const std::vector<Digest>& proof) {
  if (earlier > later) return false;
  if (earlier == later) return proof.empty() && earlier_root == later_root;
  if (earlier == 0) return proof.empty() && earlier_root == sha256(std::string_view());
  std::vector<Digest> path = proof;
  if (std::has_single_bit(earlier)) path.insert(path.begin(), earlier_root);
  if (path.empty()) return false;
  std::size_t fn = earlier - 1, sn = later - 1;
  while ((fn & 1) != 0) fn >>= 1, sn >>= 1;
  Digest fr = path.front(), sr = path.front();
  for (std::size_t i = 1; i < path.size(); ++i) {
    if (sn == 0) return false;
    if ((fn & 1) != 0 || fn == sn) {
      fr = node(path[i], fr), sr = node(path[i], sr);
      while (fn != 0 && (fn & 1) == 0) fn >>= 1, sn >>= 1;
    } else {
      sr = node(sr, path[i]);
    }
    fn >>= 1, sn >>= 1;
  }
  return sn == 0 && fr == earlier_root && sr == later_root;
}

}  // namespace evet
