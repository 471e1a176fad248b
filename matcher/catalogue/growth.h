// How a ledger grew: from an earlier size and tree root, printed on a report, to today's, with the proof by which
// others see it without the catalogue (RFC 6962, section 2.1.2; matcher/base/hash_tree.h).
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/hash_tree.h"

namespace evet {

// Entries and the root of the tree over them, as they are printed: "412:9f86…".
struct TreeHead {
  std::size_t entries = 0;
  Digest root{};
};
// Errors: bad_input, naming `item`.
TreeHead tree_head_of(const std::string& text, const std::string& item);
std::string text_of(const TreeHead& head);
TreeHead tree_head_of(const std::vector<Digest>& leaves);

// The proof that a ledger of these leaves begins with that of `earlier`; nothing when it does not.
std::optional<std::vector<Digest>> proof_of_growth(const TreeHead& earlier,
                                                   const std::vector<Digest>& leaves);

}  // namespace evet
