#include "tools/report/discovery_plot.h"

#include <algorithm>
#include <iterator>

#include "fmt/format.h"
#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/markup.h"
#include "tools/words/messages.h"

namespace evet::report {
namespace {

constexpr double kLeft = 56, kTop = 18, kWidth = 560, kHeight = 260, kRight = 124, kBottom = 48;

}  // namespace

int tick_step(int most) {
  for (int power = 1;; power *= 10)
    for (const int digit : {1, 2, 5})
      if (most <= 6 * digit * power) return digit * power;
}

std::string discovery_plot(const std::vector<DiscoveryPoint>& points) {
  if (points.size() < 2) return {};
  const DiscoveryPoint& last = points.back();
  const int step_x = tick_step(std::max(1, last.captures)), step_y = tick_step(std::max(1, last.individuals));
  const int most_x = (last.captures + step_x - 1) / step_x * step_x;
  const int most_y = std::max(step_y, (last.individuals * 11 / 10 + step_y - 1) / step_y * step_y);
  const auto x = [&](double captures) { return kLeft + captures / most_x * kWidth; };
  const auto y = [&](double individuals) { return kTop + kHeight - individuals / most_y * kHeight; };

  std::string svg = fmt::format(
      R"(<svg class="plot" viewBox="0 0 {} {}" role="img" aria-label="{}">)", kLeft + kWidth + kRight,
      kTop + kHeight + kBottom,
      html(messages::kAltOfDiscovery, {{"animals", static_cast<std::size_t>(last.individuals)},
                                       {"captures", escaped(counted(last.captures, messages::kCaptures))}}));
  auto out = std::back_inserter(svg);
  for (int tick = 0; tick <= most_y; tick += step_y)
    fmt::format_to(
        out,
        R"(<line class="grid" x1="{}" x2="{}" y1="{:.1f}" y2="{:.1f}"/><text class="end" x="{}" y="{:.1f}" dy="0.36em">{}</text>)",
        kLeft, kLeft + kWidth, y(tick), y(tick), kLeft - 8, y(tick), tick);
  for (int tick = 0; tick <= most_x; tick += step_x)
    fmt::format_to(out, R"(<text class="mid" x="{:.1f}" y="{}">{}</text>)", x(tick), kTop + kHeight + 18,
                   tick);
  fmt::format_to(out, R"(<text class="mid name" x="{}" y="{}">{}</text>)", kLeft + kWidth / 2,
                 kTop + kHeight + 40, html(messages::kCapturesSoFar));
  fmt::format_to(out, R"svg(<text class="mid name" transform="translate(14 {}) rotate(-90)">{}</text>)svg",
                 kTop + kHeight / 2, html(messages::kDifferentAnimals));
  const double reach = std::min(most_x, most_y);
  fmt::format_to(out, R"(<line class="diagonal" x1="{:.1f}" y1="{:.1f}" x2="{:.1f}" y2="{:.1f}"/>)", x(0),
                 y(0), x(reach), y(reach));
  fmt::format_to(out, R"(<text class="aside" x="{:.1f}" y="{:.1f}">{}</text>)", x(reach) + 8, y(reach) + 12,
                 html(messages::kEveryCaptureNew));

  std::string path = fmt::format("M{:.1f} {:.1f}", x(0), y(0)), dots;
  for (const DiscoveryPoint& p : points) {
    path += fmt::format("L{:.1f} {:.1f}", x(p.captures), y(p.individuals));
    dots +=
        fmt::format(R"(<circle cx="{:.1f}" cy="{:.1f}" r="4"><title>{}</title></circle>)", x(p.captures),
                    y(p.individuals),
                    html(messages::kDiscoveryDot, {{"night", escaped(long_date(p.night))},
                                                   {"captures", static_cast<std::size_t>(p.captures)},
                                                   {"animals", static_cast<std::size_t>(p.individuals)}}));
  }
  fmt::format_to(out, R"(<path class="curve" d="{}"/><g class="dots">{}</g>)", path, dots);
  fmt::format_to(out, R"(<text class="strong" x="{:.1f}" y="{:.1f}" dy="0.36em">{}</text></svg>)",
                 x(last.captures) + 10, y(last.individuals),
                 html(messages::kDiscoveryEnd, {{"animals", static_cast<std::size_t>(last.individuals)}}));
  return svg;
}

}  // namespace evet::report
