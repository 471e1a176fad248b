#include "tools/review/numbers_in_doubt.h"

#include <map>

#include "models/base/input_error.h"
#include "models/choice/combine_draws.h"
#include "models/estimate.h"

namespace evet::review {
namespace {

constexpr std::size_t kManyCells = 20000;      // animals x nights from which on an estimate takes seconds
constexpr std::size_t kTooManyCells = 200000;  // and minutes
constexpr int kDraws = 20, kFewDraws = 5;

bool is_number(const models::Estimate& one) {
  return one.parameter == "N" || one.parameter.starts_with("N ");
}

// The numbers of animals in a report; `in_doubt` is left empty.
std::vector<NumberRow> numbers_in(const models::EstimateReport& report) {
  std::vector<NumberRow> out;
  for (const models::Estimate& one : report.answer)
    if (is_number(one) && out.empty()) out.push_back({{}, {}, one, {}});
  for (const models::ModelRow& row : report.table)
    if (!row.estimates.empty() && is_number(row.estimates.front()))
      out.push_back({row.name, row.description, row.estimates.front(), {}});
  return out;
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
    out.rows = numbers_in(report);
    // Every draw is fitted by the same models; those that give no number of animals are left out.
    request.card = {{"design", report.design}, {"models", nlohmann::json::array()}};
    for (const models::ModelRow& row : report.table)
      if (!row.estimates.empty() && is_number(row.estimates.front()))
        request.card["models"].push_back(row.card_entry);
  } catch (const models::InputError& error) {
    out.why = error.what();
    return out;
  }
  const bool many = certain.animal_count() * certain.occasion_count() > kManyCells;
  const int draws = many ? kFewDraws : kDraws;
  models::Random random(request.seed);
  std::vector<std::vector<models::Estimate>> drawn_of(out.rows.size());
  for (int i = 0; i < draws; ++i) {
    const Statements one = drawn(said, doubts, random);
    std::vector<NumberRow> rows;
    try {
      rows = numbers_in(models::estimate(capture_histories(one, fold(one), where).histories, request));
    } catch (const models::InputError&) {  // this draw has no estimate, and is counted so
    }
    for (std::size_t k = 0; k < out.rows.size(); ++k) {
      const NumberRow& wanted = out.rows[k];
      models::Estimate& kept = drawn_of[k].emplace_back();
      kept.parameter = wanted.certain.parameter;
      for (const NumberRow& row : rows)
        if (row.model == wanted.model && row.description == wanted.description &&
            row.certain.parameter == kept.parameter)
          kept = row.certain;
    }
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
