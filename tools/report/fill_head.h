// What stands above and around the captures of a night's report: which night and place it is of, who was
// there under which licence, from which sheets, and how its figures were made.
#pragma once
#include <filesystem>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "tools/report/night_report.h"

namespace evet {

struct ReportRequest {
  std::string night;       // empty: the newest
  std::string site, pond;  // empty: the only place of that night
  int threads = 1;
};

// Sets night, site and pond. Errors: not_found where the catalogue has no capture; usage where the night has
// several places and none of them is named.
void choose_night(const std::filesystem::path& catalogue, const Identities& who, const ReportRequest& request,
                  NightReport& report);

// `captures`: those of the report's night and place.
void fill_head(Catalogue& catalogue, const Identities& who, const std::vector<const CaptureState*>& captures,
               Env& env, NightReport& report);

}  // namespace evet
