// Against RFC 6962: its own example of seven leaves (section 2.1.3), the tree and the proofs by the letter of
// its definitions, and the roots that its authors' reference implementation is tested with (certificate-
// transparency, merkle_tree_test.cc: eight leaves, written here from memory and borne out by the definition).
#include "matcher/base/hash_tree.h"

#include <gtest/gtest.h>

namespace evet {
namespace {

std::vector<Digest> leaves_of(std::size_t n) {
  std::vector<Digest> leaves;
  for (std::size_t i = 0; i < n; ++i) leaves.push_back(leaf_hash("entry " + std::to_string(i)));
  return leaves;
}

std::string bytes(std::initializer_list<int> list) {
  std::string text;
  for (const int one : list) text += static_cast<char>(one);
  return text;
}

Digest node(const Digest& left, const Digest& right) {
  std::vector<Digest> two{left, right};
  return root_of(two);
}

// The leaves that the reference implementation is tested with.
std::vector<std::string> reference_inputs() {
  return {"",
          bytes({0x00}),
          bytes({0x10}),
          bytes({0x20, 0x21}),
          bytes({0x30, 0x31}),
          bytes({0x40, 0x41, 0x42, 0x43}),
          bytes({0x50, 0x51, 0x52, 0x53, 0x54, 0x55, 0x56, 0x57}),
          bytes({0x60, 0x61, 0x62, 0x63, 0x64, 0x65, 0x66, 0x67, 0x68, 0x69, 0x6a, 0x6b, 0x6c, 0x6d, 0x6e,
                 0x6f})};
}

TEST(HashTree, TheRootsOfTheReferenceImplementation) {
  EXPECT_EQ(hex(root_of({})), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  const std::vector<std::string> inputs = reference_inputs();
  const std::vector<std::string> roots = {"6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
                                          "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
                                          "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
                                          "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
                                          "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
                                          "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
                                          "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
                                          "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328"};
  std::vector<Digest> leaves;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    leaves.push_back(leaf_hash(inputs[i]));
    EXPECT_EQ(hex(root_of(leaves)), roots[i]) << i + 1 << " leaves";
  }
}

// Its proofs between trees of so many of these leaves (the same file, from memory as well).
TEST(HashTree, TheProofsOfTheReferenceImplementation) {
  std::vector<Digest> leaves;
  for (const std::string& input : reference_inputs()) leaves.push_back(leaf_hash(input));
  const auto first = [&](std::size_t n) {
    return std::vector<Digest>(leaves.begin(), leaves.begin() + static_cast<std::ptrdiff_t>(n));
  };
  struct Known {
    std::size_t earlier, later;
    std::vector<std::string> proof;
  };
  const std::vector<Known> known = {{1, 1, {}},
                                    {1,
                                     8,
                                     {"96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
                                      "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
                                      "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4"}},
                                    {6,
                                     8,
                                     {"0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a",
                                      "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
                                      "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7"}},
                                    {2,
                                     5,
                                     {"5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
                                      "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b"}}};
  for (const Known& one : known) {
    std::vector<std::string> proof;
    for (const Digest& step : consistency_proof(one.earlier, first(one.later))) proof.push_back(hex(step));
    EXPECT_EQ(proof, one.proof) << one.earlier << " to " << one.later;
  }
}

// Section 2.1.3: leaves a to f and j, with g, h, i above them, k = (g, h), l = (i, j).
TEST(HashTree, TheExampleOfSevenLeaves) {
  const std::vector<Digest> d = leaves_of(7);
  const Digest g = node(d[0], d[1]), h = node(d[2], d[3]), i = node(d[4], d[5]), j = d[6], k = node(g, h),
               l = node(i, j);
  EXPECT_EQ(root_of(d), node(k, l));
  EXPECT_EQ(consistency_proof(3, d), (std::vector<Digest>{d[2], d[3], g, l}));
  EXPECT_EQ(consistency_proof(4, d), (std::vector<Digest>{l}));
  EXPECT_EQ(consistency_proof(6, d), (std::vector<Digest>{i, j, k}));
}

TEST(HashTree, EveryProofShowsThatTheLaterListBeginsWithTheEarlier) {
  for (std::size_t n = 0; n <= 40; ++n) {
    const std::vector<Digest> all = leaves_of(n);
    for (std::size_t m = 0; m <= n; ++m) {
      const std::vector<Digest> first(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(m));
      EXPECT_TRUE(consistent(m, root_of(first), n, root_of(all), consistency_proof(m, all))) << m << " " << n;
    }
  }
}

TEST(HashTree, NoProofFitsAListThatWasChanged) {
  for (std::size_t n = 1; n <= 24; ++n) {
    const std::vector<Digest> all = leaves_of(n);
    for (std::size_t m = 1; m <= n; ++m) {
      std::vector<Digest> first(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(m));
      const Digest earlier = root_of(first);
      for (std::size_t changed = 0; changed < m; ++changed) {
        std::vector<Digest> other = all;
        other[changed] = leaf_hash("something else");
        EXPECT_FALSE(consistent(m, earlier, n, root_of(other), consistency_proof(m, other)));
      }
      std::vector<Digest> proof = consistency_proof(m, all);
      if (proof.empty()) continue;
      proof.back()[0] ^= 1;
      EXPECT_FALSE(consistent(m, earlier, n, root_of(all), proof));
      proof.pop_back();
      EXPECT_FALSE(consistent(m, earlier, n, root_of(all), proof));
    }
  }
}

TEST(HashTree, WhatIsNoDigestIsNone) {
  EXPECT_FALSE(digest_of(""));
  EXPECT_FALSE(digest_of(std::string(64, 'G')));
  EXPECT_FALSE(digest_of(std::string(63, 'a')));
  EXPECT_EQ(hex(*digest_of(hex(leaf_hash("x")))), hex(leaf_hash("x")));
}

}  // namespace
}  // namespace evet
