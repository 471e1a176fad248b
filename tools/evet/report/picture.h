// Straightened bellies as pictures inside the page.
#pragma once
#include <string>
#include <vector>

#include "tools/evet/night_report.h"

namespace evet::report {

// "data:image/jpeg;base64,...": baseline JPEG, no metadata. `bgr` may not be empty.
std::string jpeg_data_uri(const cv::Mat3b& bgr, int quality);

// What was not seen plainly is greyed and hatched, so that nobody reads spots into it.
cv::Mat3b with_unseen_hatched(const cv::Mat3b& bgr, const cv::Mat1b& valid);

// One strip with its caption, or a box that says there is no picture.
std::string strip_figure(const ReportStrip& strip, const std::string& alt, const std::string& caption);

// Two strips side by side with matched spots ringed, numbered and tied.
std::string pair_figure(const ReportStrip& now, const ReportStrip& before, const std::vector<SpotTie>& ties,
                        const std::string& alt_now, const std::string& alt_before);

}  // namespace evet::report
