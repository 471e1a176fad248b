// What an authority looks for first: what was done under whose licence, every capture in a table, what was
// recorded although something spoke against it, and who answers for it.
#include <algorithm>
#include <iterator>

#include "fmt/format.h"
#include "tools/report/html.h"
#include "tools/report/sections.h"
#include "tools/words/coarse_place.h"
#include "tools/words/text.h"

namespace evet::report {
namespace {

// No table is broken over two pages: a long one is several, each with its heads, that fit a page.
constexpr std::size_t kRowsATable = 22;

std::string number(const std::optional<double>& value) {
  return value ? fmt::format("{:g}", *value) : "";
}

std::string fact_row(const char* what, const std::string& value) {
  return fmt::format("<tr><th scope=\"row\">{}</th><td{}</td></tr>\n", what,
                     value.empty() ? " class=\"blank\">not written down" : ">" + escaped(value));
}

std::string effort_of(const NightFacts& facts) {
  if (!facts.effort) return facts.effort_unit;
  return fmt::format("{:g} {}", *facts.effort, facts.effort_unit);
}

std::string weather_of(const NightFacts& facts) {
  std::string text = facts.weather;
  const auto add = [&](const char* what, const std::optional<double>& value) {
    if (value) text += fmt::format("{}{} {:g} \u00b0C", text.empty() ? "" : "; ", what, *value);
  };
  add("air", facts.air_c), add("water", facts.water_c);
  return text;
}

std::string where(const NightReport& r) {
  if (r.facts.latitude && r.facts.longitude) return exact_place(*r.facts.latitude, *r.facts.longitude);
  std::vector<std::string> places;
  for (const ReportRow& row : r.rows)
    if (row.latitude && row.longitude) {
      std::string place = exact_place(*row.latitude, *row.longitude);
      if (std::find(places.begin(), places.end(), place) == places.end()) places.push_back(std::move(place));
    }
  if (places.size() > 3) return fmt::format("{} points: see the table of captures", places.size());
  return listed(places, "; ");
}

std::string head_cell(const char* word, bool is_number = false) {
  return fmt::format("<th scope=\"col\"{}>{}</th>", is_number ? " class=\"num\"" : "", word);
}

// Kept on one line where that leaves room for the other columns.
const char* unbroken(const std::string& text, std::size_t most = 14) {
  return text.size() <= most ? " class=\"unbroken\"" : "";
}
constexpr std::size_t kOutcome = 26;  // "N-012, caught again"

std::string capture_row(const ReportRow& row, bool exact, bool traps) {
  std::string animal = row.sex == "unknown" ? "" : row.sex;
  if (!row.stage.empty()) animal += (animal.empty() ? "" : ", ") + row.stage;
  std::string text =
      fmt::format("<tr><th scope=\"row\"{}>{}</th>", unbroken(row.capture), escaped(row.capture));
  auto out = std::back_inserter(text);
  if (exact && traps) fmt::format_to(out, "<td>{}</td>", escaped(row.trap));
  fmt::format_to(out,
                 "<td class=\"unbroken\">{}</td><td class=\"num\">{}</td><td class=\"num\">{}</td><td "
                 "class=\"num\">{}</td>",
                 escaped(animal), number(row.svl_mm), number(row.total_mm), number(row.mass_g));
  fmt::format_to(out, "<td>{}</td><td{}>{}</td><td{}>{}</td>", row.released ? "yes" : "no",
                 unbroken(row.outcome, kOutcome), escaped(row.outcome), unbroken(row.by), escaped(row.by));
  if (exact)
    fmt::format_to(out, "<td{}>{}</td><td>{}</td>", unbroken(row.licence), escaped(row.licence),
                   escaped(row.notes));
  return text + "</tr>\n";
}

std::string captures_table(const NightReport& r, std::size_t first, std::size_t last) {
  const bool exact = r.audience == Audience::authority;
  const bool traps =
      std::any_of(r.rows.begin(), r.rows.end(), [](const ReportRow& row) { return !row.trap.empty(); });
  std::string heads = head_cell("Capture") + (exact && traps ? head_cell("Trap") : "") + head_cell("Animal") +
                      head_cell("SVL, mm", true) + head_cell("Total, mm", true) + head_cell("Mass, g", true) +
                      head_cell("Released") + head_cell("Outcome") + head_cell("Identified by") +
                      (exact ? head_cell("Licence") + head_cell("Notes") : "");
  std::string rows;
  for (std::size_t i = first; i < last; ++i) rows += capture_row(r.rows[i], exact, traps);
  const std::string caption = r.rows.size() <= kRowsATable
                                  ? count_of(r.rows.size(), "capture", "captures")
                                  : fmt::format("Captures {} to {} of {}", first + 1, last, r.rows.size());
  return fmt::format(
      "<div class=\"scroll\"><table class=\"whole captures\"><caption>{}</caption><thead><tr>{}</tr></thead>"
      "<tbody>\n{}</tbody></table></div>\n",
      caption, heads, rows);
}

}  // namespace

std::string conditions_section(const NightReport& r) {
  const bool exact = r.audience == Audience::authority;
  std::vector<std::string> licences = r.licences, observers = r.observers;
  if (!r.facts.licence.empty() &&
      std::find(licences.begin(), licences.end(), r.facts.licence) == licences.end())
    licences.push_back(r.facts.licence);
  if (observers.empty() && !r.facts.observers.empty()) observers = {r.facts.observers};
  std::string rows = fact_row("Method of capture", r.facts.method) + fact_row("Effort", effort_of(r.facts)) +
                     fact_row("Weather", weather_of(r.facts));
  if (exact) {
    rows += fact_row(observers.size() == 1 ? "Observer" : "Observers", listed(observers, ", "));
    rows += fact_row("Licence holder", r.facts.holder);
    rows += fact_row(licences.size() == 1 ? "Licence number" : "Licence numbers", listed(licences, ", "));
    rows += fact_row("Exact place", where(r));
    if (!r.facts.notes.empty()) rows += fact_row("Notes", r.facts.notes);
  } else {
    rows += fact_row("Licence", "holder, number and observers stand in the version for the authority");
  }
  return fmt::format(
      "<section class=\"conditions\" aria-labelledby=\"conditions-title\">\n<h2 id=\"conditions-title\">What "
      "was "
      "done</h2>\n<table class=\"whole\"><caption>Method, effort, weather, "
      "licence</caption><tbody>\n{}</tbody>"
      "</table>\n</section>\n",
      rows);
}

std::string captures_section(const NightReport& r) {
  std::string body;
  if (r.rows.empty())
    body = "<p>Nothing was caught: the place was worked, and this night counts as one without a catch.</p>\n";
  for (std::size_t first = 0; first < r.rows.size(); first += kRowsATable)
    body += captures_table(r, first, std::min(first + kRowsATable, r.rows.size()));
  return "<section class=\"all\" aria-labelledby=\"all-title\">\n<h2 id=\"all-title\">Every capture</h2>\n" +
         body + "</section>\n";
}

std::string overrides_section(const NightReport& r) {
  std::string rows;
  for (const ReportOverride& one : r.overrides)
    rows += fmt::format("<tr><th scope=\"row\">{}</th><td>{}{}</td><td>{}</td><td>{}, {}</td></tr>\n",
                        one.capture.empty() ? "the night" : escaped(one.capture), escaped(one.sentence),
                        one.stands ? "" : " <em>(taken back since)</em>", escaped(one.reason),
                        escaped(one.by), escaped(long_date(one.on)));
  const std::string body =
      rows.empty()
          ? "<p>None: nothing was recorded against what the program had to say.</p>\n"
          : fmt::format(
                "<table><caption>Recorded although something spoke against it</caption><thead><tr>{}{}{}{}"
                "</tr></thead><tbody>\n{}</tbody></table>\n",
                head_cell("Capture"), head_cell("What spoke against it"), head_cell("Reason given"),
                head_cell("By, on"), rows);
  return "<section class=\"overrides\" aria-labelledby=\"overrides-title\">\n<h2 "
         "id=\"overrides-title\">Declared "
         "overrides</h2>\n" +
         body + "</section>\n";
}

std::string signature_section(const NightReport& r) {
  if (r.audience != Audience::authority) return {};
  std::string licences = listed(r.licences, ", ");
  if (licences.empty()) licences = r.facts.licence;
  const auto line = [](const char* what, const std::string& value) {
    return fmt::format("<div><span class=\"line\">{}</span><small>{}</small></div>\n", escaped(value), what);
  };
  return fmt::format(
      "<section class=\"signature\" aria-labelledby=\"signature-title\">\n<h2 "
      "id=\"signature-title\">Signature</h2>\n"
      "<p>The captures in this report were made and handled under the licence named, and the report is "
      "complete to "
      "the best of my knowledge.</p>\n<div class=\"lines\">\n{}{}{}{}</div>\n</section>\n",
      line("Licence holder", r.facts.holder), line("Licence number", licences), line("Place and date", ""),
      line("Signature", ""));
}

}  // namespace evet::report
