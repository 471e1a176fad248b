// What two sheets say of one animal that cannot both be so.
#pragma once
#include <vector>

#include "matcher/base/message.h"
#include "matcher/catalogue/capture.h"

namespace evet {

struct Misfit {
  const char* code;  // "other_sex", "shrunk", "younger_stage"
  Message says;
};

// Of one animal, in order of time. What shrank by more than two readings are apart is told, and of one night
// neither length nor stage.
std::vector<Misfit> sheet_misfits(const CaptureFacts& earlier, const CaptureFacts& later);

// By how much two lengths of one animal may differ, mm.
double svl_tolerance_mm();

}  // namespace evet
