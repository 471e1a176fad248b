// The sections about captures: caught again, new, to look at, unusable.
#include <algorithm>
#include <iterator>

#include "fmt/format.h"
#include "tools/report/html.h"
#include "tools/report/picture.h"
#include "tools/report/sections.h"
#include "tools/words/text.h"

namespace evet::report {
namespace {

std::string fact(const std::string& what, const std::string& value) {
  return value.empty() ? "" : fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", what, value);
}

std::string length_of(const std::optional<double>& mm) {
  return mm ? fmt::format("{:.0f} mm", *mm) : "";
}

std::string animal(const ReportCapture& c) {
  std::string text = c.sex == "unknown" ? "" : c.sex;
  if (!c.stage.empty()) text += (text.empty() ? "" : ", ") + c.stage;
  return escaped(text);
}

std::string notes(const ReportCapture& c) {
  std::string out;
  if (!c.decided.empty())
    out += fmt::format(
        "<p class=\"decided\">{}{}</p>", escaped(c.decided),
        c.reason.empty() ? "" : escaped(" Reason: " + c.reason + (c.reason.ends_with('.') ? "" : ".")));
  if (!c.caution.empty()) out += fmt::format("<p class=\"caution\"><b>Mind:</b> {}</p>", escaped(c.caution));
  return out;
}

std::string probability_line(double p) {
  return fmt::format(
      R"(<p class="p"><span class="bar" aria-hidden="true"><i style="width:{:.1f}%"></i></span><b>{}</b> <span>{}</span></p>)",
      100 * p, percent(p), in_words(p));
}

std::string alt(const ReportStrip& strip, const std::string& whose) {
  return fmt::format("Straightened belly, head up, of {}, photo {}, night of {}", whose, strip.photo,
                     long_date(strip.night));
}

std::string section(const std::string& id, const std::string& title, std::size_t n, const std::string& lead,
                    const std::string& body) {
  return fmt::format(
      "<section id=\"{0}\" class=\"{0}\" aria-labelledby=\"{0}-title\">\n<h2 id=\"{0}-title\">{1} <span "
      "class=\"n\">{2}</span></h2>\n<p class=\"lead\">{3}</p>\n{4}</section>\n",
      id, title, n, lead, body);
}

std::string when(const std::string& title, const ReportStrip& strip) {
  return fmt::format("<b>{}</b><br>{}<br><small>{}</small>", title, escaped(long_date(strip.night)),
                     escaped(strip.photo));
}

std::string recapture(const ReportRecapture& r) {
  const ReportCapture& c = r.capture;
  std::string grown = length_of(c.svl_mm);
  if (c.svl_mm && r.last_svl_mm) grown += fmt::format(" ({:+.0f} mm since)", *c.svl_mm - *r.last_svl_mm);
  const std::string facts =
      fact("Matched spots", r.match.matched_spots > 0 ? std::to_string(r.match.matched_spots) : "") +
      fact("First caught", escaped(long_date(r.first_night))) +
      fact("Last caught", escaped(long_date(r.last_night))) +
      fact("Caught before",
           count_of(static_cast<std::size_t>(std::max(0, r.earlier_captures)), "time", "times")) +
      fact("Animal", animal(c)) + fact("Length", grown) + fact("Trap", escaped(c.trap));
  return fmt::format(
      "<article class=\"card\">\n{}\n<div class=\"words\"><h3>{} <span class=\"from\">capture "
      "{}</span></h3>{}<dl>{}</dl>{}</div>\n</article>\n",
      pair_figure({c.strip, alt(c.strip, "capture " + c.name), when("This night", c.strip)},
                  {r.match.before, alt(r.match.before, r.match.individual), when("Before", r.match.before)},
                  r.match.ties),
      escaped(r.match.individual), escaped(c.name), probability_line(r.match.probability), facts, notes(c));
}

// "female, adult · 69 mm · trap T1"
std::string in_short(const ReportCapture& c) {
  std::string line;
  for (const std::string& part :
       {animal(c), length_of(c.svl_mm), c.trap.empty() ? "" : "trap " + escaped(c.trap)})
    if (!part.empty()) line += (line.empty() ? "" : " \u00b7 ") + part;
  return line.empty() ? "" : "<p class=\"decided\">" + line + "</p>";
}

std::string newcomer(const ReportNew& n) {
  const ReportCapture& c = n.capture;
  const std::string from = fmt::format("capture {}", escaped(c.name));
  return fmt::format(
      "<article class=\"card\">\n{}\n<div class=\"words\"><h3>{}</h3>{}{}{}</div>\n</article>\n",
      strip_figure({c.strip, alt(c.strip, "capture " + c.name),
                    fmt::format("<small>{}</small>", escaped(c.strip.photo))}),
      n.label.empty() ? from : fmt::format("{} <span class=\"from\">{}</span>", escaped(n.label), from),
      probability_line(n.probability), in_short(c), notes(c));
}

std::string candidate_caption(const ReportCandidate& k) {
  std::string text = fmt::format("<b>{}</b><br><b>{}</b> {}<br>", escaped(k.individual),
                                 percent(k.probability), in_words(k.probability));
  if (k.matched_spots > 0)
    text += count_of(static_cast<std::size_t>(k.matched_spots), "matched spot", "matched spots") + "<br>";
  return text +
         fmt::format("<small>{}<br>{}</small>", escaped(long_date(k.before.night)), escaped(k.before.photo));
}

// The likeliest candidate lies beside the capture with its matched spots; the others stand alone.
std::string look(const ReportLook& l) {
  const ReportCapture& c = l.capture;
  const Labelled query{c.strip, alt(c.strip, "capture " + c.name), when("This night", c.strip)};
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
      "<article class=\"card wide\">\n<h3>Capture {}</h3>\n<div class=\"line-up\">{}<div class=\"words\">"
      "{}<p><b>None of these but a new animal:</b></p>{}{}</div></div>\n</article>\n",
      escaped(c.name), table, in_short(c) + why, probability_line(l.new_probability), notes(c));
}

}  // namespace

