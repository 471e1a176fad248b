#include "tools/review/queue_words.h"

#include <algorithm>
#include <cmath>

#include "tools/evet/text.h"

namespace evet::review {
namespace {

std::string percent(double p) {
  return p > 0.995 ? "over 99 %" : p < 0.005 ? "under 1 %" : std::to_string(std::lround(p * 100)) + " %";
}

std::string called(const Identities& who, const IndividualId& id) {
  const Individual* individual = who.individual(id);
  return individual == nullptr ? std::string("an individual joined since") : individual->name;
}

}  // namespace

double worth_of_a_look(const RankedCapture& ranked, const SearchOptions& costs) {
  const double best = ranked.candidates.empty() ? 0 : ranked.candidates.front().probability;
  return std::min(costs.wrong_join_over_missed * (1 - best), 1 - ranked.new_probability);
}

std::vector<std::string> why(const RankedCapture& ranked, const CaptureState& capture,
                             const Identities& who) {
  std::vector<std::string> out;
  const auto& c = ranked.candidates;
  if (capture.disputed) out.push_back("readers contradict each other");
  if (ranked.advice != Advice::look) {
    out.push_back(ranked.advice == Advice::same ? "the program is sure: " + called(who, c.front().individual)
                  : c.empty()                   ? "nobody to compare it with: new"
                                                : "the program is sure: new");
  } else if (c.size() > 1 && c[1].probability > 0.2 * c[0].probability &&
             c[0].probability > 0.5 * ranked.new_probability) {
    out.push_back("two candidates close: " + called(who, c[0].individual) + " " + percent(c[0].probability) +
                  ", " + called(who, c[1].individual) + " " + percent(c[1].probability));
  } else if (!c.empty() && c[0].probability >= ranked.new_probability) {
    out.push_back("likely " + called(who, c[0].individual) + ", but only " + percent(c[0].probability));
  } else {
    out.push_back("perhaps new: " + percent(ranked.new_probability));
  }
  if (capture.facts.stage == "metamorph") out.push_back("the pattern of a metamorph still forms");
  const auto unusable = std::count_if(capture.photos.begin(), capture.photos.end(),
                                      [](const PhotoState& photo) { return !photo.usable; });
  if (unusable > 0) out.push_back(counted(static_cast<std::size_t>(unusable), "photo") + " not usable");
  return out;
}

std::string settled_by(const CaptureState& capture, const std::map<CaptureId, std::string>& readers) {
  if (capture.by_program) return "the program";
  const auto at = readers.find(capture.id);
  return at == readers.end() ? "the sheet" : at->second;
}

}  // namespace evet::review
