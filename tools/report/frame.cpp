// The sections round the captures: head, the night at a glance, cautions, how the figures were made.
#include <array>
#include <iterator>

#include "fmt/format.h"
#include "tools/report/html.h"
#include "tools/report/sections.h"
#include "tools/words/text.h"

namespace evet::report {
namespace {

std::string fact(const std::string& what, const std::string& value) {
  return value.empty() ? "" : fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", what, value);
}

struct Outcome {
  const char* id;
  const char* name;
  const char* says;
  std::size_t n;
};

std::array<Outcome, 4> outcomes(const NightReport& r) {
  return {{{"again", "caught again", "matched to a known animal", r.recaptures.size()},
           {"new", "new", "not in the catalogue before", r.newcomers.size()},
           {"look", "to look at", "a person has yet to decide", r.looks.size()},
           {"unusable", "unusable", "no photo shows the belly well enough", r.unusable.size()}}};
}

}  // namespace

std::string head_section(const NightReport& r) {
  return fmt::format(
      "<header>\n<p class=\"over\">Night report</p>\n<h1>{}</h1>\n<p class=\"when\">Night of <time "
      "datetime=\"{}\">{}</time></p>\n<dl class=\"facts\">\n{}{}{}{}{}{}</dl>\n</header>\n",
      escaped(r.pond.empty() ? r.site : r.pond), escaped(r.night), escaped(long_date(r.night)),
      fact("Site", escaped(r.site)),
      fact("Place", escaped(r.place.empty() ? "withheld: exact places of protected animals are not published"
                                            : r.place)),
      fact(r.observers.size() == 1 ? "Observer" : "Observers", escaped(listed(r.observers, ", "))),
      fact(r.licences.size() == 1 ? "Licence" : "Licences", escaped(listed(r.licences, ", "))),
      fact("Catalogue", escaped(r.catalogue)),
      r.ledger_head.empty()
          ? ""
          : fmt::format("<div class=\"long\"><dt>Ledger head</dt><dd><code>{}</code></dd></div>\n",
                        escaped(r.ledger_head)));
}

std::string glance_section(const NightReport& r) {
  std::string tiles, sum;
  for (const Outcome& o : outcomes(r)) {
    const std::string inner = fmt::format("<b>{}</b><span>{}</span><small>{}</small>", o.n, o.name, o.says);
    tiles += o.n > 0 ? fmt::format("<li class=\"{0}\"><a href=\"#{0}\">{1}</a></li>\n", o.id, inner)
                     : fmt::format("<li class=\"{} none\"><div>{}</div></li>\n", o.id, inner);
    sum += fmt::format("{}{} {}", sum.empty() ? "" : " + ", o.n, o.name);
  }
  const std::size_t failed = r.failed_photos.size();
  std::string sentence =
      fmt::format("{} = {} on the sheet", sum,
                  count_of(static_cast<std::size_t>(r.captures_on_sheet), "capture", "captures"));
  if (!r.sheet.empty()) sentence += " " + escaped(r.sheet);
  sentence += fmt::format(". Of {}, {} could not be used.",
                          count_of(static_cast<std::size_t>(r.photos_on_sheet), "photo", "photos"),
                          failed == 0 ? "none" : std::to_string(failed));
  if (!r.refused_rows.empty())
    sentence += fmt::format(
        " {} of the sheet refused and left out.",
        r.refused_rows.size() == 1 ? "1 row was" : std::to_string(r.refused_rows.size()) + " rows were");
  std::string questions;
  for (const std::string& question : r.picture_questions)
    questions += "<p class=\"sum\">" + escaped(question) + "</p>\n";
  return fmt::format(
      "<section class=\"glance\" aria-labelledby=\"glance-title\">\n<h2 id=\"glance-title\">The night at a "
      "glance</h2>\n<ul class=\"tiles\">\n{}</ul>\n<p class=\"sum\">{}</p>\n{}</section>\n",
      tiles, sentence, questions);
}

std::string cautions_section() {
  static constexpr std::array cautions = {
      "The licence and local rules come first. Photography of protected species is for licensed handlers "
      "only; nobody is ever asked to handle an animal for this.",
      "Keep the time in hand as short as can be, with wet hands or clean gloves, in the shade. Photos taken "
      "through the floor of a clear tray serve as well.",
      "Disinfect kit, boots and trays between ponds: amphibian diseases travel with them.",
      "Work beside water at night is not done alone.",
      "Exact places of protected animals are not published. This page names none; do not add them when "
      "passing it on.",
      "The program gives evidence. The licensed person decides."};
  std::string items;
  for (const char* c : cautions) items += fmt::format("<li>{}</li>\n", c);
  return fmt::format(
      "<section class=\"cautions\" aria-labelledby=\"cautions-title\">\n<h2 "
      "id=\"cautions-title\">Cautions</h2>\n<ul>\n{}</ul>\n</section>\n",
      items);
}

std::string how_section(const NightReport& r) {
  std::string rows;
  for (const auto& [what, which] : r.how)
    rows += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(what), escaped(which));
  return fmt::format(
      "<section class=\"how\" aria-labelledby=\"how-title\">\n<h2 id=\"how-title\">How the figures were "
      "made</h2>\n"
      "<p>Each photo was decoded, the belly found and straightened, and its pattern of dark spots compared "
      "with those of the animals in the catalogue. "
      "The likeness of two patterns is turned into a likelihood ratio learned from pairs known to be the "
      "same or different, and with the share of recaptures to be expected into a probability over all known "
      "animals and \u201cnew\u201d. "
      "Identities follow from the verdicts in the ledger; nothing in it is ever overwritten.</p>\n"
      "<p>Words for probabilities: virtually certain from 99 %, very likely from 90 %, likely from 66 %, "
      "about as likely as not from 33 %, unlikely from 10 %, very unlikely from 1 %, exceptionally unlikely "
      "below (Mastrandrea et al. 2010).</p>\n"
      "<table><caption>State of the catalogue</caption><thead><tr><th scope=\"col\">What</th><th "
      "scope=\"col\">Which</th></tr></thead><tbody>\n"
      "<tr><th scope=\"row\">Ledger head</th><td><code>{}</code></td></tr>\n<tr><th scope=\"row\">Ledger "
      "entries</th><td>{}</td></tr>\n<tr><th scope=\"row\">Program</th><td>{}</td></tr>\n<tr><th "
      "scope=\"row\">Made</th><td>{}</td></tr>\n{}</tbody></table>\n</section>\n",
      escaped(r.ledger_head), r.ledger_entries, escaped(r.program), escaped(r.made_at), rows);
}

}  // namespace evet::report
