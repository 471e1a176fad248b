// What an authority looks for first: what was done under whose licence, every capture in a table, what was
// recorded although something spoke against it, and who answers for it.
#include <algorithm>
#include <iterator>

#include "fmt/format.h"
#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/report/sections.h"
#include "tools/words/animal_words.h"
#include "tools/words/coarse_place.h"
#include "tools/words/in_words.h"
#include "tools/words/markup.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet::report {
namespace {

// No table is broken over two pages: a long one is several, each with its heads, that fit a page.
constexpr std::size_t kRowsATable = 22;

std::string number(const std::optional<double>& value) {
  return value ? fmt::format("{:g}", *value) : "";
}

std::string fact_row(const MessageText& what, const std::string& value) {
  return fmt::format(
      "<tr><th scope=\"row\">{}</th><td{}</td></tr>\n", html(what),
      value.empty() ? " class=\"blank\">" + html(messages::kNotWrittenDown) : ">" + escaped(value));
}

std::string effort_of(const NightFacts& facts) {
  if (!facts.effort) return facts.effort_unit;
  return fmt::format("{:g} {}", *facts.effort, facts.effort_unit);
}

std::string weather_of(const NightFacts& facts) {
  std::string text = facts.weather;
  const auto add = [&](const MessageText& what, const std::optional<double>& value) {
    if (value)
      text += (text.empty() ? "" : "; ") + in_words(what, {{"degrees", fmt::format("{:g}", *value)}});
  };
  add(messages::kAirDegrees, facts.air_c), add(messages::kWaterDegrees, facts.water_c);
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
  if (places.size() > 3) return in_words(messages::kPointsSeeTable, {{"points", places.size()}});
  return joined(places, "; ");
}

std::string head_cell(const MessageText& word, bool is_number = false) {
  return fmt::format("<th scope=\"col\"{}>{}</th>", is_number ? " class=\"num\"" : "", html(word));
}

// Kept on one line where that leaves room for the other columns.
const char* unbroken(const std::string& text, std::size_t most = 14) {
  return text.size() <= most ? " class=\"unbroken\"" : "";
}
constexpr std::size_t kOutcome = 26;  // "N-012, caught again"

std::string capture_row(const ReportRow& row, bool exact, bool traps) {
  const std::string animal = animal_in_words(row.sex, row.stage);
  const std::string by = row.by.words();
  std::string text =
      fmt::format("<tr><th scope=\"row\"{}>{}</th>", unbroken(row.capture), escaped(row.capture));
  auto out = std::back_inserter(text);
  if (exact && traps) fmt::format_to(out, "<td>{}</td>", escaped(row.trap));
  fmt::format_to(out,
                 "<td class=\"unbroken\">{}</td><td class=\"num\">{}</td><td class=\"num\">{}</td><td "
                 "class=\"num\">{}</td>",
                 escaped(animal), number(row.svl_mm), number(row.total_mm), number(row.mass_g));
  fmt::format_to(out, "<td>{}</td><td{}>{}</td><td{}>{}</td>",
                 html(row.released ? messages::kReleasedYes : messages::kReleasedNo),
                 unbroken(row.outcome, kOutcome), escaped(row.outcome), unbroken(by), escaped(by));
  if (exact)
    fmt::format_to(out, "<td{}>{}</td><td>{}</td>", unbroken(row.licence), escaped(row.licence),
                   escaped(row.notes));
  return text + "</tr>\n";
}

std::string captures_table(const NightReport& r, std::size_t first, std::size_t last) {
  const bool exact = r.audience == Audience::authority;
  const bool traps =
      std::any_of(r.rows.begin(), r.rows.end(), [](const ReportRow& row) { return !row.trap.empty(); });
  std::string heads = head_cell(messages::kCaptureHead) +
                      (exact && traps ? head_cell(messages::kTrapHead) : "") +
                      head_cell(messages::kAnimalHead) + head_cell(messages::kSvlHead, true) +
                      head_cell(messages::kTotalHead, true) + head_cell(messages::kMassHead, true) +
                      head_cell(messages::kReleasedHead) + head_cell(messages::kOutcomeHead) +
                      head_cell(messages::kIdentifiedBy) +
                      (exact ? head_cell(messages::kLicenceHead) + head_cell(messages::kNotesHead) : "");
  std::string rows;
  for (std::size_t i = first; i < last; ++i) rows += capture_row(r.rows[i], exact, traps);
  const std::string caption =
      r.rows.size() <= kRowsATable
          ? escaped(counted(r.rows.size(), messages::kCaptures))
          : html(messages::kCapturesFromTo, {{"first", first + 1}, {"last", last}, {"all", r.rows.size()}});
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
  std::string rows = fact_row(messages::kFieldMethod, r.facts.method) +
                     fact_row(messages::kFieldEffort, effort_of(r.facts)) +
                     fact_row(messages::kFieldWeather, weather_of(r.facts));
  if (exact) {
    rows += fact_row(observers.size() == 1 ? messages::kOneObserver : messages::kSeveralObservers,
                     joined(observers, ", "));
    rows += fact_row(messages::kFieldHolder, r.facts.holder);
    rows += fact_row(licences.size() == 1 ? messages::kFieldLicence : messages::kLicenceNumbers,
                     joined(licences, ", "));
    rows += fact_row(messages::kExactPlace, where(r));
    if (!r.facts.notes.empty()) rows += fact_row(messages::kNotesHead, r.facts.notes);
  } else {
    rows += fact_row(messages::kLicenceHead, in_words(messages::kHolderStandsElsewhere));
  }
  return fmt::format(
      "<section class=\"conditions\" aria-labelledby=\"conditions-title\">\n<h2 "
      "id=\"conditions-title\">{}</h2>\n<table class=\"whole\"><caption>{}</caption><tbody>\n{}</tbody>"
      "</table>\n</section>\n",
      html(messages::kWhatWasDone), html(messages::kWhatWasDoneCaption), rows);
}

std::string captures_section(const NightReport& r) {
  std::string body;
  if (r.rows.empty()) body = "<p>" + html(messages::kNothingWasCaught) + "</p>\n";
  for (std::size_t first = 0; first < r.rows.size(); first += kRowsATable)
    body += captures_table(r, first, std::min(first + kRowsATable, r.rows.size()));
  return "<section class=\"all\" aria-labelledby=\"all-title\">\n<h2 id=\"all-title\">" +
         html(messages::kEveryCapture) + "</h2>\n" + body + "</section>\n";
}

std::string overrides_section(const NightReport& r) {
  std::string rows;
  for (const ReportOverride& one : r.overrides)
    rows += fmt::format("<tr><th scope=\"row\">{}</th><td>{}{}</td><td>{}</td><td>{}, {}</td></tr>\n",
                        one.capture.empty() ? html(messages::kTheNight) : escaped(one.capture),
                        escaped(one.sentence),
                        one.stands ? "" : " <em>" + html(messages::kTakenBackSince) + "</em>",
                        escaped(one.reason), escaped(one.by), escaped(long_date(one.on)));
  const std::string body =
      rows.empty()
          ? "<p>" + html(messages::kNoOverrides) + "</p>\n"
          : fmt::format(
                "<table><caption>{}</caption><thead><tr>{}{}{}{}</tr></thead><tbody>\n{}</tbody></table>\n",
                html(messages::kRecordedAlthough), head_cell(messages::kCaptureHead),
                head_cell(messages::kWhatSpokeAgainst), head_cell(messages::kReasonGivenHead),
                head_cell(messages::kByAndOn), rows);
  return "<section class=\"overrides\" aria-labelledby=\"overrides-title\">\n<h2 id=\"overrides-title\">" +
         html(messages::kDeclaredOverrides) + "</h2>\n" + body + "</section>\n";
}

std::string signature_section(const NightReport& r) {
  if (r.audience != Audience::authority) return {};
  std::string licences = joined(r.licences, ", ");
  if (licences.empty()) licences = r.facts.licence;
  const auto line = [](const MessageText& what, const std::string& value) {
    return fmt::format("<div><span class=\"line\">{}</span><small>{}</small></div>\n", escaped(value),
                       html(what));
  };
  return fmt::format(
      "<section class=\"signature\" aria-labelledby=\"signature-title\">\n<h2 "
      "id=\"signature-title\">{}</h2>\n<p>{}</p>\n<div class=\"lines\">\n{}{}{}{}</div>\n</section>\n",
      html(messages::kSignature), html(messages::kWhatIsSigned), line(messages::kFieldHolder, r.facts.holder),
      line(messages::kFieldLicence, licences), line(messages::kPlaceAndDate, ""),
      line(messages::kSignature, ""));
}

}  // namespace evet::report
