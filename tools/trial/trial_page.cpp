// A trial as one page that prints, in the dress of the night report.
#include <fmt/format.h>

#include "tools/report/html.h"
#include "tools/report/page_head.h"
#include "tools/report/sections.h"
#include "tools/trial/trial_report.h"
#include "tools/words/costs_words.h"
#include "tools/words/text.h"

namespace evet::trial {
namespace {

std::string section(const std::string& id, const std::string& title, const std::string& body) {
  return fmt::format(
      "<section class=\"{0}\" aria-labelledby=\"{0}-title\">\n<h2 id=\"{0}-title\">{1}</h2>\n{2}</section>\n",
      id, title, body);
}

std::string list(const std::vector<std::string>& sentences) {
  std::string out = "<ul>\n";
  for (const std::string& s : sentences) out += "<li>" + escaped(s) + "</li>\n";
  return out + "</ul>\n";
}

std::string head(const std::vector<std::pair<std::string, bool>>& columns) {
  std::string out = "<thead><tr>";
  for (const auto& [name, is_number] : columns)
    out += fmt::format("<th scope=\"col\"{}>{}</th>", is_number ? " class=\"num\"" : "", name);
  return out + "</tr></thead>\n<tbody>\n";
}

std::string row(const std::string& name, const std::vector<std::string>& cells) {
  std::string out = "<tr><th scope=\"row\">" + escaped(name) + "</th>";
  for (const std::string& cell : cells) out += "<td class=\"num\">" + escaped(cell) + "</td>";
  return out + "</tr>\n";
}

std::string rate_row(const std::string& name, const Rate& r) {
  if (r.of == 0) return row(name, {"not measured", "", ""});
  return row(name, {fmt::format("{:.2f} %", 100 * r.value),
                    fmt::format("{:.2f}\u2013{:.2f}", 100 * r.low, 100 * r.high),
                    fmt::format("{} of {}", r.count, r.of)});
}

std::string tile(const std::string& tone, const std::string& number, const std::string& name,
                 const std::string& says) {
  return fmt::format("<li class=\"{}\"><div><b>{}</b><span>{}</span><small>{}</small></div></li>\n", tone,
                     number, name, escaped(says));
}

std::string figure_or_dash(const Rate& r) {
  return r.of == 0 ? "\u2013" : fmt::format("{:.1f} %", 100 * r.value);
}

std::string interval_or_nothing(const Rate& r) {
  return r.of == 0 ? "not measured"
                   : fmt::format("{:.1f}\u2013{:.1f} %, of {}", 100 * r.low, 100 * r.high, r.of);
}

std::string glance(const TrialReport& r) {
  const Scores& s = r.scores;
  const OperatingPoint& point = s.points.front();
  return "<ul class=\"tiles\">\n" +
         tile("again", figure_or_dash(s.rank1), "found first", interval_or_nothing(s.rank1)) +
         tile("new", figure_or_dash(point.fnir),
              point.measurable ? fmt::format("missed at FPIR {:g} %", 100 * point.allowed_fpir)
                               : std::string("missed at no false positive"),
              interval_or_nothing(point.fnir)) +
         tile("look", fmt::format("{:.3f}", s.cost.total), "bits, Cllr",
              fmt::format("{:.3f} of it calibration", s.cost.calibration())) +
         tile("unusable", figure_or_dash(r.failure_to_acquire), "failed to acquire",
              interval_or_nothing(r.failure_to_acquire)) +
         "</ul>\n";
}

std::string figures(const TrialReport& r) {
  const Scores& s = r.scores;
  std::string out =
      "<div class=\"scroll\"><table><caption>Figures with 95 % intervals, by resampling individuals "
      "whole</caption>" +
      head({{"Figure", false}, {"Value", true}, {"Interval, %", true}, {"Counted", true}});
  out += rate_row("Failure to acquire, of all captures", r.failure_to_acquire);
  for (const size_t k : {1, 2, 3, 5, 10})
    out += rate_row(fmt::format("Rank-{} identification rate", k), s.cmc[k - 1]);
  out += rate_row("Rank-1, failures to acquire as misses", s.rank1_of_all);
  for (const OperatingPoint& p : s.points)
    out +=
        rate_row(p.measurable ? fmt::format("FNIR at FPIR {:g} %", 100 * p.allowed_fpir)
                              : fmt::format("FNIR at no false positive (for {:g} %)", 100 * p.allowed_fpir),
                 p.fnir);
  for (const auto& [name, advice] : {std::pair{"same", &s.same}, std::pair{"new", &s.is_new}}) {
    out += rate_row(fmt::format("Advised \u2018{}\u2019", name), advice->given);
    out += rate_row(fmt::format("Advised \u2018{}\u2019 and right", name), advice->right);
  }
  out += rate_row("Advised \u2018look\u2019", s.look.given);
  return out + "</tbody></table></div>\n";
}

std::string reliability(const TrialReport& r) {
  if (r.scores.reliability.empty()) return {};
  std::string out =
      "<div class=\"scroll\"><table><caption>The best candidate\u2019s probability, and how often it was the "
      "animal</caption>" +
      head({{"Stated, on average", false}, {"Right", true}, {"Interval, %", true}, {"Counted", true}});
  for (const ReliabilityBin& bin : r.scores.reliability)
    out += rate_row(fmt::format("{:.1f} %", 100 * bin.stated), bin.observed);
  return out + "</tbody></table></div>\n";
}

std::string cost(const TrialReport& r) {
  const Scores& s = r.scores;
  if (s.same_pairs == 0 || s.different_pairs == 0) return {};
  std::string out =
      "<p>Cllr is 0 bits for likelihood ratios that are always right and sure, 1 for ratios that say "
      "nothing. Its "
      "discrimination part is what no recalibration could take away (Br\u00fcmmer &amp; du Preez 2006).</p>\n"
      "<table>" +
      head({{"Part", false}, {"Bits", true}, {"Interval", true}});
  out += row("Cllr", {fmt::format("{:.4f}", s.cost.total),
                      fmt::format("{:.4f}\u2013{:.4f}", s.cost_total.low, s.cost_total.high)});
  out += row("Discrimination", {fmt::format("{:.4f}", s.cost.discrimination), ""});
  out += row("Calibration", {fmt::format("{:.4f}", s.cost.calibration()), ""});
  return section("cost", "What the likelihood ratios are worth",
                 out + fmt::format("</tbody></table>\n<p>From {} same and {} different pairs.</p>\n",
                                   s.same_pairs, s.different_pairs));
}

std::string groups(const TrialReport& r) {
  std::string body = fmt::format(
      "<p>One threshold for all groups. A group marked \u2018few\u2019 has fewer than {} animals: too few to "
      "compare "
      "it with another.</p>\n",
      kFewIndividuals);
  for (const Grouping& g : r.groups) {
    std::vector<std::pair<std::string, bool>> columns = {
        {"By " + g.by, false}, {"Animals", true}, {"Rank-1", true}, {"Missed (FNIR)", true}};
    if (!g.mated_only) columns.insert(columns.end(), {{"False (FPIR)", true}, {"Failed", true}});
    body += "<div class=\"scroll\"><table>" + head(columns);
    for (const GroupScore& one : g.groups) {
      std::vector<std::string> cells = {std::to_string(one.individuals) + (one.few ? ", few" : ""),
                                        short_text(one.rank1), short_text(one.fnir)};
      if (!g.mated_only)
        cells.insert(cells.end(), {short_text(one.fpir), fmt::format("{} of {}", one.failure_to_acquire.count,
                                                                     one.failure_to_acquire.of)});
      body += row(one.value, cells);
    }
    body += "</tbody></table></div>\n";
  }
  return section("groups", "By group", body);
}

std::string promises(const TrialReport& r) {
  std::vector<std::string> sentences;
  for (const Promise& p : r.promises) sentences.push_back(promise_text(p));
  return section(
      "promises", "Does the advice keep its own word?",
      list(sentences) +
          (r.holds() ? "<p>It does, as far as these data can tell.</p>\n"
                     : "<p class=\"caution\"><b>Mind:</b> It does not: the probabilities are too bold "
                       "here. Look at more captures by eye.</p>\n") +
          "<p>" + escaped(in_words(costs_of(r.search))) + " " + escaped(calibration_text(r)) + "</p>\n" +
          (r.refit ? "<p>" + escaped(refit_text(*r.refit)) + "</p>\n" : std::string()));
}

std::string worth_a_look(const TrialReport& r) {
  if (r.suspects.empty()) return {};
  std::string out =
      "<p>Strong candidates that are not the animal by the verdicts. Perhaps two individuals are one, "
      "or a verdict is mistaken; then these count as errors that are none.</p>\n"
      "<div class=\"scroll\"><table>" +
      head({{"Capture", false},
            {"Is", true},
            {"But looks like", true},
            {"Probability", true},
            {"Its own in the catalogue", true}});
  for (const Suspect& s : r.suspects)
    out += row(s.capture, {s.individual, s.candidate, percent(s.probability), s.mated ? "yes" : "left out"});
  return section("suspects", "Worth a look", out + "</tbody></table></div>\n");
}

std::string curves(const TrialReport& r) {
  std::string body;
  for (const Picture& picture : pictures(r.scores)) body += "<figure>" + picture.svg + "</figure>\n";
  return body.empty() ? std::string()
                      : section("curves", "Curves", "<div class=\"trial-plots\">\n" + body + "</div>\n");
}

constexpr std::string_view kMoreStyle = R"(
.trial-plots { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 30rem), 1fr)); gap: 1.6rem; }
.trial-plots figure { overflow-x: auto; }
.trial-plots svg { display: block; width: 100%; min-width: 30rem; }
.tiles b { white-space: nowrap; }
@media (max-width: 40rem) { .tiles b { font-size: 1.8rem; } }
.groups td.num, .suspects td.num { white-space: normal; }
@media print { .trial-plots { grid-template-columns: 1fr 1fr; } .trial-plots svg { min-width: 0; } .trial-plots figure { break-inside: avoid; } }
)";

}  // namespace

