#include "tools/trial/trial_plots.h"

#include <fmt/format.h>
#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "models/report/svg.h"
#include "tools/trial/messages.h"
#include "tools/words/in_words.h"

namespace evet::trial {
namespace {

using models::Svg;

constexpr double kWidth = 640, kHeight = 420, kLeft = 72, kRight = 24, kTop = 44, kBottom = 60;

double plain(double p) {
  return p;
}
double logarithm(double p) {
  return std::log10(p);
}
double normal_deviate(double p) {
  return boost::math::quantile(boost::math::normal(), p);
}

struct Axis {
  double low = 0, high = 1;  // shares; what lies outside is drawn on the edge
  double (*scale)(double) = plain;
  std::vector<double> ticks;
  double place(double p) const {
    const double a = scale(low), b = scale(high);
    return (scale(std::clamp(p, low, high)) - a) / (b - a);
  }
};

class Chart {
 public:
  Chart(const std::string& title, const std::string& about, const Axis& across, const Axis& up,
        const std::string& across_name, const std::string& up_name)
      : svg(kWidth, kHeight, title, about), across_(across), up_(up) {
    svg.text(kLeft, 24, title, Svg::Anchor::start, 0, 15);
    for (const double tick : up.ticks) {
      svg.line(kLeft, y(tick), kWidth - kRight, y(tick), Svg::Line::faint);
      svg.text(kLeft - 8, y(tick) + 4, label(tick), Svg::Anchor::end);
    }
    for (const double tick : across.ticks) {
      svg.line(x(tick), kTop, x(tick), kHeight - kBottom, Svg::Line::faint);
      svg.text(x(tick), kHeight - kBottom + 18, label(tick));
    }
    svg.line(kLeft, kTop, kLeft, kHeight - kBottom);
    svg.line(kLeft, kHeight - kBottom, kWidth - kRight, kHeight - kBottom);
    svg.text((kLeft + kWidth - kRight) / 2, kHeight - 12, across_name);
    svg.text(18, (kTop + kHeight - kBottom) / 2, up_name, Svg::Anchor::middle, -90);
  }
  double x(double p) const { return kLeft + across_.place(p) * (kWidth - kRight - kLeft); }
  double y(double p) const { return kHeight - kBottom - up_.place(p) * (kHeight - kBottom - kTop); }
  void whisker(double at, double low, double high) {
    svg.line(at, y(low), at, y(high));
    for (const double end : {low, high}) svg.line(at - 4, y(end), at + 4, y(end));
  }
  Svg svg;

