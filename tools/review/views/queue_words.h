// Why a capture stands in the queue where it stands, and who settled the others, in words.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "tools/review/ranked_nights.h"

namespace evet::review {

std::vector<std::string> why(const RankedNight& night, const RankedCapture& ranked,
                             const CaptureState& capture, const Identities& who);
// `readers`: of each capture, who gave the newest verdict.
std::string settled_by(const CaptureState& capture, const std::map<CaptureId, std::string>& readers);

}  // namespace evet::review
