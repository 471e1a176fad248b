#include "tools/review/views/numbers_in_doubt.h"

#include <algorithm>
#include <optional>

#include "models/base/input_error.h"
#include "models/choice/combine_draws.h"
#include "models/estimate.h"

namespace evet::review {
namespace {

constexpr std::size_t kManyCells = 20000;      // animals x nights from which on an estimate takes seconds
constexpr std::size_t kTooManyCells = 200000;  // and minutes
constexpr double kLeastWeight = 0.01;          // of a model that is fitted to the draws
constexpr int kDraws = 20, kFewDraws = 5;

bool is_number(const models::Estimate& one) {
  return one.parameter == "N" || one.parameter.starts_with("N ");
}

bool gives_number(const models::ModelRow& row) {
  return !row.estimates.empty() && is_number(row.estimates.front());
}

// Models that give a number of animals, and have some weight among their like or are the simplest: the rest
// would take most of the time for nothing.
std::vector<models::ModelRow> wanted_of(const models::EstimateReport& report) {
  std::vector<models::ModelRow> out;
  const auto simplest =
      std::find_if(report.table.begin(), report.table.end(),
                   [](const models::ModelRow& row) { return gives_number(row) && row.has_likelihood; });
  for (auto row = report.table.begin(); row != report.table.end(); ++row)
    if (gives_number(*row) && (!row->has_likelihood || row->weight >= kLeastWeight || row == simplest))
      out.push_back(*row);
  return out;
}

std::optional<models::Estimate> quoted(const models::EstimateReport& report) {
  for (const models::Estimate& one : report.answer)
    if (is_number(one)) return one;
  return std::nullopt;
}

// What a draw gives for a row of the certain table; without a value where it has none.
models::Estimate estimate_like(const NumberRow& wanted, const models::EstimateReport& report) {
  models::Estimate none;
  none.parameter = wanted.certain.parameter;
  if (wanted.model.empty()) {
    const auto found = quoted(report);
    return found && found->parameter == none.parameter ? *found : none;
  }
  for (const models::ModelRow& row : report.table)
    if (row.name == wanted.model && row.description == wanted.description && gives_number(row) &&
        row.estimates.front().parameter == none.parameter)
      return row.estimates.front();
  return none;
}

}  // namespace

Numbers numbers_of(const Statements& said, const std::vector<Doubt>& doubts, const HistoriesOptions& where) {
  Numbers out;
  if (doubts.empty()) {
    out.why = "No capture rests on the program alone, and none that it has ranked waits to be settled.";
    return out;
  }
  const models::CaptureHistories certain = capture_histories(said, fold(said), where).histories;
  if (certain.animal_count() * certain.occasion_count() > kTooManyCells) {
    out.why =
        "There are too many histories to be estimated over and over while a page waits: choose one place.";
    return out;
  }
  models::EstimateRequest request;
  request.plots = false;
  try {
    const models::EstimateReport report = models::estimate(certain, request);
    if (const auto answer = quoted(report)) out.rows.push_back({{}, {}, *answer, {}});
    // Every draw is fitted by the same models.
    request.card = {{"design", report.design}, {"models", nlohmann::json::array()}};
    for (const models::ModelRow& row : wanted_of(report)) {
      out.rows.push_back({row.name, row.description, row.estimates.front(), {}});
      request.card["models"].push_back(row.card_entry);
    }
  } catch (const models::InputError& error) {
    out.why = error.what();
    return out;
  }
  if (request.card["models"].empty()) {
    out.rows.clear();
    out.why = "The models that suit these nights give no number of animals.";
    return out;
  }
  const bool many = certain.animal_count() * certain.occasion_count() > kManyCells;
  const int draws = many ? kFewDraws : kDraws;
  std::mt19937_64 random(request.seed);
  std::vector<std::vector<models::Estimate>> drawn_of(out.rows.size());
  for (int i = 0; i < draws; ++i) {
    const Statements one = drawn(said, doubts, random);
    models::EstimateReport report;
    try {
      report = models::estimate(capture_histories(one, fold(one), where).histories, request);
    } catch (const models::InputError&) {  // this draw has no estimate, and is counted so
    }
    for (std::size_t k = 0; k < out.rows.size(); ++k)
      drawn_of[k].push_back(estimate_like(out.rows[k], report));
  }
  for (std::size_t k = 0; k < out.rows.size(); ++k)
    out.rows[k].in_doubt = models::combine_draws(drawn_of[k], request.level);
  out.why = "In doubt: who is who was drawn " + std::to_string(draws) +
            " times from the probabilities of the program, for " + std::to_string(doubts.size()) +
            (doubts.size() == 1 ? " capture" : " captures") +
            " that no person has settled; each draw was estimated by itself, and the estimates were combined "
            "(Rubin 1987). What people said and sheets know is taken as certain.";
  return out;
}

}  // namespace evet::review
