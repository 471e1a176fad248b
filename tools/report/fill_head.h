// What stands above and around the captures of a night's report: which night and place it is of, who was
// there under which licence, from which sheets, and how its figures were made.
#pragma once
#include <vector>

#include "tools/report/choose_night.h"
#include "tools/report/night_report.h"

namespace evet {

struct ReportRequest : VisitWanted {
  int threads = 1;
};

// `captures`: those of the report's night and place.
void fill_head(Catalogue& catalogue, const Identities& who, const std::vector<const CaptureState*>& captures,
               Env& env, NightReport& report);

}  // namespace evet
