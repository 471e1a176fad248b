// Two individuals never share a label: whoever says it would mean either.
#pragma once
#include <set>
#include <string>
#include <vector>

#include "tools/words/names.h"

namespace evet {

// Errors: conflict, naming the individual that bears the label already, as its label, as an alias or as the
// name that it goes by for want of one. `own`: individuals that may, since the label is given to them.
void refuse_shared_label(const Identities& who, const std::string& label, const std::set<IndividualId>& own);

// What a merge can bring about all the same, a sentence each label: two catalogues that each gave it.
std::vector<std::string> shared_labels(const Identities& who);

}  // namespace evet
