// Numbers: the discovery curve, the estimate with its doubt, its assumptions and warnings.
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "tools/report/discovery_plot.h"
#include "tools/report/html.h"
#include "tools/report/interval_plot.h"
#include "tools/report/sections.h"

namespace evet::report {
namespace {

std::string row(const std::string& name, const models::Estimate& e) {
  std::string interval = "none", method;
  if (!e.intervals.empty()) {
    const models::Interval& i = e.intervals.front();
    interval = fmt::format("{} to {}", figure(i.lower), figure(i.upper));
    method = fmt::format("{:.0f} %, {}", 100 * i.level, escaped(i.method.words()));
  }
  return fmt::format(
      "<tr><th scope=\"row\">{}</th><td class=\"num\"><b>{}</b></td><td class=\"num\">{}</td><td "
      "class=\"num\">{}</td><td>{}</td></tr>\n",
      name, figure(e.value), figure(e.standard_error), interval, method);
}

std::string list(const std::string& title, const std::vector<std::string>& sentences, const char* kind) {
  if (sentences.empty()) return {};
  std::string items;
  for (const std::string& s : sentences) items += "<li>" + escaped(s) + "</li>\n";
  return fmt::format("<div class=\"{}\"><h4>{}</h4><ul>\n{}</ul></div>\n", kind, title, items);
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
  out +=
      "<div class=\"scroll\"><table><caption>Estimates</caption><thead><tr><th scope=\"col\">Identities "
      "taken</th><th scope=\"col\" class=\"num\">Estimate</th><th scope=\"col\" class=\"num\">Standard "
      "error</th><th scope=\"col\" class=\"num\">Interval</th><th scope=\"col\">Kind of "
      "interval</th></tr></thead><tbody>\n";
  out += row("as if certain", e.naive);
  if (e.corrected) out += row("with their doubt", *e.corrected);
  out += "</tbody></table></div>\n";
  std::vector<std::pair<std::string, const models::Estimate*>> drawn{{"as if certain", &e.naive}};
  if (e.corrected) drawn.emplace_back("with their doubt", &*e.corrected);
  out += interval_plot(drawn);
  if (!e.correction.empty()) out += fmt::format("<p>{}</p>\n", escaped(e.correction));
  for (const models::Estimate* one : {&e.naive, e.corrected ? &*e.corrected : nullptr})
    if (one != nullptr && !one->undefined.empty())
      out += fmt::format("<p class=\"caution\">{}</p>\n", escaped(one->undefined.words()));
  out += list("Mind", both(e, &models::Estimate::warnings), "warnings");
  out += list("This holds if", both(e, &models::Estimate::assumptions), "assumptions");
  if (!e.naive.source.empty())
    out += fmt::format("<p class=\"source\">Method: {}</p>\n", escaped(e.naive.source));
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
      "<figure class=\"discovery\"><figcaption><h3>Discovery curve</h3><p>Each dot is a night. The flatter "
      "the curve, the more of the pond\u2019s animals are known.</p></figcaption>{}"
      "<details><summary>The same as a table</summary><table><caption>Captures and different animals so "
      "far</caption><thead><tr><th scope=\"col\">Night</th><th scope=\"col\" class=\"num\">Captures</th><th "
      "scope=\"col\" class=\"num\">Animals</th></tr></thead><tbody>\n{}</tbody></table></details></figure>\n",
      discovery_plot(r.discovery), rows);
}

}  // namespace

std::string estimate_section(const NightReport& r) {
  std::string body = discovery(r);
  for (const ReportEstimate& e : r.estimates) body += estimate(e);
  if (r.estimates.empty() && !r.no_estimate.empty())
    body += fmt::format("<p class=\"caution\">No estimate: {}</p>\n", escaped(r.no_estimate));
  if (body.empty()) return {};
  return "<section class=\"numbers\" aria-labelledby=\"numbers-title\">\n<h2 id=\"numbers-title\">How many "
         "there may be</h2>\n" +
         body + "</section>\n";
}

}  // namespace evet::report
