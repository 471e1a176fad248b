// Random data sets that break estimators, and what a report on them must still hold to. Used by the test on a
// part of them and by the benchmark on all.
#pragma once
#include <cmath>
#include <string>
#include <vector>

#include "models/base/input_error.h"
#include "models/base/random.h"
#include "models/estimate.h"
#include "models/report/report_text.h"

namespace evet::models::testing {

// Nobody, everybody or only the same ones recaptured, one occasion, one animal, empty columns,
// all lost, caught once each, caught always, few caught; with groups, a covariate, losses and
// primary periods at random.
inline CaptureHistories degenerate_histories(std::uint64_t seed) {
  Random random(seed);
  CaptureHistories histories;
  const std::size_t t = 1 + random.below(8);
  std::size_t n = random.below(3) == 0 ? 1 + random.below(3) : 1 + random.below(30);
  if (random.chance(0.02)) n = 0;
  const std::uint64_t kind = random.below(10);
  for (std::size_t j = 0; j < t; ++j) histories.occasions.push_back(std::to_string(j + 1));
  std::vector<bool> empty(t, false);
  if (kind == 5)
    for (std::size_t j = 1; j < t; ++j) empty[j] = random.chance(0.5);
  const double p = random.uniform() * random.uniform();
  std::vector<std::uint8_t> same(t);
  for (std::uint8_t& cell : same) cell = random.chance(0.5) ? 1 : 0;
  for (std::size_t i = 0; i < n; ++i) {
    std::vector<std::uint8_t> row(t, 0);
    if (kind == 0)
      row[random.below(t)] = 1;  // nobody caught again
    else if (kind == 1)
      row.assign(t, 1);  // everybody always
    else if (kind == 2)
      row = same;  // all alike
    else if (kind == 3)
      row[0] = 1;  // all on the first occasion
    else if (kind == 4)
      row[0] = row[t - 1] = 1;  // all on the first and the last
    else
      for (std::size_t j = 0; j < t; ++j) row[j] = !empty[j] && random.chance(kind == 6 ? 0.95 : p) ? 1 : 0;
    bool caught = false;
    for (std::uint8_t& cell : row) {
      if (kind == 7 && caught) cell = 0;  // taken out when first caught
      caught = caught || cell;
    }
    if (!caught) row[0] = 1;
    histories.animals.push_back(std::to_string(i));
    histories.caught.insert(histories.caught.end(), row.begin(), row.end());
    histories.groups["sex"].push_back(random.chance(0.5) ? "female" : "male");
    histories.covariates["svl_mm"].push_back(random.chance(0.3) ? 60 : 60 + random.normal());
  }
  if (kind == 7 || kind == 8 || random.chance(0.1))
    for (std::size_t i = 0; i < n; ++i) histories.lost.push_back(kind == 7 || random.chance(0.4) ? 1 : 0);
  if (random.chance(0.3))
    for (std::size_t j = 0, period = 0; j < t; ++j) {
      period += j > 0 && random.chance(0.4) ? 1 : 0;
      histories.primary.push_back(static_cast<int>(period));
    }
  return histories;
}

// Every family in turn, by default set and by card.
inline EstimateRequest degenerate_request(std::uint64_t seed) {
  EstimateRequest request;
  request.plots = seed % 10 == 0;
  switch (seed % 5) {
    case 0:
      request.design = "closed";
      break;
    case 1:
      request.design = "open";
      break;
    case 2:
      request.design = seed % 2 ? "robust" : "auto";
      break;
    case 3:
      request.card = nlohmann::json::parse(R"({"models": [
        {"model": "conditional", "capture": {"varies_by": ["sex"], "linear_in": ["svl_mm"], "after_capture": true}},
        {"model": "conditional", "capture": {"varies_by": ["occasion"]}},
        "removal", "chao", "chao-occasions", "sample-coverage-occasions", "binomial-batch"]})");
      break;
    default:
      request.card = nlohmann::json::parse(R"({"models": [
        {"model": "survival", "survival": {"varies_by": ["occasion", "sex"], "each_combination": true},
         "recapture": {"linear_in": ["svl_mm"]}},
        {"model": "growth", "survival": {"varies_by": ["occasion"]}, "capture": {"varies_by": ["occasion"]},
         "recruitment": {"varies_by": ["occasion"]}},
        {"model": "growth", "seniority": "constant"},
        {"model": "super-population", "survival": {"varies_by": ["occasion"]}, "capture": {"varies_by": ["occasion"]}}
        ]})");
  }
  return request;
}

// What is wrong with an estimate, or nothing.
inline std::string fault_of(const Estimate& e, double seen) {
  if (std::isnan(e.value) && e.undefined.empty()) return "not-a-number without a reason";
  if (std::isinf(e.value) && e.undefined.empty()) return "infinite without a reason";
  if (std::isnan(e.standard_error) && e.undefined.empty()) return "no standard error and no reason";
  if (std::isinf(e.standard_error)) return "an infinite standard error";
  if (e.intervals.empty()) return "no interval";
  if (e.parameter == "N" && std::isfinite(e.value) && e.value < seen - 1e-6) return "fewer than were seen";
  for (const Interval& i : e.intervals) {
    const double slack = std::isfinite(e.value) ? 1e-6 * (1 + std::abs(e.value)) : 0;
    if (std::isnan(i.lower) || std::isnan(i.upper)) return "a limit that is not a number";
    if (i.lower > i.upper + slack) return "limits the wrong way round";
    if (std::isfinite(e.value) && (e.value < i.lower - slack || e.value > i.upper + slack))
      return "outside its interval by " + i.method.words();
  }
  return {};
}

// That no model of the table gives it, where one does.
inline bool says_that_none_gives(const Estimate& answer, const EstimateReport& report) {
  if (answer.undefined.words().find("no model of the table") == std::string::npos) return false;
  for (const ModelRow& row : report.table)
    for (const Estimate& one : row.estimates)
      if (one.what == answer.what && std::isfinite(one.value) && one.undefined.empty()) return true;
  return false;
}

// All faults of the report on one data set, one a line; refused with a reason counts as no fault.
inline std::string degenerate_faults(std::uint64_t seed, bool& refused) {
  const CaptureHistories histories = degenerate_histories(seed);
  std::string faults;
  const auto check = [&](const std::string& where, const std::vector<Estimate>& estimates) {
    for (const Estimate& estimate : estimates)
      if (const std::string fault = fault_of(estimate, static_cast<double>(histories.animal_count()));
          !fault.empty())
        faults += "data set " + std::to_string(seed) + ", " + where + ", " + estimate.parameter + ": " +
                  fault + "\n";
  };
  refused = false;
  try {
    const EstimateReport report = estimate(histories, degenerate_request(seed));
    check("answer", report.answer);
    for (const ModelRow& row : report.table) check(row.description, row.estimates);
    for (const Estimate& estimate : report.answer)
      if (says_that_none_gives(estimate, report))
        faults += "data set " + std::to_string(seed) + ", " + estimate.parameter +
                  ": no model is said to give it, and one does\n";
    if (report.answer.empty()) faults += "data set " + std::to_string(seed) + ": no answer\n";
    if (to_text(report).find("nan") != std::string::npos ||
        to_json(report).dump().find("nan") != std::string::npos)
      faults += "data set " + std::to_string(seed) + ": not-a-number in print\n";
  } catch (const InputError&) {
    refused = true;
  }
  return faults;
}

}  // namespace evet::models::testing
