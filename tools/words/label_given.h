// Naming an individual: which capture a new label must be given to so that it becomes the individual's own, and
// whether the name is free.
#pragma once
#include <string>

#include "matcher/catalogue/fold.h"

namespace evet {

// An individual's label is that of its capture that was named first (FORMAT.md, rule 9): a new label goes there, or to
// its oldest capture where none has a name. Errors: bad_input for an empty label, conflict where another individual
// bears that name, letter case aside.
LabelGiven label_for(const Individual& individual, const std::string& label, const Statements& statements,
                     const Identities& who);

}  // namespace evet
