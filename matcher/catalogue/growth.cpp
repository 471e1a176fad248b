#include "matcher/catalogue/growth.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/catalogue/messages.h"

namespace evet {

TreeHead tree_head_of(const std::string& text, const std::string& item) {
  constexpr std::size_t kMostDigits = 9;
  const std::size_t colon = std::min(text.find(':'), text.size());
  const std::string count = text.substr(0, colon);
  const auto root = digest_of(text.substr(std::min(colon + 1, text.size())));
  if (!root || count.empty() || count.size() > kMostDigits ||
      count.find_first_not_of("0123456789") != std::string::npos)
    throw Error(ErrorKind::bad_input, item, Message(messages::kNoEntriesAndRoot, {{"text", text}}),
                messages::kWriteEntriesAndRoot);
  return {std::stoul(count), *root};
}

std::string text_of(const TreeHead& head) {
  return std::to_string(head.entries) + ":" + hex(head.root);
}

TreeHead tree_head_of(const std::vector<Digest>& leaves) {
  return {leaves.size(), root_of(leaves)};
}

std::optional<std::vector<Digest>> proof_of_growth(const TreeHead& earlier,
                                                   const std::vector<Digest>& leaves) {
  if (earlier.entries > leaves.size()) return std::nullopt;
  std::vector<Digest> proof = consistency_proof(earlier.entries, leaves);
  if (!consistent(earlier.entries, earlier.root, leaves.size(), root_of(leaves), proof)) return std::nullopt;
  return proof;
}

}  // namespace evet
