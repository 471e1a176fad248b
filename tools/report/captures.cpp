// The sections about captures: caught again, new, to look at, unusable.
#include <algorithm>
#include <iterator>

#include "fmt/format.h"
#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/report/picture.h"
#include "tools/report/sections.h"
#include "tools/words/animal_words.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/markup.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet::report {
namespace {

std::string capture_fact(const MessageText& what, const std::string& value) {
  return value.empty() ? "" : fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", html(what), value);
}

std::string length_of(const std::optional<double>& mm) {
  return mm ? fmt::format("{:.0f} mm", *mm) : "";
}

std::string animal(const ReportCapture& c) {
  return escaped(animal_in_words(c.sex, c.stage));
}

std::string capture_named(const ReportCapture& c) {
  return capture_item(c.name);
}

std::string notes(const ReportCapture& c) {
  std::string out;
  if (const std::string decided = in_words(c.decided); !decided.empty()) {
    const std::string reason = escaped(c.reason + (c.reason.ends_with('.') ? "" : "."));
    out += fmt::format("<p class=\"decided\">{}{}</p>", escaped(decided),
                       c.reason.empty() ? "" : " " + html(messages::kReasonGiven, {{"reason", reason}}));
  }
  if (!c.caution.empty())
    out +=
        fmt::format("<p class=\"caution\"><b>{}</b> {}</p>", html(messages::kMindThis), escaped(c.caution));
  return out;
}

std::string probability_line(double p) {
  return fmt::format(
      R"(<p class="p"><span class="bar" aria-hidden="true"><i style="width:{:.1f}%"></i></span><b>{}</b> <span>{}</span></p>)",
      100 * p, percent(p), in_words(p));
}

std::string alt(const ReportStrip& strip, const std::string& whose) {
  return in_words(messages::kAltOfStrip,
                  {{"whose", whose}, {"photo", strip.photo}, {"night", long_date(strip.night)}});
}

std::string section(const std::string& id, const MessageText& title, std::size_t n, const MessageText& lead,
                    const std::string& body) {
  return fmt::format(
      "<section id=\"{0}\" class=\"{0}\" aria-labelledby=\"{0}-title\">\n<h2 id=\"{0}-title\">{1} <span "
      "class=\"n\">{2}</span></h2>\n<p class=\"lead\">{3}</p>\n{4}</section>\n",
      id, html(title), n, html(lead), body);
}

std::string when(const MessageText& title, const ReportStrip& strip) {
  return fmt::format("<b>{}</b><br>{}<br><small>{}</small>", html(title), escaped(long_date(strip.night)),
                     escaped(strip.photo));
}

std::string recapture(const ReportRecapture& r) {
  const ReportCapture& c = r.capture;
  std::string grown = length_of(c.svl_mm);
  if (c.svl_mm && r.last_svl_mm)
    grown +=
        " " + html(messages::kGrownSince, {{"change", fmt::format("{:+.0f}", *c.svl_mm - *r.last_svl_mm)}});
  const std::string facts =
      capture_fact(messages::kMatchedSpotsHead,
                   r.match.matched_spots > 0 ? std::to_string(r.match.matched_spots) : "") +
      capture_fact(messages::kFirstCaught, escaped(long_date(r.first_night))) +
      capture_fact(messages::kLastCaught, escaped(long_date(r.last_night))) +
      capture_fact(messages::kCaughtBefore,
                   escaped(counted(std::max(0, r.earlier_captures), messages::kTimes))) +
      capture_fact(messages::kAnimalHead, animal(c)) + capture_fact(messages::kLengthHead, grown) +
      capture_fact(messages::kTrapHead, escaped(c.trap));
  return fmt::format(
      "<article class=\"card\">\n{}\n<div class=\"words\"><h3>{} <span "
      "class=\"from\">{}</span></h3>{}<dl>{}</dl>{}</div>\n</article>\n",
      pair_figure({c.strip, alt(c.strip, capture_named(c)), when(messages::kThisNight, c.strip)},
                  {r.match.before, alt(r.match.before, r.match.individual),
                   when(messages::kNightBefore, r.match.before)},
                  r.match.ties),
      escaped(r.match.individual), escaped(capture_named(c)), probability_line(r.match.probability), facts,
      notes(c));
}

// "female, adult · 69 mm · trap T1"
std::string in_short(const ReportCapture& c) {
  std::string line;
  for (const std::string& part : {animal(c), length_of(c.svl_mm),
                                  c.trap.empty() ? "" : html(messages::kInTrap, {{"trap", escaped(c.trap)}})})
    if (!part.empty()) line += (line.empty() ? "" : " \u00b7 ") + part;
  return line.empty() ? "" : "<p class=\"decided\">" + line + "</p>";
}

std::string newcomer(const ReportNew& n) {
  const ReportCapture& c = n.capture;
  const std::string from = escaped(capture_named(c));
  return fmt::format(
      "<article class=\"card\">\n{}\n<div class=\"words\"><h3>{}</h3>{}{}{}</div>\n</article>\n",
      strip_figure({c.strip, alt(c.strip, capture_named(c)),
                    fmt::format("<small>{}</small>", escaped(c.strip.photo))}),
      n.label.empty() ? from : fmt::format("{} <span class=\"from\">{}</span>", escaped(n.label), from),
      probability_line(n.probability), in_short(c), notes(c));
}

std::string candidate_caption(const ReportCandidate& k) {
  std::string text = fmt::format("<b>{}</b><br><b>{}</b> {}<br>", escaped(k.individual),
                                 percent(k.probability), in_words(k.probability));
  if (k.matched_spots > 0) text += escaped(counted(k.matched_spots, messages::kMatchedSpots)) + "<br>";
  return text +
         fmt::format("<small>{}<br>{}</small>", escaped(long_date(k.before.night)), escaped(k.before.photo));
}

// The likeliest candidate lies beside the capture with its matched spots; the others stand alone.
std::string look(const ReportLook& l) {
  const ReportCapture& c = l.capture;
  const Labelled query{c.strip, alt(c.strip, capture_named(c)), when(messages::kThisNight, c.strip)};
  const auto known = [](const ReportCandidate& k) {
    return Labelled{k.before, alt(k.before, k.individual), candidate_caption(k)};
  };
  std::string table = l.candidates.empty() ? strip_figure(query)
                                           : pair_figure(query, known(l.candidates[0]), l.candidates[0].ties);
  if (l.candidates.size() > 1) {
    table += "<ol class=\"candidates\" start=\"2\">\n";
    for (std::size_t i = 1; i < l.candidates.size(); ++i)
      table += "<li>" + strip_figure(known(l.candidates[i])) + "</li>\n";
    table += "</ol>\n";
  }
  std::string why;
  for (const std::string& reason : l.why) why += "<p>" + escaped(reason) + "</p>";
  return fmt::format(
      "<article class=\"card wide\">\n<h3>{}</h3>\n<div class=\"line-up\">{}<div class=\"words\">"
      "{}<p><b>{}</b></p>{}{}</div></div>\n</article>\n",
      html(messages::kCaptureTitled, {{"name", escaped(c.name)}}), table, in_short(c) + why,
      html(messages::kNoneOfTheseButNew), probability_line(l.new_probability), notes(c));
}

}  // namespace

