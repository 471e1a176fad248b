// A trial as text for a terminal.
#include <fmt/format.h>
#include <sstream>

#include "tools/trial/trial_report.h"
#include "tools/words/costs_words.h"
#include "tools/words/text_table.h"

namespace evet::trial {
namespace {

void figures(const TrialReport& r, bool colour, std::ostream& out) {
  const Scores& s = r.scores;
  TextTable table({"figure", ">value", "95 % interval", "counted"});
  const auto add = [&](const std::string& name, const Rate& rate) {
    if (rate.of == 0)
      table.row({name, "-", "", "not measured"});
    else
      table.row({name, fmt::format("{:.2f} %", 100 * rate.value),
                 fmt::format("{:.2f} to {:.2f}", 100 * rate.low, 100 * rate.high),
                 fmt::format("{} of {}", rate.count, rate.of)});
  };
  add("failure to acquire, of all captures", r.failure_to_acquire);
  for (const size_t k : {1, 2, 3, 5, 10}) add(fmt::format("rank-{} identification rate", k), s.cmc[k - 1]);
  add("rank-1, failures to acquire as misses", s.rank1_of_all);
  for (const OperatingPoint& p : s.points) {
    add(p.measurable ? fmt::format("FNIR at FPIR {:g} %", 100 * p.allowed_fpir)
                     : fmt::format("FNIR at no false positive (for {:g} %)", 100 * p.allowed_fpir),
        p.fnir);
  }
  const auto bits = [&](const std::string& name, double value, const Interval& i) {
    table.row({name, fmt::format("{:.4f}", value),
               i.high > 0 ? fmt::format("{:.4f} to {:.4f}", i.low, i.high) : std::string(),
               fmt::format("{} same, {} different", s.same_pairs, s.different_pairs)});
  };
  if (s.same_pairs > 0 && s.different_pairs > 0) {
    bits("Cllr, bits", s.cost.total, s.cost_total);
    table.row({"  its discrimination part", fmt::format("{:.4f}", s.cost.discrimination)});
    table.row({"  its calibration part", fmt::format("{:.4f}", s.cost.calibration())});
  }
  for (const auto& [name, advice] : {std::pair{"same", &s.same}, std::pair{"new", &s.is_new}}) {
    add(fmt::format("advised '{}'", name), advice->given);
    add("  of these right", advice->right);
  }
  add("advised 'look'", s.look.given);
  table.print(out, colour);
}

void reliabilities(const TrialReport& r, bool colour, std::ostream& out) {
  if (r.scores.reliability.empty()) return;
  TextTable table({"stated probability", ">right", "95 % interval", "counted"});
  for (const ReliabilityBin& b : r.scores.reliability)
    table.row({fmt::format("{:.3f}", b.stated), fmt::format("{:.3f}", b.observed.value),
               fmt::format("{:.3f} to {:.3f}", b.observed.low, b.observed.high),
               fmt::format("{} of {}", b.observed.count, b.observed.of)});
  out << "\nReliability: the best candidate's probability, and how often it was the animal\n";
  table.print(out, colour);
}

void groupings(const TrialReport& r, bool colour, std::ostream& out) {
  for (const Grouping& g : r.groups) {
    TextTable table({"by " + g.by, ">animals", ">searched", "rank-1", "missed (FNIR)", "false (FPIR)", ""});
    for (const GroupScore& one : g.groups)
      table.row({one.value, std::to_string(one.individuals),
                 std::to_string(one.mated) + (g.mated_only ? "" : "+" + std::to_string(one.non_mated)),
                 short_text(one.rank1), short_text(one.fnir), g.mated_only ? "" : short_text(one.fpir),
                 one.few ? "few" : ""});
    out << "\n";
    table.print(out, colour);
  }
  out << "\nSearched: with the animal in the catalogue + without it. One threshold for all groups. 'few': "
         "under "
      << kFewIndividuals << " animals, too few to compare with another group.\n";
}

}  // namespace

std::string text_of(const TrialReport& r, bool colour) {
  std::ostringstream out;
  out << "Trial of " << r.catalogue << "\n\n";
  for (const std::string& sentence : about_truth(r)) out << sentence << "\n";
  out << calibration_text(r) << " " << in_words(costs_of(r.search)) << "\n\n";
  figures(r, colour, out);
  reliabilities(r, colour, out);
  groupings(r, colour, out);
  out << "\nHow large a claim these data can bear\n";
  for (const std::string& sentence : r.claims) out << "  - " << sentence << "\n";
  out << "\nDoes the advice keep its own word?\n";
  for (const Promise& p : r.promises) out << "  - " << promise_text(p) << "\n";
  out << (r.holds()
              ? "It does, as far as these data can tell.\n"
              : "It does not: the probabilities are too bold here. Look at more captures by eye, and see "
                "whether --refit helps.\n");
  if (!r.suspects.empty()) {
    out << "\nWorth a look: strong candidates that are not the animal by the verdicts\n";
    TextTable table({"capture", "is", "but looks like", ">probability", "its own in the catalogue"});
    for (const Suspect& s : r.suspects)
      table.row({s.capture, s.individual, s.candidate, probability_text(s.probability),
                 s.mated ? "yes" : "left out"});
    table.print(out, colour);
    out << "Perhaps two individuals are one, or a verdict is mistaken; then these count as errors that are "
           "none.\n";
  }
  if (r.refit) out << "\n" << refit_text(*r.refit) << "\n";
  return out.str();
}

}  // namespace evet::trial
