#include "models/ask/warnings.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "models/ask/messages.h"
#include "models/base/figure_text.h"
#include "models/base/parameter_words.h"
#include "models/closed/population_size.h"

namespace evet::models {
namespace {

std::string limit_text(double value) {
  return with_decimals(value, value < 10 ? 2 : 0);
}

void thin_open_data(Sentences& list, const CaptureHistories& histories, const MArray& releases) {
  const double recaptures = releases.next.sum();
  if (recaptures == 0)
    add_once(list, messages::kNoneOnTwoOccasions);
  else if (recaptures < 20)
    add_once(list, messages::kFewerThanTwenty);
  std::vector<std::string> never;
  for (Eigen::Index i = 0; i < releases.released.size(); ++i)
    if (releases.released[i] > 0 && releases.next.row(i).sum() == 0 && i + 1 < releases.released.size())
      never.push_back(histories.occasions[static_cast<std::size_t>(i)]);
  if (!never.empty() && recaptures > 0)
    add_once(list, {messages::kNoneSeenAgain, {{"occasions", listed(never)}}});
}

// A constant survival per interval is not one thing where the intervals differ much.
void uneven_intervals(Sentences& list, const TimeBetween& time) {
  if (!time.uneven() || time.unit != "interval") return;
  add_once(list, {messages::kUnevenIntervals,
                  {{"shortest", std::to_string(std::lround(time.shortest_days))},
                   {"longest", std::to_string(std::lround(time.longest_days))}}});
}

void thin_occasions(Sentences& list, const CaptureHistories& histories) {
  std::vector<std::string> empty, thin;
  for (std::size_t j = 0; j < histories.occasion_count(); ++j) {
    int caught = 0;
    for (std::size_t i = 0; i < histories.animal_count(); ++i) caught += histories.was_caught(i, j) ? 1 : 0;
    if (caught == 0) empty.push_back(histories.occasions[j]);
    if (caught > 0 && caught < 5) thin.push_back(histories.occasions[j]);
  }
  if (!empty.empty()) add_once(list, {messages::kNothingCaughtOn, {{"occasions", listed(empty)}}});
  if (!thin.empty()) add_once(list, {messages::kFewerThanFiveOn, {{"occasions", listed(thin)}}});
}

// Does the row carry part of the answer?
bool counts(const ModelRow& row) {
  return row.has_likelihood ? row.weight >= 0.1 : false;
}

// A figure of the answer comes from several models with weight.
bool averages_models(const EstimateReport& report) {
  return std::any_of(report.answer.begin(), report.answer.end(), [](const Estimate& estimate) {
    const auto models = estimate.details.find("models");
    return models != estimate.details.end() && models->second > 1;
  });
}

std::vector<std::string> each_named(const std::vector<Parameter>& parameters) {
  std::vector<std::string> names;
  for (const Parameter& one : parameters) names.push_back(parameter_words(one));
  return names;
}

// One chance for all intervals, and one for each, are answers of different models.
void alike_and_by_interval(Sentences& list, const std::vector<Estimate>& answer) {
  for (const Estimate& alike : answer) {
    const auto by_interval = [&](const Estimate& one) {
      return one.what.quantity == alike.what.quantity && one.what.groups == alike.what.groups &&
             one.what.index;
    };
    if (alike.what.index || has_total(alike.what.quantity) ||
        !std::any_of(answer.begin(), answer.end(), by_interval))
      continue;
    add_once(list, {messages::kAlikeOrByInterval, {{"quantity", words_of(alike.what.quantity).words()}}});
  }
}

}  // namespace

Sentences report_warnings(const EstimateReport& report, SurveyData& data) {
  Sentences list;
  const CaptureHistories& histories = data.histories();
  if (report.design == "closed") {
    for (const Message& sentence : thin_data_warnings(data.closed())) add_once(list, sentence);
  } else if (report.design == "robust") {
    thin_open_data(list, histories, data.robust().periods);
  } else if (histories.occasion_count() >= 2) {
    thin_open_data(list, histories, data.releases());
  }
  thin_occasions(list, histories);
  uneven_intervals(list, report.time);
  for (const AssumptionTest& test : report.tests)
    if (test.p_value < 0.05 && test.is_summary)
      add_once(list, {messages::kTestFails,
                      {{"test", test.name}, {"p", p_text(test.p_value)}, {"says", words(test.says)}}});
  if (report.overdispersion.used > 3)
    for (const Message& sentence : report.overdispersion.says) list.push_back(sentence);
  for (const Estimate& estimate : report.answer) {
    for (const Message& sentence : estimate.warnings) add_once(list, sentence);
    const auto low = estimate.details.find("lowest"), high = estimate.details.find("highest");
    if (low != estimate.details.end() && high != estimate.details.end() && low->second > 0 &&
        high->second > 1.3 * low->second)
      add_once(list, {messages::kModelsDisagree,
                      {{"lowest", limit_text(low->second)},
                       {"highest", limit_text(high->second)},
                       {"quantity", dated_words(estimate.what, report.moments)}}});
  }
  alike_and_by_interval(list, report.answer);
  for (const ModelRow& row : report.table) {
    if (!counts(row)) continue;
    if (!row.not_estimable.empty())
      add_once(list, {messages::kNotToldApartIn,
                      {{"model", row.description}, {"parameters", listed(each_named(row.not_estimable))}}});
    if (!row.at_boundary.empty())
      add_once(list, {messages::kAtEndOfRangeIn,
                      {{"model", row.description}, {"parameters", listed(each_named(row.at_boundary))}}});
    for (const Message& sentence : row.warnings) add_once(list, sentence);
  }
  return list;
}

Sentences report_assumptions(const EstimateReport& report) {
  Sentences list;
  bool any = false;
  for (const ModelRow& row : report.table) any = any || row.weight > 0;
  if (report.design == "closed" && any)
    for (const Message& sentence : closed_assumptions()) add_once(list, sentence);
  for (const ModelRow& row : report.table) {
    const bool carries = any ? counts(row) : &row == &report.table.front();
    if (!carries) continue;
    for (const Estimate& estimate : row.estimates)
      for (const Message& sentence : estimate.assumptions) add_once(list, sentence);
  }
  if (list.empty() && report.design == "closed") list = closed_assumptions();
  if (averages_models(report)) add_once(list, messages::kAveragedLimits);
  return list;
}

}  // namespace evet::models
