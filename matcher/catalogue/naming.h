// What individuals are called, and the finishing touches of the fold: sex, order, look-up.
#pragma once
#include "matcher/catalogue/gather.h"
#include "matcher/catalogue/identities.h"

namespace evet {

// Labels: given by people or known by other means. The individual's oldest label is its label; the others are
// aliases. Where a capture was renamed, its newest name counts, at the age of its first. Without a label the
// name is made from the id, so that it is the same everywhere and needs no numbering.
std::string own_name(const Individual& individual);       // its label, or what is made from the id
std::string distinct_name(const Individual& individual);  // where several individuals have the same own name
void finish(Identities& identities, const Statements& statements, const Retractions& retractions,
            const Gathered& gathered);

}  // namespace evet
