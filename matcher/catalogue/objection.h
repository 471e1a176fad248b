// What spoke against an entry, was read by the person who wrote it, and was overruled with a reason.
//
// Kept in the entry itself (`in_spite_of`), so that nobody has to find out later whether it had been noticed.
// What speaks against what is worked out elsewhere (tools/verdicts); here it is only kept and listed.
#pragma once
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "matcher/base/ids.h"

namespace evet {

class Catalogue;
class Fields;

struct Objection {
  std::string code;      // "same_night", "other_sex", ...: stable
  std::string sentence;  // as it was shown
  std::string reason;    // why it was recorded all the same; empty until somebody has said so
  friend bool operator==(const Objection&, const Objection&) = default;
};

// Nothing is written where the list is empty.
void put(nlohmann::json& object, const char* key, const std::vector<Objection>& objections);
// Errors: bad_input, for what is no list of objections or is longer than a person reads.
std::vector<Objection> objections_in(const Fields& fields, const char* key);

// One objection that somebody overruled, and the entry that was written in spite of it.
struct Overruled {
  EntryId entry;
  std::string kind;          // of the entry: "verdict", "closing", "examination", ...
  std::string by, on;        // who wrote it, and the date
  CaptureId capture, other;  // that it is about; empty where there is none
  std::string code, sentence, reason;
  bool stands = true;  // the entry is in force
};

// Of the whole ledger, oldest first. Reads every entry that can hold one.
std::vector<Overruled> overruled(Catalogue& catalogue);

}  // namespace evet
