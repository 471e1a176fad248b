#include "models/ask/fit_choice.h"

#include <algorithm>

#include "models/ask/messages.h"
#include "models/ask/registry.h"
#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/exact_distinct.h"

namespace evet::models {
namespace {

// A ratio may come out below the number of animals in hand: then that number is the estimate.
void raise_to_seen(Estimate& estimate, double seen) {
  if (estimate.what != Parameter{Quantity::number} || !(estimate.value < seen)) return;
  estimate.details["as_computed"] = estimate.value;
  estimate.value = seen;
  for (Interval& interval : estimate.intervals)
    interval = {std::max(seen, interval.lower), std::max(seen, interval.upper), interval.level,
                interval.method};
  estimate.warnings.push_back(messages::kRaisedToSeen);
}

}  // namespace

FittedRow fit_choice(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  FittedRow fitted;
  fitted.choice = choice;
  ModelRow& row = fitted.row;
  row.name = choice.name;
  row.card_entry = to_json(choice);
  const ModelEntry* entry = find_model(choice.name);
  if (!entry)
    throw InputError(Message(messages::kItemModelNamed, {{"name", choice.name}}), messages::kNoSuchModel,
                     messages::kNameOfRegistry);
  if (entry->estimates) {
    row.description = entry->description.words();
    row.estimates = entry->estimates(data, options.level);
    raise_to_seen(row.estimates.front(), static_cast<double>(data.histories().animal_count()));
    if (row.estimates.front().what == Parameter{Quantity::number})
      widen_if_certain(row.estimates.front(), data.closed().caught, data.closed().seen, options.level);
    row.warnings = row.estimates.front().warnings;
    return fitted;
  }
  FittedModel model = entry->fit(data, choice, options);
  row.description = model.description;
  row.has_likelihood = true;
  row.family = entry->family;
  row.parameters = model.parameters;
  row.sample_size = model.sample_size;
  row.log_likelihood = model.log_likelihood;
  row.not_estimable = model.fit.not_estimable;
  row.at_boundary = model.fit.at_boundary;
  row.estimates = model.estimates;
  row.warnings = model.estimates.front().warnings;
  fitted.model = std::make_shared<const FittedModel>(std::move(model));
  return fitted;
}

std::vector<ModelChoice> usual_variants(const ModelChoice& choice, SurveyData& data) {
  const ModelEntry* entry = find_model(choice.name);
  const bool bare = choice.parts.empty() && choice.emigration == "none" && !choice.ends_certain &&
                    choice.numbers_by.empty();
  if (!bare || !entry || !entry->variants) return {choice};
  return entry->variants(data);
}

}  // namespace evet::models
