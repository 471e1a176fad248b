// Estimates that carry the doubt about who is who, beside those that take every identity for certain.
//
// Where identities rest on probabilities they are drawn, each draw is estimated by itself with the same
// models, and the draws are combined (Rubin 1987, combine_draws.h): any model, any quantity. Everything that
// shows a figure in doubt, command, report, page or JSON, takes it from here.
#pragma once
#include <functional>
#include <optional>

#include "models/base/moment.h"
#include "models/estimate.h"

namespace evet::models {

struct DoubtfulHistories {
  // Settled identities as they stand; captures that are not settled are counted in `unsettled`. None where
  // there is nothing yet.
  std::optional<CaptureHistories> certain;
  // Whole histories with one answer drawn for each doubt; the same for the same number. Empty:
  // nothing is in doubt.
  std::function<CaptureHistories(int draw)> drawn;
  int captures_in_doubt = 0;
};

struct BothFigures {
  std::string model, description;  // as in the table of models; both empty for the answer to quote
  Estimate certain, in_doubt;
  nlohmann::json card_entry = {};  // the model as a card says it
};

struct EstimateInDoubt {
  EstimateReport report;          // as if every identity were certain
  std::vector<BothFigures> rows;  // figures of the answer first, then the first figure of each model
  std::vector<Moment> moments;    // of the rows, as in a report: of all occasions that the draws take in
  int draws = 0;
  std::string
      plain;      // the answer to quote, with the doubt, in a sentence or two; empty without a second figure
  Sentences why;  // how the doubt was allowed for, or why it was not
  Remark differ;  // why the two figures differ; empty without a second one
};

// The request's design and models are those of all draws. Throws InputError as estimate() does.
EstimateInDoubt estimate_in_doubt(const DoubtfulHistories& histories, const EstimateRequest& request = {});

// {"rows": [{"model", "description", "certain", "in_doubt"}], "draws", "why", "differ"}
nlohmann::json to_json_of_doubt(const EstimateInDoubt& both);
// The figures of the answer side by side and the sentences, for people.
std::string to_text_of_doubt(const EstimateInDoubt& both, std::size_t width = 100);

}  // namespace evet::models
