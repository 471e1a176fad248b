#include "matcher/search/sheet_evidence.h"

#include <algorithm>
#include <cmath>

namespace evet {
namespace {
int age_step(const std::string& stage) {  // -1 when unknown
  if (stage == "metamorph") return 0;
  if (stage == "juvenile") return 1;
  if (stage == "subadult") return 2;
  if (stage == "adult") return 3;
  return -1;
}
}  // namespace

double sheet_llr(const SheetFacts& query, const SheetFacts& known, const SheetEvidenceOptions& options) {
  double sum = 0;
  if (query.sex != Sex::unknown && known.sex != Sex::unknown) {
    const double e = options.sexing_error, p_agree = (1 - e) * (1 - e) + e * e;
    sum += std::max(std::log((query.sex == known.sex ? p_agree : 1 - p_agree) / 0.5), options.lowest);
  }
  // Nights in ISO form sort as text. Without both, or on one night, time says nothing.
  if (query.night.empty() || known.night.empty() || query.night == known.night) return sum;
  const bool query_later = query.night > known.night;
  const SheetFacts &earlier = query_later ? known : query, &later = query_later ? query : known;
  if (earlier.svl_mm && later.svl_mm) {
    // Two measurements differ by root two of one's error; twice that is nothing out of the ordinary.
    const double error = options.svl_error_mm * std::sqrt(2.0);
    const double beyond = (*earlier.svl_mm - *later.svl_mm) / error - 2;
    if (beyond > 0) sum += std::max(-0.5 * beyond * beyond, options.lowest);
  }
  const int before = age_step(earlier.stage), after = age_step(later.stage);
  if (before >= 0 && after >= 0 && after < before) sum += options.lowest * (before - after) / 3.0;
  return sum;
}

double pattern_trust(const SheetFacts& query, const SheetFacts& known, const SheetEvidenceOptions& options) {
  if (query.night == known.night) return 1;
  return query.stage == "metamorph" || known.stage == "metamorph" ? options.metamorph_discount : 1;
}

}  // namespace evet
