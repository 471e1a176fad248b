#include <ostream>

#include "matcher/base/error.h"
#include "matcher/catalogue/growth.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/words/text.h"

namespace evet {

int run_proof(const Args& args, Console& console) {
  CommandLine line(
      "proof",
      "Shows, without the catalogue, that its ledger only grew between two reports: that the later one\n"
      "begins with every entry of the earlier, in their order, none changed, left out or put in between\n"
      "(RFC 6962, section 2.1.2). FROM and TO are entries and tree root as reports and audits print them,\n"
      "the hashes are those of 'evet report --grown-from FROM' or 'evet audit --grown-from FROM'.\n"
      "Exit code 1 when they do not show it.",
      "evet proof 412:9f86… 530:1c4a… 5d1b… e02c…");
  std::string from, to;
  std::vector<std::string> hashes;
  line.app().add_option("FROM", from, "Entries and tree root on the earlier report")->required();
  line.app().add_option("TO", to, "Entries and tree root on the later report")->required();
  line.app().add_option("HASH", hashes, "The proof, in its order");
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
    console.out << "Shown: the ledger of " << counted(later.entries, "entry", "entries")
                << " begins with the " << earlier.entries
                << " of the earlier root, in their order, none changed.\n";
  else
    console.out << "Not shown: these hashes do not lead from the earlier root to the later. A digit is "
                   "wrong, or the\n"
                   "ledger was changed, or the roots are of two copies of the catalogue.\n";
  return shown ? kDone : kDoesNotHold;
}

}  // namespace evet
