// Do photos that were put to one capture show one animal?
#pragma once
#include <optional>

#include "matcher/catalogue/catalogue.h"

namespace evet {

// The log-likelihood ratio, same against different, of two photos, with the doubt about how their strips lie.
double agreement_of(const Pattern& one, const Pattern& other);

// The lowest log-likelihood ratio, same against different, of any two usable photos of the capture, with the
// doubt about how their strips lie. Nothing where there are fewer than two that can be compared. Sums over
// pairs would count one bad photo several times.
std::optional<double> least_agreement(Catalogue& catalogue, const CaptureState& capture);
// The highest of any photo of the one with any of the other: one good view settles it.
std::optional<double> best_agreement(Catalogue& catalogue, const CaptureState& capture,
                                     const CaptureState& other);

}  // namespace evet
