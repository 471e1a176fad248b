#include "matcher/pattern/make_pattern.h"

#include "matcher/base/error.h"
#include "matcher/pattern/describe.h"
#include "matcher/pattern/messages.h"
#include "matcher/pattern/pattern_code.h"
#include "matcher/pattern/spot_list.h"
#include "matcher/pattern/spot_map.h"

namespace evet {

void PatternOptions::check() const {
  if (!(min_spot_area > 0 && min_spot_area < 1))
    throw Error(ErrorKind::usage, "pattern", messages::kMinSpotAreaMustLie);
}

Pattern pattern_of(SpotMap map, double p_head_right, const PatternOptions& options) {
  options.check();
  Pattern pattern;
  pattern.spots = list_spots(map, options.min_spot_area);
  pattern.code = read_code(band_responses(map));
  pattern.descriptor = describe(map);
  pattern.map = std::move(map);
  pattern.p_head_right = p_head_right;
  return pattern;
}

Pattern make_pattern(const Strip& strip, double p_head_right, const PatternOptions& options) {
  return pattern_of(make_spot_map(strip), p_head_right, options);
}

Pattern make_pattern(const Strip& strip, const BellyShape& laid, const PatternOptions& options) {
  Pattern pattern = make_pattern(strip, laid.p_head_right, options);
  pattern.p_laid_right = laid.p_laid_right;
  return pattern;
}

}  // namespace evet
