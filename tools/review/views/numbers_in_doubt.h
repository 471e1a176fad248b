// How many animals there are, once as if every identity were certain and once with the program's doubt about
// identities carried through: drawn, folded, estimated, combined.
#pragma once
#include <string>
#include <vector>

#include "matcher/catalogue/drawn_identities.h"
#include "matcher/catalogue/histories.h"
#include "models/base/estimate_value.h"

namespace evet::review {

struct NumberRow {
  std::string model, description;  // as in the table of models; both empty for the answer to quote
  models::Estimate certain, in_doubt;
};
struct Numbers {
  std::vector<NumberRow> rows;  // models whose estimate is a number of animals, the answer first
  std::string why;              // how doubt was allowed for, or why nothing is here: sentences
};

// Captures in doubt take part by what was drawn for them, the unsettled ones among them too, which the
// certain figure leaves out. The same for the same input. Errors: as capture_histories().
Numbers numbers_of(const Statements& said, const std::vector<Doubt>& doubts, const HistoriesOptions& where);

}  // namespace evet::review
