#include "tools/verdicts/sheet_misfits.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace evet {
namespace {

std::ptrdiff_t age_step(const std::string& stage) {
  static constexpr std::array<const char*, 4> kOrder{"metamorph", "juvenile", "subadult", "adult"};
  return std::find(kOrder.begin(), kOrder.end(), stage) - kOrder.begin();
}

}  // namespace

double svl_tolerance_mm() {
  return 4;  // snout-vent length is read to about 2 mm, twice; common practice, no source
}

std::vector<Misfit> sheet_misfits(const CaptureFacts& earlier, const CaptureFacts& later) {
  std::vector<Misfit> out;
  if (earlier.sex != Sex::unknown && later.sex != Sex::unknown && earlier.sex != later.sex)
    out.push_back({"other_sex", fmt::format("sex: {} on {}, {} on {}", name(earlier.sex), earlier.night,
                                            name(later.sex), later.night)});
  if (earlier.night == later.night) return out;
  if (earlier.svl_mm && later.svl_mm && *later.svl_mm < *earlier.svl_mm - svl_tolerance_mm())
    out.push_back({"shrunk", fmt::format("length: {:.4g} mm on {}, only {:.4g} mm on {}", *earlier.svl_mm,
                                         earlier.night, *later.svl_mm, later.night)});
  if (!earlier.stage.empty() && !later.stage.empty() && age_step(later.stage) < age_step(earlier.stage))
    out.push_back({"younger_stage", fmt::format("stage: {} on {}, {} on {}", earlier.stage, earlier.night,
                                                later.stage, later.night)});
  return out;
}

}  // namespace evet
