// A trial as one page that prints, in the dress of the night report.
#include <fmt/format.h>

#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/report/page_head.h"
#include "tools/report/sections.h"
#include "tools/trial/group_words.h"
#include "tools/trial/messages.h"
#include "tools/trial/trial_report.h"
#include "tools/words/costs_words.h"
#include "tools/words/in_words.h"
#include "tools/words/markup.h"
#include "tools/words/text.h"

namespace evet::trial {
namespace {

std::string section(const std::string& id, const MessageText& title, const std::string& body) {
  return fmt::format(
      "<section class=\"{0}\" aria-labelledby=\"{0}-title\">\n<h2 id=\"{0}-title\">{1}</h2>\n{2}</section>\n",
      id, html(title), body);
}

std::string list(const std::vector<std::string>& sentences) {
  std::string out = "<ul>\n";
  for (const std::string& s : sentences) out += "<li>" + escaped(s) + "</li>\n";
  return out + "</ul>\n";
}

std::string head(const std::vector<std::pair<std::string, bool>>& columns) {  // names are HTML
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
  if (r.of == 0) return row(name, {in_words(messages::kNotMeasured), "", ""});
  return row(name, {fmt::format("{:.2f} %", 100 * r.value),
                    fmt::format("{:.2f}\u2013{:.2f}", 100 * r.low, 100 * r.high), so_many_of(r)});
}

std::string tile(const std::string& tone, const std::string& number, const std::string& name,
                 const std::string& says) {
  return fmt::format("<li class=\"{}\"><div><b>{}</b><span>{}</span><small>{}</small></div></li>\n", tone,
                     number, escaped(name), escaped(says));
}

std::string figure_or_dash(const Rate& r) {
  return r.of == 0 ? "\u2013" : fmt::format("{:.1f} %", 100 * r.value);
}

std::string interval_or_nothing(const Rate& r) {
  if (r.of == 0) return in_words(messages::kNotMeasured);
  return in_words(messages::kTileIntervalOf, {{"low", fmt::format("{:.1f}", 100 * r.low)},
                                              {"high", fmt::format("{:.1f}", 100 * r.high)},
                                              {"all", static_cast<size_t>(r.of)}});
}

std::string glance(const TrialReport& r) {
  const Scores& s = r.scores;
  const OperatingPoint& point = s.points.front();
  return "<ul class=\"tiles\">\n" +
         tile("again", figure_or_dash(s.rank1), in_words(messages::kTileFoundFirst),
              interval_or_nothing(s.rank1)) +
         tile("new", figure_or_dash(point.fnir),
              in_words(point.measurable ? messages::kTileMissedAt : messages::kTileMissedAtNone,
                       {{"share", fmt::format("{:g}", 100 * point.allowed_fpir)}}),
              interval_or_nothing(point.fnir)) +
         tile("look", fmt::format("{:.3f}", s.cost.total), in_words(messages::kTileBits),
              in_words(messages::kTileOfItCalibration,
                       {{"bits", fmt::format("{:.3f}", s.cost.calibration())}})) +
         tile("unusable", figure_or_dash(r.failure_to_acquire), in_words(messages::kTileFailedToAcquire),
              interval_or_nothing(r.failure_to_acquire)) +
         "</ul>\n";
}

std::string figures(const TrialReport& r) {
  const Scores& s = r.scores;
  std::string out = "<div class=\"scroll\"><table><caption>" + html(messages::kFiguresCaption) +
                    "</caption>" +
                    head({{html(messages::kPageFigure), false},
                          {html(messages::kPageValue), true},
                          {html(messages::kPageInterval), true},
                          {html(messages::kPageCounted), true}});
  out += rate_row(in_words(messages::kPageFailureToAcquire), r.failure_to_acquire);
  for (const size_t k : {1, 2, 3, 5, 10})
    out += rate_row(in_words(messages::kPageRankK, {{"k", k}}), s.cmc[k - 1]);
  out += rate_row(in_words(messages::kPageRankOneOfAll), s.rank1_of_all);
  for (const OperatingPoint& p : s.points)
    out += rate_row(in_words(p.measurable ? messages::kTrialFnirAt : messages::kTrialFnirAtNone,
                             {{"share", fmt::format("{:g}", 100 * p.allowed_fpir)}}),
                    p.fnir);
  out += rate_row(in_words(messages::kPageAdvisedSame), s.same.given);
  out += rate_row(in_words(messages::kPageAdvisedSameRight), s.same.right);
  out += rate_row(in_words(messages::kPageAdvisedNew), s.is_new.given);
  out += rate_row(in_words(messages::kPageAdvisedNewRight), s.is_new.right);
  out += rate_row(in_words(messages::kPageAdvisedLook), s.look.given);
  return out + "</tbody></table></div>\n";
}

std::string reliability(const TrialReport& r) {
  if (r.scores.reliability.empty()) return {};
  std::string out = "<div class=\"scroll\"><table><caption>" + html(messages::kReliabilityCaption) +
                    "</caption>" +
                    head({{html(messages::kPageStated), false},
                          {html(messages::kPageRight), true},
                          {html(messages::kPageInterval), true},
                          {html(messages::kPageCounted), true}});
  for (const ReliabilityBin& bin : r.scores.reliability)
    out += rate_row(fmt::format("{:.1f} %", 100 * bin.stated), bin.observed);
  return out + "</tbody></table></div>\n";
}

std::string cost(const TrialReport& r) {
  const Scores& s = r.scores;
  if (s.same_pairs == 0 || s.different_pairs == 0) return {};
  std::string out = "<p>" + html(messages::kWhatCllrIs) + "</p>\n<table>" +
                    head({{html(messages::kCostPart), false},
                          {html(messages::kCostBits), true},
                          {html(messages::kCostInterval), true}});
  out += row("Cllr", {fmt::format("{:.4f}", s.cost.total),
                      fmt::format("{:.4f}\u2013{:.4f}", s.cost_total.low, s.cost_total.high)});
  out += row(in_words(messages::kCostDiscrimination), {fmt::format("{:.4f}", s.cost.discrimination), ""});
  out += row(in_words(messages::kCostCalibration), {fmt::format("{:.4f}", s.cost.calibration()), ""});
  return section("cost", messages::kCostTitle,
                 out + "</tbody></table>\n<p>" +
                     html(messages::kCostFromPairs, {{"same", static_cast<size_t>(s.same_pairs)},
                                                     {"different", static_cast<size_t>(s.different_pairs)}}) +
                     "</p>\n");
}

std::string groups(const TrialReport& r) {
  std::string body = "<p>" + html(messages::kGroupsLead, {{"few", kFewIndividuals}}) + "</p>\n";
  for (const Grouping& g : r.groups) {
    std::vector<std::pair<std::string, bool>> columns = {
        {html(messages::kGroupsBy, {{"what", escaped(group_in_words(g.by))}}), false},
        {html(messages::kGroupsAnimals), true},
        {html(messages::kGroupsRankOne), true},
        {html(messages::kGroupsMissed), true}};
    if (!g.mated_only)
      columns.insert(columns.end(),
                     {{html(messages::kGroupsFalse), true}, {html(messages::kGroupsFailed), true}});
    body += "<div class=\"scroll\"><table>" + head(columns);
    for (const GroupScore& one : g.groups) {
      std::vector<std::string> cells = {
          std::to_string(one.individuals) + (one.few ? ", " + in_words(messages::kTrialFew) : ""),
          short_text(one.rank1), short_text(one.fnir)};
      if (!g.mated_only)
        cells.insert(cells.end(), {short_text(one.fpir), so_many_of(one.failure_to_acquire)});
      body += row(group_in_words(one.value), cells);
    }
    body += "</tbody></table></div>\n";
  }
  return section("groups", messages::kGroupsTitle, body);
}

std::string promises(const TrialReport& r) {
  std::vector<std::string> sentences;
  for (const Promise& p : r.promises) sentences.push_back(promise_text(p));
  return section("promises", messages::kTrialPromises,
                 list(sentences) +
                     (r.holds() ? "<p>" + html(messages::kTrialHolds) + "</p>\n"
                                : "<p class=\"caution\"><b>" + html(messages::kMindThis) + "</b> " +
                                      html(messages::kTrialDoesNotHold) + "</p>\n") +
                     "<p>" + escaped(in_words(costs_of(r.search))) + " " + escaped(calibration_text(r)) +
                     "</p>\n" + (r.refit ? "<p>" + escaped(refit_text(*r.refit)) + "</p>\n" : std::string()));
}

std::string worth_a_look(const TrialReport& r) {
  if (r.suspects.empty()) return {};
  std::string out = "<p>" + html(messages::kSuspectsLead) + "</p>\n<div class=\"scroll\"><table>" +
                    head({{html(messages::kCaptureHead), false},
                          {html(messages::kSuspectIs), true},
                          {html(messages::kSuspectLooksLike), true},
                          {html(messages::kSuspectProbability), true},
                          {html(messages::kSuspectItsOwn), true}});
  for (const Suspect& s : r.suspects)
    out += row(s.capture, {s.individual, s.candidate, percent(s.probability),
                           in_words(s.mated ? messages::kTrialItsOwnYes : messages::kTrialItsOwnLeftOut)});
  return section("suspects", messages::kSuspectsTitle, out + "</tbody></table></div>\n");
}

std::string curves(const TrialReport& r) {
  std::string body;
  for (const Picture& picture : pictures(r.scores)) body += "<figure>" + picture.svg + "</figure>\n";
  return body.empty()
             ? std::string()
             : section("curves", messages::kCurvesTitle, "<div class=\"trial-plots\">\n" + body + "</div>\n");
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
  std::string page =
      report::page_head(r.program, in_words(messages::kTrialOf, {{"catalogue", r.catalogue}}), kMoreStyle);
  page += fmt::format(
      "<header>\n<p class=\"over\">{}</p>\n<h1>{}</h1>\n<p class=\"when\">{}</p>\n</header>\n<main>\n",
      html(messages::kTrialOver), escaped(r.catalogue), html(messages::kTrialAbout));
  page += section("glance", messages::kTrialAtAGlance, glance(r) + list(about_truth(r)));
  page += section("claims", messages::kTrialClaims, list(r.claims));
  page += promises(r);
  page += curves(r);
  page += section("figures", messages::kTrialFigures, figures(r) + reliability(r));
  page += cost(r) + groups(r) + worth_a_look(r);
  page += section("how", messages::kHowFiguresWereMade, "<p>" + html(messages::kTermsAfterIso) + "</p>\n");
  page += report::cautions_section();
  return page +
         fmt::format("</main>\n<footer><p>{}</p></footer>\n</body>\n</html>\n",
                     html(messages::kStripsMade, {{"when", escaped(r.made_at)},
                                                  {"program", escaped(r.program)},
                                                  {"head", "<code>" + escaped(r.ledger_head) + "</code>"}}));
}

}  // namespace evet::trial
