// Two catalogues become one: the union of their entries and photos. What follows from it does not depend on
// who merges into whom, nor on the order; doing it again changes nothing. Verdicts that now contradict each
// other become disputes, never a silent win.
//
// Photos are copied first, then all entries come in with one transaction: killed at any instant, the
// catalogue is as before, and the same command carries on. The union is folded before it is committed: what
// could not be folded is not taken in.
#pragma once
#include <functional>
#include <set>
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "matcher/catalogue/signature.h"

namespace evet {

struct MergeOptions {
  // How far ahead of this machine's clock the other's entries may be. Their ids decide what is later, so that
  // an entry of a wrong year would outdo everything said after it.
  int most_days_ahead = 2;
  std::vector<Objection> in_spite_of{};  // what spoke against it, for the ledger
  bool check_photos = false;  // read every photo there is already, and put damaged ones back from the other
  std::function<void(size_t done, size_t all)> progress{};  // photos; may be empty
  void check() const;
};

struct MergeReport {
  size_t entries = 0, captures = 0, verdicts = 0;  // that came in
  size_t photos = 0;                               // files that came in or were put back
  std::vector<PhotoId> photos_missing;  // spoken of by the other catalogue, and whole in neither folder
  std::vector<Dispute> disputes;        // that were not there before
  std::vector<SetAside> set_aside;      // that were not there before: entries that came in and cannot be read
  size_t twins = 0;  // captures that both had taken in for themselves, seen as one from now on
  std::vector<CaptureId>
      questions;                 // of those, the ones whose sheets do not agree, and were not there before
  std::vector<KeyUse> new_keys;  // under which nothing was signed here before
  std::set<std::string> known_signers;  // who had signed here before, with any key
  std::string head;                     // hash of the newest entry afterwards
};

// Errors: conflict for one and the same folder, and for entries that differ under one id; bad_input when the
// other ledger does not hold together or is of a clock that runs ahead, unsupported when it has entries of
// kinds that this version does not know. Nothing comes in then.
MergeReport merge(Catalogue& into, Catalogue& other, const Actor& actor, const MergeOptions& options = {});

}  // namespace evet
