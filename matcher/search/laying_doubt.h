// What a likelihood ratio is worth where it is in doubt how the two strips were laid.
//
// A strip that lies beside the belly looks like no other animal's and like none of its own either: it says
// nothing, its ratio is 1. With probability q that both strips lie right, the ratio is the mixture
// q LR + (1 - q) (total probability). So a doubtful strip can never say "new" with conviction, while a match,
// which chance does not make, loses next to nothing. Which way round the match lies has a probability as
// well, from both head ends'.
#pragma once
#include "matcher/pattern/pattern.h"

namespace evet {

// `llr`: natural log, of the patterns laid the same way or, if `turned`, end for end.
double doubted_llr(double llr, const Pattern& query, const Pattern& gallery, bool turned);

}  // namespace evet