 private:
  static std::string label(double p) { return fmt::format("{:.4g} %", 100 * p); }
  Axis across_, up_;
};

Picture rank_k(const Scores& s) {
  double lowest = 1;
  for (const Rate& r : s.cmc) lowest = std::min(lowest, r.low);
  Axis up;
  up.low = std::max(0.0, std::floor(lowest * 10 - 1e-9) / 10), up.high = 1;
  for (const double tick : models::round_ticks(100 * up.low, 100))
    if (tick <= 100 + 1e-9) up.ticks.push_back(tick / 100);
  Axis across{0.5, static_cast<double>(s.cmc.size()) + 0.5, plain, {}};
  Chart chart(in_words(messages::kPlotRankK), in_words(messages::kPlotRankKSays), across, up,
              in_words(messages::kPlotRankKAcross), in_words(messages::kPlotRankKUp));
  std::vector<std::pair<double, double>> line;
  for (size_t k = 0; k < s.cmc.size(); ++k) {
    const double at = chart.x(static_cast<double>(k + 1));
    chart.whisker(at, s.cmc[k].low, s.cmc[k].high);
    chart.svg.text(at, kHeight - kBottom + 18, std::to_string(k + 1));
    line.emplace_back(at, chart.y(s.cmc[k].value));
  }
  chart.svg.path(line);
  for (const auto& [at, y] : line) chart.svg.dot(at, y);
  return {"rank-k", in_words(messages::kPlotRankK), chart.svg.str()};
}

// From the least that the searches can show upwards.
Axis error_axis(double least, double most, double (*scale)(double)) {
  Axis axis;
  axis.scale = scale;
  const std::vector<double> round = {0.0001, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02,
                                     0.05,   0.1,    0.2,   0.4,   0.6,   0.8,  0.9};
  axis.low = round.front();
  for (const double tick : round)
    if (tick <= least) axis.low = tick;
  axis.high = round.back();
  for (auto tick = round.rbegin(); tick != round.rend(); ++tick)
    if (*tick >= most) axis.high = *tick;
  axis.high = std::max(axis.high, 0.1);
  const bool decades = scale == logarithm;
  for (const double tick : round)
    if (tick >= axis.low && tick <= axis.high &&
        (!decades || tick == axis.low || tick == 0.001 || tick == 0.01 || tick == 0.1 || tick == axis.high))
      axis.ticks.push_back(tick);
  return axis;
}

Picture errors(const Scores& s, bool deviates) {
  const double least_across = 0.5 / s.non_mated, least_up = 0.5 / s.mated;
  double most_up = 0, most_across = 0;
  for (const DetPoint& p : s.det)
    most_up = std::max(most_up, deviates ? p.fnir : p.high), most_across = std::max(most_across, p.fpir);
  const auto scale = deviates ? normal_deviate : logarithm;
  const Axis across = error_axis(least_across, std::min(0.9, most_across), scale),
             up = error_axis(least_up, std::min(0.9, most_up), scale);
  const std::string title = in_words(deviates ? messages::kPlotDet : messages::kPlotErrors);
  Chart chart(title, in_words(deviates ? messages::kPlotDetSays : messages::kPlotErrorsSays), across, up,
              in_words(messages::kPlotFpir), in_words(messages::kPlotFnir));
  std::vector<std::pair<double, double>> line, low, high;
  for (size_t k = 0; k < s.det.size(); ++k) {
    const DetPoint& p = s.det[k];
    if (k > 0) {  // the rate falls only at the next false positive: a step
      line.emplace_back(chart.x(p.fpir), line.back().second);
      low.emplace_back(chart.x(p.fpir), low.back().second);
      high.emplace_back(chart.x(p.fpir), high.back().second);
    }
    line.emplace_back(chart.x(p.fpir), chart.y(p.fnir));
    low.emplace_back(chart.x(p.fpir), chart.y(p.low));
    high.emplace_back(chart.x(p.fpir), chart.y(p.high));
  }
  for (auto* each : {&line, &low, &high})
    if (each->back().first < kWidth - kRight) each->emplace_back(kWidth - kRight, each->back().second);
  if (!deviates) chart.svg.path(low, Svg::Line::dashed), chart.svg.path(high, Svg::Line::dashed);
  chart.svg.path(line);
  for (const DetPoint& p : s.det)
    chart.svg.dot(chart.x(p.fpir), chart.y(p.fnir), p.fnir < up.low || p.fpir < across.low);
  return {deviates ? "det" : "fnir-fpir", title, chart.svg.str()};
}

Picture reliable(const Scores& s) {
  const Axis shares{0, 1, plain, {0, 0.2, 0.4, 0.6, 0.8, 1}};
  Chart chart(in_words(messages::kPlotReliability), in_words(messages::kPlotReliabilitySays), shares, shares,
              in_words(messages::kPlotStated), in_words(messages::kPlotRight));
  chart.svg.line(chart.x(0), chart.y(0), chart.x(1), chart.y(1), Svg::Line::dashed);
  double labelled_to = 0;
  for (const ReliabilityBin& bin : s.reliability) {
    const double at = chart.x(bin.stated);
    chart.whisker(at, bin.observed.low, bin.observed.high);
    chart.svg.dot(at, chart.y(bin.observed.value));
    constexpr double kRoom = 48;  // for a label; the table has all
    if (at < labelled_to || at > kWidth - kRight - kRoom) continue;
    chart.svg.text(at + 9, chart.y(bin.observed.value) + (bin.observed.value > 0.5 ? 16 : -8),
                   fmt::format("n={}", bin.observed.of), Svg::Anchor::start, 0, 11);
    labelled_to = at + kRoom + 9;
  }
  return {"reliability", in_words(messages::kPlotReliability), chart.svg.str()};
}

}  // namespace

std::vector<Picture> pictures(const Scores& scores) {
  std::vector<Picture> out;
  if (scores.mated > 0) out.push_back(rank_k(scores));
  if (!scores.det.empty()) out.push_back(errors(scores, false)), out.push_back(errors(scores, true));
  if (!scores.reliability.empty()) out.push_back(reliable(scores));
  return out;
}

}  // namespace evet::trial
