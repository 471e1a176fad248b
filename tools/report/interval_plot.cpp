#include "tools/report/interval_plot.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "fmt/format.h"
#include "tools/report/discovery_plot.h"
#include "tools/report/html.h"

namespace evet::report {
namespace {

constexpr double kNamesWidth = 140, kScaleWidth = 500, kMarginRight = 30, kRow = 34, kAxis = 30;

bool can_be_drawn(const models::Estimate& e) {
  return std::isfinite(e.value) && e.value >= 0 && !e.intervals.empty() &&
         std::isfinite(e.intervals[0].lower) && !std::isnan(e.intervals[0].upper);
}

}  // namespace

std::string interval_plot(const std::vector<std::pair<std::string, const models::Estimate*>>& rows) {
  double most = 0;
  std::vector<std::pair<std::string, const models::Estimate*>> drawn;
  for (const auto& row : rows) {
    const models::Estimate& e = *row.second;
    if (!can_be_drawn(e)) continue;
    drawn.push_back(row);
    most = std::max({most, e.value, std::isinf(e.intervals[0].upper) ? 1.5 * e.value : e.intervals[0].upper});
  }
  // Counts of animals; a share such as survival is plain enough in the table.
  if (drawn.empty() || most < 3 || most > 1e8) return {};
  const int step = tick_step(static_cast<int>(std::ceil(most)));
  const double end = std::ceil(most / step) * step;
  const auto x = [&](double value) { return kNamesWidth + std::clamp(value, 0.0, end) / end * kScaleWidth; };
  const double bottom = kRow * static_cast<double>(drawn.size());

  std::string svg = fmt::format(R"(<svg class="plot intervals" viewBox="0 0 {} {}" aria-hidden="true">)",
                                kNamesWidth + kScaleWidth + kMarginRight, bottom + kAxis);
  auto out = std::back_inserter(svg);
  for (double tick = 0; tick <= end; tick += step)
    fmt::format_to(
        out,
        R"(<line class="grid" x1="{0:.1f}" x2="{0:.1f}" y1="4" y2="{1}"/><text class="mid" x="{0:.1f}" y="{2}">{3:.0f}</text>)",
        x(tick), bottom, bottom + 18, tick);
  for (std::size_t i = 0; i < drawn.size(); ++i) {
    const models::Estimate& e = *drawn[i].second;
    const models::Interval& limits = e.intervals[0];
    const double y = kRow * (static_cast<double>(i) + 0.5);
    fmt::format_to(out, R"(<text class="end" x="{}" y="{}" dy="0.36em">{}</text>)", kNamesWidth - 12, y,
                   escaped(drawn[i].first));
    fmt::format_to(out, R"(<line class="reach" x1="{:.1f}" x2="{:.1f}" y1="{}" y2="{}"/>)", x(limits.lower),
                   x(limits.upper), y, y);
    if (std::isinf(limits.upper))
      fmt::format_to(out, R"(<path class="arrow" d="M{:.1f} {}l10 6l-10 6z"/>)", x(end), y - 6);
    fmt::format_to(out, R"(<circle class="value" cx="{:.1f}" cy="{}" r="5.5"/>)", x(e.value), y);
  }
  return svg + "</svg>\n";
}

}  // namespace evet::report