std::string recaptures_section(const NightReport& r) {
  if (r.recaptures.empty()) return {};
  std::string body = "<div class=\"cards\">\n";
  for (const ReportRecapture& one : r.recaptures) body += recapture(one);
  return section("again", messages::kCaughtAgain, r.recaptures.size(), messages::kCaughtAgainLead,
                 body + "</div>\n");
}

std::string newcomers_section(const NightReport& r) {
  if (r.newcomers.empty()) return {};
  std::string body = "<div class=\"cards many\">\n";
  for (const ReportNew& one : r.newcomers) body += newcomer(one);
  return section("new", messages::kNewToTheCatalogue, r.newcomers.size(), messages::kNewToTheCatalogueLead,
                 body + "</div>\n");
}

std::string looks_section(const NightReport& r) {
  if (r.looks.empty()) return {};
  std::string body;
  for (const ReportLook& one : r.looks) body += look(one);
  return section("look", messages::kStillToBeLookedAt, r.looks.size(), messages::kStillToBeLookedAtLead,
                 body);
}

std::string unusable_section(const NightReport& r) {
  if (r.unusable.empty() && r.failed_photos.empty() && r.refused_rows.empty()) return {};
  std::string body;
  auto out = std::back_inserter(body);
  if (!r.unusable.empty()) {
    std::vector<std::string> captures;
    for (const ReportUnusable& one : r.unusable) captures.push_back(escaped(capture_named(one.capture)));
    fmt::format_to(out, "<p>{}</p>\n", html(messages::kNoPhotoOfThese, {{"captures", listed(captures)}}));
  }
  if (!r.failed_photos.empty()) {
    fmt::format_to(out,
                   "<table><caption>{}</caption><thead><tr><th scope=\"col\">{}</th><th "
                   "scope=\"col\">{}</th><th scope=\"col\">{}</th></tr></thead><tbody>\n",
                   html(messages::kPhotosNotUsed), html(messages::kPhotoHead), html(messages::kCaptureHead),
                   html(messages::kWhyAndWhatHelps));
    for (const ReportFailedPhoto& f : r.failed_photos) {
      std::string reasons;
      for (const std::string& reason : f.reasons) reasons += "<p>" + escaped(reason) + "</p>";
      fmt::format_to(out, "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td></tr>\n", escaped(f.photo),
                     escaped(f.capture), reasons);
    }
    body += "</tbody></table>\n";
  }
  if (!r.refused_rows.empty()) {
    fmt::format_to(out,
                   "<table><caption>{}</caption><thead><tr><th scope=\"col\">{}</th><th "
                   "scope=\"col\">{}</th></tr></thead><tbody>\n",
                   html(messages::kRowsThatWereRefused), html(messages::kWhereHead),
                   html(messages::kWrongAndRight));
    for (const ReportRefusedRow& row : r.refused_rows)
      fmt::format_to(out, "<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(row.where),
                     escaped(row.sentence));
    body += "</tbody></table>\n";
  }
  return section("unusable", messages::kCouldNotBeUsed, r.unusable.size(), messages::kCouldNotBeUsedLead,
                 body);
}

}  // namespace evet::report
