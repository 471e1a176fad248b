// Drawings are well-formed, named for screen readers, and do not rest on colour.
#include "models/report/plots.h"

#include <gtest/gtest.h>

#include "models/base/estimate_value.h"
#include "models/estimate.h"
#include "models/report/chart.h"
#include "models/report/svg.h"

namespace evet::models {
namespace {

// Every tag that is opened is closed, in order; enough for drawings that hold no foreign markup.
bool is_well_formed(const std::string& xml) {
  std::vector<std::string> open;
  for (std::size_t at = 0; (at = xml.find('<', at)) != std::string::npos;) {
    const std::size_t end = xml.find('>', at);
    if (end == std::string::npos) return false;
    const std::string tag = xml.substr(at + 1, end - at - 1);
    at = end;
    if (tag.back() == '/') continue;
    const std::string name =
        tag.substr(tag.front() == '/' ? 1 : 0, tag.find(' ') - (tag.front() == '/' ? 1 : 0));
    if (tag.front() != '/') {
      open.push_back(name);
    } else {
      if (open.empty() || open.back() != name) return false;
      open.pop_back();
    }
  }
  return open.empty();
}

TEST(Plots, DrawingsOfAReportAreWholeAndNamed) {
  const CaptureHistories histories = histories_from_counts({{"110010", 9},
                                                            {"011001", 8},
                                                            {"101100", 7},
                                                            {"100011", 5},
                                                            {"000110", 9},
                                                            {"100000", 8},
                                                            {"001000", 7}});
  for (const char* design : {"closed", "open"}) {
    const EstimateReport report = estimate(histories, {.design = design});
    EXPECT_GE(report.plots.size(), 3u) << design;
    for (const Plot& plot : report.plots) {
      EXPECT_TRUE(is_well_formed(plot.svg)) << plot.svg;
      EXPECT_NE(plot.svg.find("<title"), std::string::npos);
      EXPECT_NE(plot.svg.find("<desc"), std::string::npos);
      EXPECT_NE(plot.svg.find(plot.title), std::string::npos);
      EXPECT_EQ(plot.svg.find("nan"), std::string::npos) << plot.title;
      EXPECT_EQ(plot.svg.find("=\"inf"), std::string::npos) << plot.title;
    }
  }
  EXPECT_TRUE(estimate(histories, {.plots = false}).plots.empty());
  CaptureHistories grouped = histories;
  for (std::size_t i = 0; i < grouped.animal_count(); ++i)
    grouped.groups["sex"].push_back(i % 2 ? "male" : "female");
  EstimateRequest request;
  request.card = nlohmann::json::parse(
      R"({"models": [{"model": "survival", "survival": {"varies_by": ["sex"]}},
                     {"model": "survival", "survival": {"varies_by": ["sex"]}, "recapture": {"varies_by": ["occasion"]}}]})");
  bool by_group = false;
  for (const Plot& plot : estimate(grouped, request).plots)
    by_group = by_group || plot.title.find("by group") != std::string::npos;
  EXPECT_TRUE(by_group);
}

TEST(Plots, ABarWithoutEndHasAnArrowAndLabelsAreEscaped) {
  const ChartLabels labels{"Numbers <all>", "about", "occasion", "animals"};
  const std::string closed = interval_chart(labels, {{"a&b", 10, 8, 14}, {"c", 12, 9, 15}});
  const std::string endless = interval_chart(labels, {{"a&b", 10, 8, kInfinity}, {"c", 12, 9, 15}});
  EXPECT_EQ(closed.find("rotate(-90)\"/>"), std::string::npos);
  EXPECT_NE(endless.find("rotate(-90)\"/>"), std::string::npos);
  EXPECT_NE(closed.find("a&amp;b"), std::string::npos);
  EXPECT_NE(closed.find("Numbers &lt;all&gt;"), std::string::npos);
  EXPECT_TRUE(interval_chart(labels, {{"a", kUndefined, kUndefined, kUndefined}}).empty());
}

TEST(Plots, TicksAreRoundAndFew) {
  for (const auto& [low, high] :
       {std::pair{0.0, 1.0}, {0.0, 147.0}, {63.0, 65.5}, {-3.0, 3.0}, {0.0, 1e-6}, {0.0, 3e7}}) {
    const std::vector<double> ticks = round_ticks(low, high);
    EXPECT_GE(ticks.size(), 3u) << low << " " << high;
    EXPECT_LE(ticks.size(), 9u) << low << " " << high;
    EXPECT_GE(ticks.front(), low - 1e-9 * (high - low));
    EXPECT_LE(ticks.back(), high + 1e-9 * (high - low));
  }
  EXPECT_EQ(figure_text(0.25), "0.25");
  EXPECT_EQ(figure_text(1234.4), "1234");
  EXPECT_EQ(figure_text(kInfinity), "no limit");
}

}  // namespace
}  // namespace evet::models
