// Why a capture stands in the queue where it stands, and who settled the others, in words.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "matcher/catalogue/people_said.h"
#include "matcher/search/rank.h"

namespace evet::review {

// `people` and `search`: what it was ranked with.
std::vector<std::string> why(const RankedCapture& ranked, const PeopleSaid& people,
                             const SearchOptions& search, const CaptureState& capture, const Identities& who);
// `readers`: of each capture, who gave the newest verdict.
std::string settled_by(const CaptureState& capture, const std::map<CaptureId, std::string>& readers);

}  // namespace evet::review
