#include "tools/verdicts/sheet_misfits.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "tools/verdicts/messages.h"

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
  const auto of = [&](const MessageText& text, const char* what, std::string before, std::string after) {
    return Message(text, {{what, std::move(before)},
                          {"night", earlier.night},
                          {"other", std::move(after)},
                          {"later", later.night}});
  };
  std::vector<Misfit> out;
  if (earlier.sex != Sex::unknown && later.sex != Sex::unknown && earlier.sex != later.sex)
    out.push_back({"other_sex", of(messages::kSexDiffers, "sex", name(earlier.sex), name(later.sex))});
  if (earlier.night == later.night) return out;
  if (earlier.svl_mm && later.svl_mm && *later.svl_mm < *earlier.svl_mm - svl_tolerance_mm())
    out.push_back({"shrunk", of(messages::kLengthShrank, "mm", fmt::format("{:.4g}", *earlier.svl_mm),
                                fmt::format("{:.4g}", *later.svl_mm))});
  if (!earlier.stage.empty() && !later.stage.empty() && age_step(later.stage) < age_step(earlier.stage))
    out.push_back({"younger_stage", of(messages::kStageWentBack, "stage", earlier.stage, later.stage)});
  return out;
}

}  // namespace evet
