// The discovery curve: how many different animals after how many captures.
#pragma once
#include <string>
#include <vector>

#include "tools/report/night_report.h"

namespace evet::report {

// An inline SVG that takes its colours from the page, or an empty string for fewer than two points. A curve
// that bends away from the diagonal ("every capture a new animal") shows a pond of which much is known.
std::string discovery_plot(const std::vector<DiscoveryPoint>& points);

// A round step that cuts 0..`most` into three to six parts: 1, 2 or 5 times a power of ten, at least 1.
int tick_step(int most);

}  // namespace evet::report
