// Two individuals never share a label: whoever says it would mean either.
#pragma once
#include <set>
#include <string>
#include <vector>

#include "matcher/catalogue/fold.h"

namespace evet {

// Errors: bad_input for an empty label; conflict, naming the individual that bears it already, letter case aside: as
// its label, as an alias, as its id or as the name that it goes by for want of one. `own`: individuals that may,
// since the label is given to them.
void refuse_shared_label(const Identities& who, const std::string& label, const std::set<IndividualId>& own);

// The capture that a new label must be given to so that it becomes the individual's own: the one that was named
// first (FORMAT.md, rule 9), or the oldest where none has a name. Errors: those of refuse_shared_label().
LabelGiven label_for(const Individual& individual, const std::string& label, const Statements& statements,
                     const Identities& who);

// What a merge can bring about all the same, a sentence each label: two catalogues that each gave it.
std::vector<std::string> shared_labels(const Identities& who);

}  // namespace evet
