#include <ostream>

#include "matcher/base/error.h"
#include "matcher/catalogue/growth.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {

int run_proof(const Args& args, Console& console) {
  CommandLine line("proof", messages::kProofDoes, "evet proof 412:9f86… 530:1c4a… 5d1b… e02c…");
  std::string from, to;
  std::vector<std::string> hashes;
  line.app().add_option("FROM", from, in_words(messages::kHelpProofTheFrom))->required();
  line.app().add_option("TO", to, in_words(messages::kHelpProofTheTo))->required();
  line.app().add_option("HASH", hashes, in_words(messages::kHelpProofTheHash));
  if (const auto done = line.parse(args, console)) return *done;

  const TreeHead earlier = tree_head_of(from, "FROM"), later = tree_head_of(to, "TO");
  std::vector<Digest> proof;
  for (const std::string& hash : hashes) {
    const auto digest = digest_of(hash);
    if (!digest)
      throw Error(ErrorKind::bad_input, "HASH", Message(messages::kIsNoHash, {{"hash", hash}}),
                  messages::kGiveDigitsAsPrinted);
    proof.push_back(*digest);
  }
  const bool shown = consistent(earlier.entries, earlier.root, later.entries, later.root, proof);
  if (line.json())
    print(console, {{"shown", shown}, {"from", text_of(earlier)}, {"to", text_of(later)}});
  else if (shown)
    console.out << in_words(messages::kProofShown, {{"later", counted(later.entries, messages::kEntries)},
                                                    {"earlier", std::to_string(earlier.entries)}})
                << "\n";
  else
    console.out << in_words(messages::kProofNotShown) << "\n";
  return shown ? kDone : kDoesNotHold;
}

}  // namespace evet
