// Who holds what about which captures: the verdicts that count, each reader's newest, twins
// seen as one capture.
#pragma once
#include <unordered_map>
#include <vector>

#include "matcher/catalogue/retractions.h"
#include "matcher/catalogue/statements.h"

namespace evet {

// A verdict that counts. Captures as indices; `other` is -1 for "new".
struct Opinion {
  const Said<Verdict>* said = nullptr;
  int subject = -1, other = -1;
  Answer answer() const { return said->what.answer; }
};

struct Opinions {
  std::vector<Opinion> people;   // by entry id
  std::vector<Opinion> program;  // the newest of each subject; by entry id
};

// `index_of` maps capture ids, twins' too, to indices; verdicts on captures that it lacks (withdrawn)
// are left out. A reader has one opinion a pair, the newest; and of "new" and "same" about one
// subject the newer stands.
Opinions opinions(const Statements& statements, const Retractions& retractions,
                  const std::unordered_map<CaptureId, int>& index_of);

}  // namespace evet
