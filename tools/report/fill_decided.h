// Why a capture is where it is: the verdict in force that placed it, in a sentence, with what
// lay on the table.
#pragma once
#include <optional>
#include <string>

#include "matcher/catalogue/catalogue.h"

namespace evet {

struct Decided {
  std::string sentence;              // "Same, by KM on 2031-05-15."; empty for an unsettled capture
  std::string reason;                // that the person gave, in their words
  std::optional<Evidence> evidence;  // of the verdict; absent when nothing was ranked
};

// "KM", "the program" or "the sheet"; empty for an unsettled capture.
std::string placed_by(Catalogue& catalogue, const Identities& who, const CaptureState& capture);

Decided decided(Catalogue& catalogue, const Identities& who, const CaptureState& capture);

}  // namespace evet
