// Why a capture is where it is: the verdict in force that placed it, with what lay on the table.
#pragma once
#include <optional>
#include <string>

#include "matcher/catalogue/catalogue.h"
#include "tools/report/settled_by.h"

namespace evet {

struct Decided {
  ReportDecided decided;
  std::string reason;                // that the person gave, in their words
  std::optional<Evidence> evidence;  // of the verdict; absent when nothing was ranked
};

// Nobody for an unsettled capture.
SettledBy placed_by(Catalogue& catalogue, const Identities& who, const CaptureState& capture);

Decided decided(Catalogue& catalogue, const Identities& who, const CaptureState& capture);

}  // namespace evet
