#include "tools/trial/trial_report.h"

#include <fmt/format.h>
#include <algorithm>

#include "tools/trial/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
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

std::string so_many_of(const Rate& r) {
  return in_words(messages::kSoManyOf,
                  {{"count", static_cast<size_t>(r.count)}, {"all", static_cast<size_t>(r.of)}});
}

std::string short_text(const Rate& r) {
  if (r.of == 0) return in_words(messages::kNotMeasured);
  return fmt::format("{:.1f} % ({:.1f}-{:.1f}), {}", 100 * r.value, 100 * r.low, 100 * r.high, so_many_of(r));
}

std::vector<std::string> about_truth(const TrialReport& report) {
  const KnownSet& k = report.known;
  std::vector<std::string> out = {
      in_words(messages::kTheTruthIs,
               {{"individuals", counted(k.individuals, messages::kIndividuals)}, {"twice", k.caught_twice}})};
  std::vector<std::string> left_out;
  const auto leave_out = [&](size_t n, const MessageText& text) {
    if (n > 0) left_out.push_back(counted(n, text));
  };
  leave_out(k.by_program, messages::kLeftOutByProgram);
  leave_out(k.unsettled, messages::kLeftOutUnsettled);
  leave_out(k.disputed, messages::kLeftOutDisputed);
  if (!left_out.empty())
    out.push_back(in_words(messages::kCapturesLeftOut, {{"list", joined(left_out, ", ")}}));
  out.push_back(in_words(messages::kEachIsSearchedAlone));
  return out;
}

std::string promise_text(const Promise& p) {
  if (p.given == 0) return in_words(messages::kNeverAdvised, {{"advice", p.advice}});
  std::vector<Message::Argument> kept{{"advice", p.advice},
                                      {"times", counted(p.given, messages::kTimes)},
                                      {"wrong", static_cast<size_t>(p.wrong)},
                                      {"expected", fmt::format("{:.1f}", p.expected_wrong)}};
  if (p.holds) return in_words(messages::kPromiseKept, kept);
  kept.push_back({"trials", fmt::format("{:.0f}", 1 / std::max(p.p_value, 1e-9))});
  return in_words(messages::kPromiseNotKept, kept);
}

std::string refit_text(const Refit& r) {
  if (!r.refused.empty()) return in_words(messages::kNoCalibrationOfItsOwn, {{"why", r.refused}});
  const auto bits = [](double value) { return fmt::format("{:.4f}", value); };
  return in_words(r.map.shift < 0 ? messages::kCalibrationLearnedLess : messages::kCalibrationLearnedPlus,
                  {{"individuals", counted(r.individuals, messages::kIndividuals)},
                   {"scale", fmt::format("{:.3f}", r.map.scale)},
                   {"shift", fmt::format("{:.3f}", std::abs(r.map.shift))},
                   {"folds", static_cast<size_t>(r.folds)},
                   {"before", bits(r.before)},
                   {"after", bits(r.after)},
                   {"gain", bits(r.before - r.after)},
                   {"low", bits(r.gain.low)},
                   {"high", bits(r.gain.high)}});
}

std::string calibration_text(const TrialReport& report) {
  if (!report.own_calibration) return in_words(messages::kCalibrationIsAsShipped);
  return in_words(messages::kCalibrationIsOwn,
                  {{"scale", fmt::format("{:.3f}", report.search.calibration.scale)},
                   {"shift", fmt::format("{:+.3f}", report.search.calibration.shift)}});
}

}  // namespace evet::trial
