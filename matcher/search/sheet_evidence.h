// What the night sheet's facts add to a likelihood ratio: softly, never as a block.
#pragma once
#include "matcher/search/rank.h"

namespace evet {

struct SheetEvidenceOptions {
  double sexing_error = 0.04;       // an animal written down as the other sex; common practice, no source
  double svl_error_mm = 2.0;        // one measurement's standard error; common practice, no source
  double lowest = -3;               // no single fact takes more than this away, natural log
  double metamorph_discount = 0.5;  // share of the pattern's evidence kept when the earlier was a metamorph
};

// Added to the pattern's log-likelihood ratio; 0 when nothing is known.
double sheet_llr(const SheetFacts& query, const SheetFacts& known, const SheetEvidenceOptions& options = {});

// Share of the pattern's own evidence to keep: less when either was a metamorph whose pattern is still
// forming and the other was caught on another night.
double pattern_trust(const SheetFacts& query, const SheetFacts& known,
                     const SheetEvidenceOptions& options = {});

}  // namespace evet
