// Every stage from photo to pattern as a picture, so that a person can see where one went wrong.
#pragma once
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "matcher/belly/find_belly.h"
#include "matcher/pattern/pattern.h"

namespace evet {

struct Drawing {
  std::string name;     // of the file, without its extension: "1-belly", in the order of the stages
  std::string caption;  // one sentence: what is to be seen
  cv::Mat picture;      // 8-bit BGR or grey
};

// Stages that were not reached are left out: a photo without a belly has the first drawings only.
// `pattern` may be null.
std::vector<Drawing> draw_stages(const Photo& photo, const BellyFinding& belly, const Pattern* pattern);

}  // namespace evet
