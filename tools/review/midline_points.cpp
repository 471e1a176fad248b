#include "tools/review/midline_points.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "matcher/base/error.h"
#include "tools/review/messages.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostPoints = 64;

double coordinate_in(std::string_view text) {
  double value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    throw Error(ErrorKind::bad_input, "field 'points'", messages::kPointIsNotTwoNumbers,
                messages::kWriteXYXY);
  return value;
}

}  // namespace

std::vector<cv::Point2d> midline_of(const std::vector<cv::Point2d>& drawn) {
  if (drawn.size() < 2 || drawn.size() > kMostPoints)
    throw Error(ErrorKind::bad_input, "field 'points'", messages::kIsNotMidline, messages::kMidlineWanted);
  const auto tenth = [](double x) { return std::round(std::clamp(x, -1e5, 1e5) * 10) / 10; };
  std::vector<cv::Point2d> out;
  for (const cv::Point2d& point : drawn) out.emplace_back(tenth(point.x), tenth(point.y));
  return out;
}

std::vector<cv::Point2d> midline_of(const std::string& text) {
  std::vector<cv::Point2d> out;
  std::string_view left = text;
  while (!left.empty() && out.size() <= kMostPoints) {
    const std::string_view point = left.substr(0, left.find(';'));
    left.remove_prefix(std::min(left.size(), point.size() + 1));
    const std::size_t comma = point.find(',');
    if (comma == std::string_view::npos)
      throw Error(ErrorKind::bad_input, "field 'points'", messages::kPointIsNotTwoNumbers,
                  messages::kWriteXYXY);
    out.emplace_back(coordinate_in(point.substr(0, comma)), coordinate_in(point.substr(comma + 1)));
  }
  return midline_of(out);
}

}  // namespace evet::review
