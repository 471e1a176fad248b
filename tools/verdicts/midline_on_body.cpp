#include "tools/verdicts/midline_on_body.h"

#include <fmt/format.h>

#include <cmath>

#include "matcher/belly/network_provider.h"
#include "matcher/pattern/examine.h"
#include "tools/verdicts/messages.h"

namespace evet {
namespace {

constexpr int kSamples = 200;  // along the line

// The point at a share of the polyline's length.
cv::Point2d along(const std::vector<cv::Point2d>& line, double share) {
  double whole = 0;
  for (size_t i = 1; i < line.size(); ++i) whole += cv::norm(line[i] - line[i - 1]);
  double left = share * whole;
  for (size_t i = 1; i < line.size(); ++i) {
    const double step = cv::norm(line[i] - line[i - 1]);
    if (step > 0 && left <= step) return line[i - 1] + (line[i] - line[i - 1]) * (left / step);
    left -= step;
  }
  return line.back();
}

}  // namespace

double share_on_belly(const Photo& photo, const std::vector<cv::Point2d>& midline) {
  const BodyCoordinates found = coordinates_from_network(photo);
  if (found.p_belly.empty()) return 0;
  const cv::Matx23d& to_photo = found.photo_from_grid;
  const cv::Matx22d turn(to_photo(0, 0), to_photo(0, 1), to_photo(1, 0), to_photo(1, 1));
  const cv::Matx22d back = turn.inv();
  int on = 0;
  for (int i = 0; i < kSamples; ++i) {
    const cv::Point2d at = along(midline, (i + 0.5) / kSamples) / photo.full_per_px;
    const cv::Vec2d grid = back * cv::Vec2d(at.x - to_photo(0, 2), at.y - to_photo(1, 2));
    const int column = static_cast<int>(std::floor(grid[0])), row = static_cast<int>(std::floor(grid[1]));
    const bool inside = row >= 0 && row < found.p_belly.rows && column >= 0 && column < found.p_belly.cols;
    on += inside && found.p_belly(row, column) > 0.5F;
  }
  return static_cast<double>(on) / kSamples;
}

std::vector<Against> objections_to_midline(std::span<const std::byte> file, const CaptureId& capture,
                                           const std::string& item, const std::vector<cv::Point2d>& midline) {
  const Photo photo = decode_photo(file, item, ExamineOptions{}.decode);
  const double share = share_on_belly(photo, midline);
  if (share >= kOnBelly) return {};
  return {{{"midline_off_body",
            Message(messages::kLineOffBelly, {{"percent", fmt::format("{:.0f}", 100 * (1 - share))}}).words(),
            {}},
           capture,
           {}}};
}

}  // namespace evet
