// Both figures side by side, as JSON and for people; no other file knows these shapes.
#include <cmath>

#include "models/base/figure_text.h"
#include "models/base/messages.h"
#include "models/base/parameter_words.h"
#include "models/identity/estimate_in_doubt.h"
#include "models/identity/messages.h"
#include "models/report/text_layout.h"

namespace evet::models {
namespace {

std::string figure(const Estimate& estimate) {
  if (std::isnan(estimate.value)) return Message(messages::kNotTold).words();
  const std::string value =
      std::isinf(estimate.value) ? Message(messages::kInfiniteValue).words() : figure_text(estimate.value);
  if (estimate.intervals.empty()) return value;
  const Interval& interval = estimate.intervals.front();
  const Message limits(messages::kFromTo,
                       {{"first", figure_text(interval.lower)}, {"last", figure_text(interval.upper)}});
  return value + " (" + limits.words() + ")";
}

}  // namespace

nlohmann::json to_json_of_doubt(const EstimateInDoubt& both) {
  nlohmann::json rows = nlohmann::json::array();
  for (const BothFigures& row : both.rows)
    rows.push_back({{"model", row.model},
                    {"description", row.description},
                    {"certain", to_json(row.certain)},
                    {"in_doubt", to_json(row.in_doubt)}});
  return {{"rows", rows},
          {"draws", both.draws},
          {"why", words(both.why)},
          {"differ", both.differ.words()},
          {"plain", both.plain}};
}

std::string to_text_of_doubt(const EstimateInDoubt& both, std::size_t width) {
  std::string out = "\n" + Message(messages::kWhoIsWho).words() + "\n";
  std::vector<std::vector<std::string>> rows = {
      each_in_words({messages::kColumnQuantity, messages::kColumnCertain, messages::kColumnWithDoubt})};
  for (const BothFigures& row : both.rows)
    if (row.model.empty())
      rows.push_back(
          {dated_words(row.certain.what, both.moments), figure(row.certain), figure(row.in_doubt)});
  if (rows.size() > 1) out += columns(rows, 1);
  if (!both.differ.empty()) out += wrapped(both.differ.words(), width, "  ", "  ");
  return out + wrapped(words(both.why), width, "  ", "  ");
}

}  // namespace evet::models
