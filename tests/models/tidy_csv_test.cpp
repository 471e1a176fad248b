// Tables as CSV: one row an estimate, read back by the reader of CSV, and names with dates.
#include "models/report/tidy_csv.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "matcher/base/csv.h"
#include "models/base/parameter_words.h"
#include "models/estimate.h"
#include "models/report/plain_answer.h"
#include "models/report/report_text.h"

namespace evet::models {
namespace {

CaptureHistories dated() {
  CaptureHistories histories = histories_from_counts({{"1100", 9},
                                                      {"0110", 8},
                                                      {"0011", 9},
                                                      {"1010", 5},
                                                      {"1001", 2},
                                                      {"1000", 9},
                                                      {"0100", 7},
                                                      {"0001", 8}});
  histories.dates = {"2031-04-01", "2031-05-01", "2031-06-01", "2031-07-01"};
  histories.occasions = histories.dates;
  return histories;
}

// An apostrophe before a number makes a column of words of it, in R as in Python.
TEST(TidyCsv, NumbersBelowNoughtStayNumbersAndFormulasDoNot) {
  for (const char* number : {"-0.188301639793221", "-1", "-1e-05", "-Inf", "12.5", "0"})
    EXPECT_EQ(csv_field(number), number);
  for (const char* formula : {"=1+1", "-1+2", "+1", "@SUM(A1)", "-", "-cmd"})
    EXPECT_EQ(csv_field(formula), std::string("'") + formula);
}

TEST(TidyCsv, HasOneRowAnEstimate) {
  const EstimateReport report = estimate(dated(), {.design = "open", .plots = false});
  const std::vector<CsvRecord> rows = read_csv(estimates_csv(report), ',').records;
  std::size_t estimates = report.answer.size();
  for (const ModelRow& row : report.table) estimates += row.estimates.size();
  ASSERT_EQ(rows.size(), estimates + 1);
  std::map<std::string, std::size_t> column;
  for (std::size_t c = 0; c < rows[0].fields.size(); ++c) column[rows[0].fields[c]] = c;
  for (std::size_t r = 0; r < report.answer.size(); ++r) {
    const auto& cells = rows[r + 1].fields;
    ASSERT_EQ(cells.size(), rows[0].fields.size());
    EXPECT_EQ(cells[column.at("model")], "answer");
    const Estimate& estimate = report.answer[r];
    if (std::isfinite(estimate.value)) {
      EXPECT_NEAR(std::stod(cells[column.at("estimate")]), estimate.value, 1e-9 * std::abs(estimate.value));
    } else {
      EXPECT_TRUE(cells[column.at("estimate")].empty() || cells[column.at("estimate")] == "Inf");
    }
    if (estimate.what == Parameter{Quantity::number, 2}) {
      EXPECT_EQ(cells[column.at("time")], "2031-05-01");
    }
    if (estimate.what == Parameter{Quantity::survival, 1}) {
      EXPECT_EQ(cells[column.at("time")], "2031-04-01 to 2031-05-01");
    }
  }
  EXPECT_GT(read_csv(models_csv(report), ',').records.size(), 5u);
  EXPECT_GT(read_csv(tests_csv(report), ',').records.size(), 1u);
}

TEST(ParameterWords, SaysDatesWhereThereAreAny) {
  const std::vector<Moment> dates = {"2031-04-01", "2031-05-01"}, numbers = {"1", "2"},
                            periods = {{"2031-04-10", "2031-04-14"}, {"2032-04-09", "2032-04-12"}};
  EXPECT_EQ(dated_words({Quantity::number, 2}, dates), "N, 2031-05-01");
  EXPECT_EQ(dated_words({Quantity::survival, 1, {{"sex", "male"}}}, dates),
            "survival, 2031-04-01 to 2031-05-01, male");
  EXPECT_EQ(dated_words({Quantity::number, 2}, numbers), "N 2");
  EXPECT_EQ(dated_words({Quantity::number, 2}, periods), "N, 2032-04-09 to 2032-04-12");
  EXPECT_EQ(dated_words({Quantity::survival, 1}, periods), "survival, 2031-04-10 to 2032-04-09");
  EXPECT_EQ(dated_words({Quantity::entry, 0}, dates), "entry, 2031-04-01");
  EXPECT_EQ(dated_words({Quantity::survival}, dates), "survival");
}

TEST(PlainAnswer, ComesFirstAndInPlainWords) {
  const EstimateReport two =
      estimate(histories_from_counts({{"10", 12}, {"01", 9}, {"11", 11}}), {.plots = false});
  EXPECT_EQ(plain_answer(two).find("About 41 animals, likely "), 0u) << plain_answer(two);
  EXPECT_EQ(to_text(two).find("About 41 animals"), 0u);
  const EstimateReport endless =
      estimate(histories_from_counts({{"100", 12}, {"010", 9}, {"001", 11}}), {.plots = false});
  EXPECT_NE(plain_answer(endless).find("no upper limit"), std::string::npos) << plain_answer(endless);
  const std::string open = plain_answer(estimate(dated(), {.design = "open", .plots = false}));
  EXPECT_NE(open.find("animals were there on 2031-0"), std::string::npos) << open;
  const std::string text = to_text(estimate(dated(), {.design = "open", .plots = false}));
  EXPECT_NE(text.find("N, 2031-05-01"), std::string::npos);
  // The order of columns in papers.
  const std::size_t header = text.find("parameters");
  EXPECT_LT(header, text.find("-2 ln L"));
  EXPECT_LT(text.find("-2 ln L"), text.find("AICc", header));
  EXPECT_LT(text.find("AICc", header), text.find("difference", header));
  EXPECT_LT(text.find("difference", header), text.find("weight", header));
}

}  // namespace
}  // namespace evet::models
