// From the catalogue to the value that the night's report page is made of. Everything comes from the ledger
// and the photos; nothing is decided here.
#pragma once
#include "matcher/catalogue/catalogue.h"
#include "tools/report/fill_head.h"

namespace evet {

// Errors: not_found for a night or place without a capture; usage when the night has several places and none
// is named.
NightReport fill_report(Catalogue& catalogue, const ReportRequest& request, Env& env);

}  // namespace evet
