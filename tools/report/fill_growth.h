// The report's figures of the whole catalogue: how it grew, and how many animals there are.
#pragma once
#include "matcher/catalogue/catalogue.h"
#include "tools/report/night_report.h"

namespace evet {

// Of the report's place, up to and with its night.
std::vector<DiscoveryPoint> discovery(const Identities& who, const NightReport& report);

// Fills `estimates`, or `no_estimate` with the reason: from the nights of the same calendar year at the same
// place, up to and with this one.
void estimate_numbers(Catalogue& catalogue, const Identities& who, int threads, NightReport& report);

}  // namespace evet
