// An invented night for tests of the report: pond, people and animals are made up, strips are
// drawn from a seed.
#pragma once
#include <cstdint>

#include "tools/report/night_report.h"

namespace evet::samples {

// Dark spots on orange; the same `animal` gives the same spots, a little shifted for every `capture`.
ReportStrip strip(std::uint32_t animal, std::uint32_t capture, const std::string& night);
NightReport night();

}  // namespace evet::samples
