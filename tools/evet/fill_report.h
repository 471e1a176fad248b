// From the catalogue to the value that the night's report page is made of. Everything comes from the ledger
// and the photos; nothing is decided here.
#pragma once
#include <string>

#include "matcher/catalogue/catalogue.h"
#include "tools/evet/night_report.h"

namespace evet {

struct ReportRequest {
  std::string night;       // empty: the newest
  std::string site, pond;  // empty: the only place of that night
  int threads = 1;
};

// Errors: not_found for a night or place without a capture; usage when the night has several places and none
// is named.
NightReport fill_report(Catalogue& catalogue, const ReportRequest& request, Env& env);

}  // namespace evet
