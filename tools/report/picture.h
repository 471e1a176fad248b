// Straightened bellies as pictures inside the page.
#pragma once
#include <string>
#include <vector>

#include "tools/report/night_report.h"

namespace evet::report {

// "data:image/jpeg;base64,...": baseline JPEG, no metadata. `bgr` may not be empty.
std::string jpeg_data_uri(const cv::Mat3b& bgr, int quality);

// What was not seen plainly is greyed and hatched, so that nobody reads spots into it.
cv::Mat3b with_unseen_hatched(const cv::Mat3b& bgr, const cv::Mat1b& valid);

// A strip and what stands under it (HTML).
struct Labelled {
  const ReportStrip& strip;
  std::string alt;
  std::string caption;
};

// One strip, or a box that says there is no picture.
std::string strip_figure(const Labelled& one);

// Two strips side by side; matched spots are ringed, numbered and tied, at most twelve of them, evenly along
// the body.
std::string pair_figure(const Labelled& now, const Labelled& before, const std::vector<SpotTie>& ties);

}  // namespace evet::report
