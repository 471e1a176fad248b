// A trial as text for a terminal.
#include <fmt/format.h>
#include <sstream>

#include "tools/trial/group_words.h"
#include "tools/trial/messages.h"
#include "tools/trial/trial_report.h"
#include "tools/words/costs_words.h"
#include "tools/words/in_words.h"
#include "tools/words/text_table.h"

namespace evet::trial {
namespace {

std::string low_to_high(const std::string& low, const std::string& high) {
  return in_words(messages::kTrialLowToHigh, {{"low", low}, {"high", high}});
}

void figures(const TrialReport& r, bool colour, std::ostream& out) {
  const Scores& s = r.scores;
  TextTable table({in_words(messages::kTrialFigure), ">" + in_words(messages::kTrialValue),
                   in_words(messages::kTrialInterval), in_words(messages::kTrialCounted)});
  const auto add = [&](const std::string& name, const Rate& rate) {
    if (rate.of == 0)
      table.row({name, "-", "", in_words(messages::kNotMeasured)});
    else
      table.row({name, fmt::format("{:.2f} %", 100 * rate.value),
                 low_to_high(fmt::format("{:.2f}", 100 * rate.low), fmt::format("{:.2f}", 100 * rate.high)),
                 so_many_of(rate)});
  };
  add(in_words(messages::kTrialFailureToAcquire), r.failure_to_acquire);
  for (const size_t k : {1, 2, 3, 5, 10}) add(in_words(messages::kTrialRankK, {{"k", k}}), s.cmc[k - 1]);
  add(in_words(messages::kTrialRankOneOfAll), s.rank1_of_all);
  for (const OperatingPoint& p : s.points) {
    add(in_words(p.measurable ? messages::kTrialFnirAt : messages::kTrialFnirAtNone,
                 {{"share", fmt::format("{:g}", 100 * p.allowed_fpir)}}),
        p.fnir);
  }
  const auto bits = [&](const std::string& name, double value, const Interval& i) {
    table.row({name, fmt::format("{:.4f}", value),
               i.high > 0 ? low_to_high(fmt::format("{:.4f}", i.low), fmt::format("{:.4f}", i.high))
                          : std::string(),
               in_words(messages::kTrialPairs, {{"same", static_cast<size_t>(s.same_pairs)},
                                                {"different", static_cast<size_t>(s.different_pairs)}})});
  };
  if (s.same_pairs > 0 && s.different_pairs > 0) {
    bits(in_words(messages::kTrialCllr), s.cost.total, s.cost_total);
    table.row(
        {"  " + in_words(messages::kTrialDiscrimination), fmt::format("{:.4f}", s.cost.discrimination)});
    table.row({"  " + in_words(messages::kTrialCalibration), fmt::format("{:.4f}", s.cost.calibration())});
  }
  for (const auto& [advised, advice] : {std::pair{&messages::kTrialAdvisedSame, &s.same},
                                        std::pair{&messages::kTrialAdvisedNew, &s.is_new}}) {
    add(in_words(*advised), advice->given);
    add("  " + in_words(messages::kTrialOfTheseRight), advice->right);
  }
  add(in_words(messages::kTrialAdvisedLook), s.look.given);
  table.print(out, colour);
}

void reliabilities(const TrialReport& r, bool colour, std::ostream& out) {
  if (r.scores.reliability.empty()) return;
  TextTable table({in_words(messages::kTrialStated), ">" + in_words(messages::kTrialRight),
                   in_words(messages::kTrialInterval), in_words(messages::kTrialCounted)});
  for (const ReliabilityBin& b : r.scores.reliability)
    table.row({fmt::format("{:.3f}", b.stated), fmt::format("{:.3f}", b.observed.value),
               low_to_high(fmt::format("{:.3f}", b.observed.low), fmt::format("{:.3f}", b.observed.high)),
               so_many_of(b.observed)});
  out << "\n" << in_words(messages::kTrialReliability) << "\n";
  table.print(out, colour);
}

void groupings(const TrialReport& r, bool colour, std::ostream& out) {
  for (const Grouping& g : r.groups) {
    TextTable table({in_words(messages::kTrialBy, {{"what", group_in_words(g.by)}}),
                     ">" + in_words(messages::kTrialAnimals), ">" + in_words(messages::kTrialSearched),
                     in_words(messages::kTrialRankOne), in_words(messages::kTrialMissed),
                     in_words(messages::kTrialFalse), ""});
    for (const GroupScore& one : g.groups)
      table.row({group_in_words(one.value), std::to_string(one.individuals),
                 std::to_string(one.mated) + (g.mated_only ? "" : "+" + std::to_string(one.non_mated)),
                 short_text(one.rank1), short_text(one.fnir), g.mated_only ? "" : short_text(one.fpir),
                 one.few ? in_words(messages::kTrialFew) : ""});
    out << "\n";
    table.print(out, colour);
  }
  out << "\n" << in_words(messages::kTrialSearchedMeans, {{"few", kFewIndividuals}}) << "\n";
}

}  // namespace

std::string text_of(const TrialReport& r, bool colour) {
  std::ostringstream out;
  out << in_words(messages::kTrialOf, {{"catalogue", r.catalogue}}) << "\n\n";
  for (const std::string& sentence : about_truth(r)) out << sentence << "\n";
  out << calibration_text(r) << " " << in_words(costs_of(r.search)) << "\n\n";
  figures(r, colour, out);
  reliabilities(r, colour, out);
  groupings(r, colour, out);
  out << "\n" << in_words(messages::kTrialClaims) << "\n";
  for (const std::string& sentence : r.claims) out << "  - " << sentence << "\n";
  out << "\n" << in_words(messages::kTrialPromises) << "\n";
  for (const Promise& p : r.promises) out << "  - " << promise_text(p) << "\n";
  out << in_words(r.holds() ? messages::kTrialHolds : messages::kTrialDoesNotHoldRefit) << "\n";
  if (!r.suspects.empty()) {
    out << "\n" << in_words(messages::kTrialWorthALookAt) << "\n";
    TextTable table({in_words(messages::kTrialCapture), in_words(messages::kTrialIs),
                     in_words(messages::kTrialLooksLike), ">" + in_words(messages::kTrialProbability),
                     in_words(messages::kTrialItsOwn)});
    for (const Suspect& s : r.suspects)
      table.row({s.capture, s.individual, s.candidate, probability_text(s.probability),
                 in_words(s.mated ? messages::kTrialItsOwnYes : messages::kTrialItsOwnLeftOut)});
    table.print(out, colour);
    out << in_words(messages::kTrialPerhapsOne) << "\n";
  }
  if (r.refit) out << "\n" << refit_text(*r.refit) << "\n";
  return out.str();
}

}  // namespace evet::trial
