#include "models/ask/warnings.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "models/base/figure_text.h"
#include "models/base/told_name.h"
#include "models/closed/population_size.h"

namespace evet::models {
namespace {

void add(std::vector<std::string>& list, const std::string& sentence) {
  if (!sentence.empty() && std::find(list.begin(), list.end(), sentence) == list.end())
    list.push_back(sentence);
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i)
    text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text;
}

std::string whole(double value) {
  char text[40];
  std::snprintf(text, sizeof text, value < 10 ? "%.2f" : "%.0f", value);
  return text;
}

void thin_open_data(std::vector<std::string>& list, const CaptureHistories& histories,
                    const MArray& releases) {
  const double recaptures = releases.next.sum();
  if (recaptures == 0)
    add(list, "No animal was caught on two occasions: the data say nothing about survival or numbers.");
  else if (recaptures < 20)
    add(list, "Fewer than twenty recaptures in all: every estimate here is rough.");
  std::vector<std::string> never;
  for (Eigen::Index i = 0; i < releases.released.size(); ++i)
    if (releases.released[i] > 0 && releases.next.row(i).sum() == 0 && i + 1 < releases.released.size())
      never.push_back(histories.occasions[static_cast<std::size_t>(i)]);
  if (!never.empty() && recaptures > 0)
    add(list, "No animal let go on these occasions was seen again: " + joined(never) +
                  ". Survival from there on cannot be told by occasion.");
}

// A constant survival per interval is not one thing where the intervals differ much.
void uneven_intervals(std::vector<std::string>& list, const TimeBetween& time) {
  if (!time.uneven() || time.unit != "interval") return;
  add(list, "The time between occasions runs from " + std::to_string(std::lround(time.shortest_days)) +
                " to " + std::to_string(std::lround(time.longest_days)) +
                " days, and survival and growth are per interval, long or short, as asked: read them by "
                "occasion, not as one constant figure.");
}

void thin_occasions(std::vector<std::string>& list, const CaptureHistories& histories) {
  std::vector<std::string> empty, thin;
  for (std::size_t j = 0; j < histories.occasion_count(); ++j) {
    int caught = 0;
    for (std::size_t i = 0; i < histories.animal_count(); ++i) caught += histories.was_caught(i, j) ? 1 : 0;
    if (caught == 0) empty.push_back(histories.occasions[j]);
    if (caught > 0 && caught < 5) thin.push_back(histories.occasions[j]);
  }
  if (!empty.empty()) add(list, "Nothing was caught on occasion " + joined(empty) + ".");
  if (!thin.empty()) add(list, "Fewer than five animals were caught on occasion " + joined(thin) + ".");
}

// Does the row carry part of the answer?
bool counts(const ModelRow& row) {
  return row.has_likelihood ? row.weight >= 0.1 : false;
}

}  // namespace

std::vector<std::string> report_warnings(const EstimateReport& report, SurveyData& data) {
  std::vector<std::string> list;
  const CaptureHistories& histories = data.histories();
  if (report.design == "closed") {
    for (const std::string& sentence : thin_data_warnings(data.closed())) add(list, sentence);
  } else if (report.design == "robust") {
    thin_open_data(list, histories, data.robust().periods);
  } else if (histories.occasion_count() >= 2) {
    thin_open_data(list, histories, data.releases());
  }
  thin_occasions(list, histories);
  uneven_intervals(list, report.time);
  for (const AssumptionTest& test : report.tests)
    if (test.p_value < 0.05 && test.is_summary)
      add(list, "Test of " + test.name + " (p " + p_text(test.p_value) + "): " + test.says);
  if (report.overdispersion.used > 3) add(list, report.overdispersion.says);
  for (const Estimate& estimate : report.answer) {
    for (const std::string& sentence : estimate.warnings) add(list, sentence);
    const auto low = estimate.details.find("lowest"), high = estimate.details.find("highest");
    if (low != estimate.details.end() && high != estimate.details.end() && low->second > 0 &&
        high->second > 1.3 * low->second)
      add(list, "Models that the data cannot choose between give from " + whole(low->second) + " to " +
                    whole(high->second) + " for " + told_name(estimate.what, report.moments) +
                    ": quote the range with the average.");
  }
  for (const ModelRow& row : report.table) {
    if (!counts(row)) continue;
    if (!row.not_estimable.empty())
      add(list, "Cannot be told apart in the model \"" + row.description +
                    "\": " + joined(row.not_estimable) + ".");
    if (!row.at_boundary.empty())
      add(list, "At the end of the possible range in the model \"" + row.description +
                    "\": " + joined(row.at_boundary) + ".");
    for (const std::string& sentence : row.warnings) add(list, sentence);
  }
  return list;
}

std::vector<std::string> report_assumptions(const EstimateReport& report) {
  std::vector<std::string> list;
  bool any = false;
  for (const ModelRow& row : report.table) any = any || row.weight > 0;
  if (report.design == "closed" && any)
    for (const std::string& sentence : closed_assumptions()) add(list, sentence);
  for (const ModelRow& row : report.table) {
    const bool carries = any ? counts(row) : &row == &report.table.front();
    if (!carries) continue;
    for (const Estimate& estimate : row.estimates)
      for (const std::string& sentence : estimate.assumptions) add(list, sentence);
  }
  if (list.empty() && report.design == "closed") list = closed_assumptions();
  return list;
}

}  // namespace evet::models