std::string page_of(const TrialReport& r) {
  std::string page = report::page_head(r.program, "Trial of " + r.catalogue, kMoreStyle);
  page += fmt::format(
      "<header>\n<p class=\"over\">Trial</p>\n<h1>{}</h1>\n<p class=\"when\">How well its animals are found "
      "again</p>\n</header>\n<main>\n",
      escaped(r.catalogue));
  page += section("glance", "At a glance", glance(r) + list(about_truth(r)));
  page += section("claims", "How large a claim these data can bear", list(r.claims));
  page += promises(r);
  page += curves(r);
  page += section("figures", "Figures", figures(r) + reliability(r));
  page += cost(r) + groups(r) + worth_a_look(r);
  page += section("how", "How the figures were made",
                  "<p>Terms after ISO/IEC 19795-1: rank-k identification rate, false-negative (FNIR) and "
                  "false-positive (FPIR) "
                  "identification rate, failure to acquire. The threshold of an FNIR is set by the searches "
                  "without a mate; its "
                  "interval has the threshold set anew in every resample. Photographs of one pond say little "
                  "of another.</p>\n");
  page += report::cautions_section();
  return page + fmt::format(
                    "</main>\n<footer><p>Made {} by {}, ledger head <code>{}</code>.</p></footer>\n</body>\n"
                    "</html>\n",
                    escaped(r.made_at), escaped(r.program), escaped(r.ledger_head));
}

}  // namespace evet::trial
