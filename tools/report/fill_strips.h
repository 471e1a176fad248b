// Strips and the spots that answer each other, for the report.
#pragma once
#include <map>

#include "matcher/catalogue/catalogue.h"
#include "matcher/pattern/pattern.h"
#include "tools/report/night_report.h"

namespace evet {

// Patterns are made or read once a photo, however often it is shown.
class ReportStrips {
 public:
  explicit ReportStrips(Catalogue& catalogue) : catalogue_(catalogue) {}

  // Empty for a photo without a belly.
  ReportStrip strip(const CaptureState& capture, const PhotoId& photo);
  std::vector<SpotTie> ties(const CaptureState& now, const PhotoId& photo_now, const CaptureState& before,
                            const PhotoId& photo_before);

 private:
  const Pattern* pattern(const CaptureState& capture, const PhotoId& photo);

  Catalogue& catalogue_;
  std::map<PhotoId, std::optional<Pattern>> patterns_;
};

}  // namespace evet
