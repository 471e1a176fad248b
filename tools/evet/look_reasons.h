// Why a person should look at a capture, in words; the same on the command line, on the page and in the
// report.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "matcher/search/rank.h"

namespace evet {

constexpr double kTwinTold = 0.05;  // a twin less likely is not worth a sentence

struct LookNames {
  std::function<std::string(const IndividualId&)> individual;
  std::function<std::string(const CaptureId&)> capture;
};
// Of a capture advised 'look'; of another, only what must be known all the same: that another capture of the
// night may be the same new animal.
std::vector<std::string> look_reasons(const RankedCapture& ranked, const SearchOptions& costs,
                                      const LookNames& names);

}  // namespace evet
