// What can be written down of a night beside its captures, field by field, as command, page and report name it, and
// how the words that people write become an entry of the ledger.
#pragma once
#include <map>
#include <span>
#include <string>

#include "matcher/base/message.h"
#include "matcher/catalogue/night_facts.h"

namespace evet {

struct NightField {
  const char* key;   // in the ledger, on a sheet and in JSON
  MessageText name;  // for people
  MessageText hint;  // an example, or what it is for
  bool number = false;
};
std::span<const NightField> night_fields();

// As people read it: "12.5", "bottle traps", or empty.
std::string field_text(const NightFacts& facts, const NightField& field);

// `texts` by key: an empty text takes the field away, a field that is not named stays as it is in `known`. Errors:
// bad_input that names the field, for a key that is none, a number that is none or out of range, a text that is too
// long, and a latitude without a longitude.
NightFactsSaid night_facts_said(const NightIntake::Visit& visit, const NightFacts& known,
                                const std::map<std::string, std::string>& texts, const std::string& reason);

}  // namespace evet
