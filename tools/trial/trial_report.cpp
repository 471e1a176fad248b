#include "tools/trial/trial_report.h"

#include <fmt/format.h>
#include <algorithm>

#include "tools/words/text.h"

namespace evet::trial {

bool TrialReport::holds() const {
  return std::all_of(promises.begin(), promises.end(), [](const Promise& p) { return p.holds; });
}

void fill(TrialReport& report, const ScoreOptions& options) {
  report.scores = score(report.trial, options);
  // A capture that failed can belong to nobody, so each counts for itself.
  Tally each;
  for (size_t i = 0; i < report.known.captures_in_catalogue; ++i)
    each.emplace_back(i < report.known.without_usable_photo, 1);
  report.failure_to_acquire = rate(each, options);
  report.groups = by_group(report.trial, report.scores.points.front(), options);
  report.claims = claims(report.trial, report.scores);
  report.promises = promises(report.trial);
  report.suspects = suspects(report.trial);
  for (Suspect& suspect : report.suspects)
    if (const auto at = report.known.capture_names.find(suspect.capture);
        at != report.known.capture_names.end())
      suspect.capture = at->second;
}

std::string short_text(const Rate& r) {
  if (r.of == 0) return "not measured";
  return fmt::format("{:.1f} % ({:.1f}-{:.1f}), {} of {}", 100 * r.value, 100 * r.low, 100 * r.high, r.count,
                     r.of);
}

std::vector<std::string> about_truth(const TrialReport& report) {
  const KnownSet& k = report.known;
  std::vector<std::string> out = {fmt::format(
      "The truth: {} that a person confirmed or a sheet knew, {} of them caught on two evenings or more.",
      counted(k.individuals, "individual"), k.caught_twice)};
  std::string left_out;
  const auto say = [&](size_t n, const std::string& what) {
    if (n > 0) left_out += fmt::format("{}{} {}", left_out.empty() ? "" : ", ", n, what);
  };
  say(k.by_program, "placed by the program alone");
  say(k.unsettled, "not settled");
  say(k.disputed, "in dispute");
  if (!left_out.empty()) out.push_back("Captures left out of it: " + left_out + ".");
  out.push_back(
      "Each capture is searched alone, against everyone but the captures of its own evening and place, as on "
      "the "
      "evening it came in: once with its animal in the catalogue, once without.");
  return out;
}

std::string promise_text(const Promise& p) {
  if (p.given == 0) return fmt::format("Never advised '{}'.", p.advice);
  return fmt::format("Advised '{}' {}, wrong {}; by its own probabilities {:.1f} should be wrong{}.",
                     p.advice, counted(static_cast<size_t>(p.given), "time"), p.wrong, p.expected_wrong,
                     p.holds ? ""
                             : fmt::format(": so many more happen by chance once in {:.0f} trials",
                                           1 / std::max(p.p_value, 1e-9)));
}

std::string refit_text(const Refit& r) {
  if (!r.refused.empty()) return "No calibration of its own: " + r.refused + ".";
  return fmt::format(
      "Calibration learned from {}: ratios times {:.3f} {} {:.3f}. Under cross-validation by individual, {} "
      "folds, "
      "the cost of the likelihood ratios goes from {:.4f} to {:.4f} bits, a gain of {:.4f} ({:.4f} to "
      "{:.4f}).",
      counted(r.individuals, "individual"), r.map.scale, r.map.shift < 0 ? "less" : "plus",
      std::abs(r.map.shift), r.folds, r.before, r.after, r.before - r.after, r.gain.low, r.gain.high);
}

std::string calibration_text(const TrialReport& report) {
  if (!report.own_calibration) return "Calibration as shipped.";
  return fmt::format(
      "The catalogue's own calibration is in use (ratios times {:.3f}, {:+.3f}). It was learned from pairs "
      "like "
      "these, so its figures here flatter it; the cross-validated ones are in its ledger entry.",
      report.search.calibration.scale, report.search.calibration.shift);
}

}  // namespace evet::trial
