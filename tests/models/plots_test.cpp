// Drawings are well-formed, named for screen readers, and do not rest on colour.
#include "models/report/plots.h"

#include <gtest/gtest.h>

#include "models/base/estimate_value.h"
#include "models/estimate.h"
#include "models/report/chart.h"
#include "models/report/svg.h"
#include "models/report/time_chart.h"

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

TEST(Plots, MovingIsDrawnFromEachPlaceToEachOther) {
  CaptureHistories histories = histories_from_counts(
      {{"110010", 29}, {"011001", 28}, {"101100", 27}, {"100011", 25}, {"000110", 29}, {"011100", 28}});
  histories.places = {"Heron Pool", "Mill <Ditch>"};
  histories.place.assign(histories.animal_count() * histories.occasion_count(), 0);
  for (std::size_t animal = 0; animal < histories.animal_count(); ++animal)
    for (std::size_t occasion = 0; occasion < histories.occasion_count(); ++occasion)
      if (histories.was_caught(animal, occasion))  // a fifth of them change places half-way
        histories.place[animal * histories.occasion_count() + occasion] =
            static_cast<std::uint8_t>(1 + (animal % 2 + (animal % 5 == 0 && occasion >= 3)) % 2);
  const EstimateReport report = estimate(histories, {.design = "open"});
  const Plot* moving = nullptr;
  for (const Plot& plot : report.plots)
    if (plot.title == "Chance of moving to another place") moving = &plot;
  ASSERT_NE(moving, nullptr);
  EXPECT_TRUE(is_well_formed(moving->svg)) << moving->svg;
  EXPECT_NE(moving->svg.find("Heron Pool to Mill &lt;Ditch&gt;"), std::string::npos) << moving->svg;
  EXPECT_NE(moving->svg.find("Mill &lt;Ditch&gt; to Heron Pool"), std::string::npos);
  EXPECT_EQ(moving->svg.find("nan"), std::string::npos);
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

std::vector<double> dots_across(const std::string& svg) {
  std::vector<double> across;
  for (std::size_t at = 0; (at = svg.find("<circle cx=\"", at)) != std::string::npos; ++at)
    across.push_back(std::stod(svg.substr(at + 12)));
  return across;
}

TEST(Plots, TimeIsToScaleAndNothingIsDrawnBetweenDates) {
  const std::string svg = time_chart({"Numbers", "about", "", "animals"}, "2031-04-10",
                                     {{0, 0, 10, 8, 14}, {366, 366, 12, 9, 15}, {1827, 1827, 9, 7, 13}});
  const std::vector<double> across = dots_across(svg);
  ASSERT_EQ(across.size(), 3u);
  EXPECT_NEAR((across[2] - across[1]) / (across[1] - across[0]), (1827.0 - 366) / 366, 0.01);
  EXPECT_EQ(svg.find("<polyline"), std::string::npos);
  for (const char* year : {">2032<", ">2033<", ">2034<", ">2035<", ">2036<"})
    EXPECT_NE(svg.find(year), std::string::npos) << year;
  EXPECT_TRUE(is_well_formed(svg));
  EXPECT_TRUE(time_chart({"Numbers", "about", "", "animals"}, "2031-04-10", {}).empty());
}

TEST(Plots, TimeMarksAreFewAndInside) {
  for (const double days : {0.0, 5.0, 44.0, 95.0, 200.0, 365.0, 800.0, 3000.0, 9000.0, 40000.0}) {
    const std::vector<TimeMark> marks = time_marks("2031-04-10", days);
    EXPECT_GE(marks.size(), 1u) << days;
    EXPECT_LE(marks.size(), 10u) << days;
    for (const TimeMark& mark : marks) {
      EXPECT_GE(mark.day, 0) << days;
      EXPECT_LE(mark.day, days) << days;
    }
  }
}

TEST(Plots, GroupsOfAQuantityShareAScale) {
  CaptureHistories h = histories_from_counts({{"110010", 12},
                                              {"011001", 11},
                                              {"101100", 10},
                                              {"100011", 8},
                                              {"000110", 12},
                                              {"100000", 11},
                                              {"001000", 10}});
  for (std::size_t i = 0; i < h.animal_count(); ++i) h.groups["sex"].push_back(i % 3 ? "male" : "female");
  for (int j = 0; j < 6; ++j) h.dates.push_back(std::to_string(2031 + j) + "-04-10");
  std::vector<std::size_t> lines;
  for (const Plot& plot : estimate(h, {.design = "open"}).plots)
    if (plot.title.starts_with("Number of animals by occasion: ")) {
      std::size_t grid = 0;
      for (std::size_t at = 0; (at = plot.svg.find("stroke-opacity", at)) != std::string::npos; ++at) ++grid;
      lines.push_back(grid);
    }
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_EQ(lines[0], lines[1]) << "the same grid";
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
