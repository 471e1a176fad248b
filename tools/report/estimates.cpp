// Numbers: the discovery curve, the estimate with its doubt, its assumptions and warnings.
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "tools/report/discovery_plot.h"
#include "tools/report/html.h"
#include "tools/report/interval_plot.h"
#include "tools/report/messages.h"
#include "tools/report/sections.h"
#include "tools/words/in_words.h"
#include "tools/words/markup.h"

namespace evet::report {
namespace {

std::string row(const MessageText& name, const models::Estimate& e) {
  std::string interval = html(messages::kIntervalIsNone), method;
  if (!e.intervals.empty()) {
    const models::Interval& i = e.intervals.front();
    interval = html(messages::kFigureToFigure,
                    {{"lower", escaped(figure(i.lower))}, {"upper", escaped(figure(i.upper))}});
    method = fmt::format("{:.0f} %, {}", 100 * i.level, escaped(i.method.words()));
  }
  return fmt::format(
      "<tr><th scope=\"row\">{}</th><td class=\"num\"><b>{}</b></td><td class=\"num\">{}</td><td "
      "class=\"num\">{}</td><td>{}</td></tr>\n",
      html(name), escaped(figure(e.value)), escaped(figure(e.standard_error)), interval, method);
}

std::string list(const MessageText& title, const std::vector<std::string>& sentences, const char* kind) {
  if (sentences.empty()) return {};
  std::string items;
  for (const std::string& s : sentences) items += "<li>" + escaped(s) + "</li>\n";
  return fmt::format("<div class=\"{}\"><h4>{}</h4><ul>\n{}</ul></div>\n", kind, html(title), items);
}

std::vector<std::string> both(const ReportEstimate& e, models::Sentences models::Estimate::*which) {
  models::Sentences all = e.naive.*which;
  if (e.corrected)
    for (const Message& one : (*e.corrected).*which) models::add_once(all, one);
  return models::each_in_words(all);
}

std::string estimate(const ReportEstimate& e) {
  std::string out = fmt::format("<article class=\"estimate\">\n<h3>{}</h3>\n<p>{}.</p>\n", escaped(e.what),
                                escaped(e.model));
  out += fmt::format(
      "<div class=\"scroll\"><table><caption>{}</caption><thead><tr><th scope=\"col\">{}</th><th "
      "scope=\"col\" class=\"num\">{}</th><th scope=\"col\" class=\"num\">{}</th><th scope=\"col\" "
      "class=\"num\">{}</th><th scope=\"col\">{}</th></tr></thead><tbody>\n",
      html(messages::kEstimatesCaption), html(messages::kIdentitiesTaken), html(messages::kEstimateHead),
      html(messages::kStandardErrorHead), html(messages::kIntervalHead), html(messages::kKindOfInterval));
  out += row(messages::kAsIfCertain, e.naive);
  if (e.corrected) out += row(messages::kWithTheirDoubt, *e.corrected);
  out += "</tbody></table></div>\n";
  std::vector<std::pair<std::string, const models::Estimate*>> drawn{
      {in_words(messages::kAsIfCertain), &e.naive}};
  if (e.corrected) drawn.emplace_back(in_words(messages::kWithTheirDoubt), &*e.corrected);
  out += interval_plot(drawn);
  if (!e.correction.empty()) out += fmt::format("<p>{}</p>\n", escaped(e.correction));
  for (const models::Estimate* one : {&e.naive, e.corrected ? &*e.corrected : nullptr})
    if (one != nullptr && !one->undefined.empty())
      out += fmt::format("<p class=\"caution\">{}</p>\n", escaped(one->undefined.words()));
  out += list(messages::kMindList, both(e, &models::Estimate::warnings), "warnings");
  out += list(messages::kThisHoldsIf, both(e, &models::Estimate::assumptions), "assumptions");
  if (!e.naive.source.empty())
    out += fmt::format("<p class=\"source\">{}</p>\n",
                       html(messages::kMethodIs, {{"source", escaped(e.naive.source)}}));
  return out + "</article>\n";
}

std::string discovery(const NightReport& r) {
  if (r.discovery.size() < 2) return {};
  std::string rows;
  for (const DiscoveryPoint& p : r.discovery)
    rows +=
        fmt::format("<tr><th scope=\"row\">{}</th><td class=\"num\">{}</td><td class=\"num\">{}</td></tr>\n",
                    escaped(long_date(p.night)), p.captures, p.individuals);
  return fmt::format(
      "<figure class=\"discovery\"><figcaption><h3>{}</h3><p>{}</p></figcaption>{}"
      "<details><summary>{}</summary><table><caption>{}</caption><thead><tr><th scope=\"col\">{}</th><th "
      "scope=\"col\" class=\"num\">{}</th><th scope=\"col\" class=\"num\">{}</th></tr></thead><tbody>\n{}"
      "</tbody></table></details></figure>\n",
      html(messages::kDiscoveryCurve), html(messages::kDiscoveryCurveSays), discovery_plot(r.discovery),
      html(messages::kSameAsTable), html(messages::kDiscoveryCaption), html(messages::kNightHead),
      html(messages::kCapturesHead), html(messages::kAnimalsHead), rows);
}

}  // namespace

std::string estimate_section(const NightReport& r) {
  std::string body = discovery(r);
  for (const ReportEstimate& e : r.estimates) body += estimate(e);
  if (r.estimates.empty() && !r.no_estimate.empty())
    body += fmt::format("<p class=\"caution\">{}</p>\n",
                        html(messages::kNoEstimateWhy, {{"why", escaped(r.no_estimate)}}));
  if (body.empty()) return {};
  return "<section class=\"numbers\" aria-labelledby=\"numbers-title\">\n<h2 id=\"numbers-title\">" +
         html(messages::kHowManyThereMayBe) + "</h2>\n" + body + "</section>\n";
}

}  // namespace evet::report
