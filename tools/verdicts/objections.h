// What speaks against a verdict, found before it is recorded: commands and page ask here, and none of them
// records such a verdict without a reason.
//
// A tired reader can say what cannot be: that an animal lay in two hands the same night, changed its sex, or
// shrank. Nothing of this is forbidden, for sheets are wrong as well; it is said, with the captures to look
// at, and kept with the entry when it is recorded all the same (Verdict::in_spite_of).
//
// Not for blind readings: what the sheets say would tell a blind reader what others think. The first reader
// of a pair has been told.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "matcher/base/message.h"
#include "matcher/catalogue/catalogue.h"
#include "matcher/catalogue/search_catalogue.h"
#include "tools/words/names.h"

namespace evet {

// One thing that speaks against it, and the two captures whose pictures show it; `beside` is empty where it
// is about one capture alone.
struct Against {
  Objection objection;
  CaptureId capture, beside;
};

// Asks about one catalogue as it stands now; it is read while photos are compared, so that this keeps its own
// copy of who is who.
class Objections {
 public:
  explicit Objections(Catalogue& catalogue);
  Objections(Catalogue& catalogue, const Identities& who);
  // Errors: not_found for a capture that is not there.
  std::vector<Against> to(const Verdict& verdict) const;
  std::vector<Against> to(const Closing& closing) const;

 private:
  Catalogue& catalogue_;
  const Identities who_;
  const Names names_;
};

// Codes: "same_night", "other_sex", "shrunk", "younger_stage", "other_site", "not_released", "known_as_other",
// "no_usable_photo", "photos_disagree", "closed". Errors: not_found for a capture that is not there.
std::vector<Against> objections_to(Catalogue& catalogue, const Verdict& verdict);

// What speaks against closing a capture: "usable_photo" and "settled", and for one that is said to be the
// same as another: "other_night", "photos_disagree".
std::vector<Against> objections_to(Catalogue& catalogue, const Closing& closing);

// The program records nothing absurd either: what it is sure of and something speaks against becomes "look".
// What that is, of each such capture.
using HeldBack = std::map<CaptureId, std::vector<Against>>;
// `who`: what it was ranked with; null: as the ledger stands.
HeldBack hold_back(Catalogue& catalogue, Ranking& ranking, const Identities* who = nullptr);

// What two photos taken of one animal in hand are held for, natural log, same against different. Below
// minus this they are said to disagree.
inline constexpr double kPhotosDisagree = 2.302585092994046;  // ten to one

// The objections with the reason under each. Errors: conflict naming all of them when `reason` is empty, or
// when one was found that is not among `shown` (null: all were).
std::vector<Objection> overrule(const std::vector<Against>& found, const std::string& reason,
                                const std::vector<std::string>* shown, const std::string& item,
                                const Message& what_to_do);

}  // namespace evet
