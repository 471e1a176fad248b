// From what was said to who is who: a pure function of the ledger's entries, whatever order they arrived in.
//
// Rules, in short (FORMAT.md has them in full):
// 1. A withdrawn entry is out of force; so is a verdict settled by an adjudication in force. A reader has one
//    opinion a pair, the newest, and is not held to "new" after saying "same" of that capture, or the other
//    way.
// 2. Captures are joined by the "same" verdicts of people and by a known `individual` on the sheet.
// 3. "different", two known identities, and "new" (against every capture that had been placed, as far as that
//    device knew) forbid a join. Every "same" on a chain between two captures that must not be joined is
//    contested: it joins nothing, and a dispute lists it. Nothing wins silently.
// 4. What the program accepted joins only where no person spoke and nothing above is broken.
// 5. An individual is a group of captures of which one is declared new or known by other means, or that has
//    two captures. Every other capture is unsettled, and counted as such.
#pragma once
#include "matcher/catalogue/identities.h"
#include "matcher/catalogue/retractions.h"
#include "matcher/catalogue/statements.h"
#include "matcher/catalogue/version_vectors.h"

namespace evet {

Identities fold(const Statements& statements);

// The same of a part of the ledger that holds together (see incremental_fold.h), where what is in force and who knew
// what are known of the whole. Leaves `out_of_force` empty.
Identities fold(const Statements& statements, const Retractions& retractions, const VersionVectors& versions);
// Brings disputes and overridden verdicts into their order.
void sort_findings(Identities& who);

}  // namespace evet