std::string recaptures_section(const NightReport& r) {
  if (r.recaptures.empty()) return {};
  std::string body = "<div class=\"cards\">\n";
  for (const ReportRecapture& one : r.recaptures) body += recapture(one);
  return section("again", "Caught again", r.recaptures.size(),
                 "Each belly is laid straight with the head up: this night on the left, an earlier night on "
                 "the right. Rings "
                 "of one number mark the same spot. Hatched grey was not plainly seen.",
                 body + "</div>\n");
}

std::string newcomers_section(const NightReport& r) {
  if (r.newcomers.empty()) return {};
  std::string body = "<div class=\"cards many\">\n";
  for (const ReportNew& one : r.newcomers) body += newcomer(one);
  return section("new", "New to the catalogue", r.newcomers.size(),
                 "The figure is the probability that the animal is none of those already in the catalogue.",
                 body + "</div>\n");
}

std::string looks_section(const NightReport& r) {
  if (r.looks.empty()) return {};
  std::string body;
  for (const ReportLook& one : r.looks) body += look(one);
  return section("look", "Still to be looked at", r.looks.size(),
                 "Not settled: the photos alone leave a doubt that a person has to resolve. What a "
                 "look gains most on comes first; candidates stand in order, the likeliest first.",
                 body);
}

std::string unusable_section(const NightReport& r) {
  if (r.unusable.empty() && r.failed_photos.empty() && r.refused_rows.empty()) return {};
  std::string body;
  auto out = std::back_inserter(body);
  if (!r.unusable.empty()) {
    body += "<p>No photo of ";
    for (std::size_t i = 0; i < r.unusable.size(); ++i)
      fmt::format_to(out, "{}capture {}",
                     i == 0                       ? ""
                     : i + 1 == r.unusable.size() ? " and "
                                                  : ", ",
                     escaped(r.unusable[i].capture.name));
    body += " could be used. These animals count as caught but not as recognised.</p>\n";
  }
  if (!r.failed_photos.empty()) {
    body +=
        "<table><caption>Photos that could not be used</caption><thead><tr><th scope=\"col\">Photo</th><th "
        "scope=\"col\">Capture</th><th scope=\"col\">Why, and what helps</th></tr></thead><tbody>\n";
    for (const ReportFailedPhoto& f : r.failed_photos) {
      std::string reasons;
      for (const std::string& reason : f.reasons) reasons += "<p>" + escaped(reason) + "</p>";
      fmt::format_to(out, "<tr><th scope=\"row\">{}</th><td>{}</td><td>{}</td></tr>\n", escaped(f.photo),
                     escaped(f.capture), reasons);
    }
    body += "</tbody></table>\n";
  }
  if (!r.refused_rows.empty()) {
    body +=
        "<table><caption>Rows of the sheet that were refused</caption><thead><tr><th "
        "scope=\"col\">Where</th><th scope=\"col\">What is wrong, and what would be "
        "right</th></tr></thead><tbody>\n";
    for (const ReportRefusedRow& row : r.refused_rows)
      fmt::format_to(out, "<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(row.where),
                     escaped(row.sentence));
    body += "</tbody></table>\n";
  }
  return section("unusable", "Could not be used", r.unusable.size(),
                 "Photos that fail are named, so that they can be taken again before release.", body);
}

}  // namespace evet::report
