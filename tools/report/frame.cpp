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

// What is ours, the comparison of patterns, is described with its measurements in the program's own documents.
constexpr std::array kSources = {
    "Cost of likelihood ratios, by which the calibration is held to account: Br\u00fcmmer &amp; du Preez "
    "(2006), "
    "Computer "
    "Speech & Language 20: 230\u2013275.",
    "Words for probabilities: Mastrandrea et al. (2010), Guidance Note for Lead Authors of the IPCC Fifth "
    "Assessment "
    "Report on Consistent Treatment of Uncertainties.",
    "Estimates over several sets of identities: Rubin (1987), Multiple Imputation for Nonresponse in "
    "Surveys.",
    "Coarse places: Chapman (2020), Current Best Practices for Generalizing Sensitive Species Occurrence "
    "Data, GBIF "
    "Secretariat, doi 10.15468/doc-5jp4-5g10.",
    "The ledger's hashes: SHA-256, FIPS 180-4, over canonical JSON, RFC 8785.",
    "Numbers of animals: the source of each estimator stands under its figure."};

}  // namespace

std::string head_section(const NightReport& r) {
  const bool exact = r.audience == Audience::authority;
  const std::string name = r.pond.empty() ? r.site : r.pond;
  const std::string published = r.place.empty() ? "not published" : r.place;
  std::string facts;
  if (exact) {
    facts += fact("Site", escaped(r.site));
    if (!r.pond.empty()) facts += fact("Pond", escaped(r.pond));
    facts += fact("Catalogue", escaped(r.catalogue));
    if (!r.place.empty()) facts += fact("Place as it may be published", escaped(r.place));
  } else {
    facts += fact("Place", escaped(published));
  }
  if (!r.observers.empty())
    facts += fact(r.observers.size() == 1 ? "Observer" : "Observers", escaped(listed(r.observers, ", ")));
  if (!r.ledger_head.empty())
    facts += fmt::format("<div class=\"long\"><dt>Ledger head</dt><dd><code>{}</code></dd></div>\n",
                         escaped(r.ledger_head));
  return fmt::format(
      "<header>\n<p class=\"over\">Night report</p>\n<h1>{}</h1>\n<p class=\"when\">Night of <time "
      "datetime=\"{}\">{}</time></p>\n<p class=\"version\">{}</p>\n<dl "
      "class=\"facts\">\n{}</dl>\n</header>\n",
      exact ? escaped(name) : "A pond with protected newts", escaped(r.night), escaped(long_date(r.night)),
      exact ? "<b>For the licensing authority.</b> It names the exact place and the licence holder: not for "
              "publication."
            : "<b>Public version.</b> The place is told coarsely; names that could give it away, and those "
              "of people, "
              "are left out.",
      facts);
}

std::string photos_used(std::size_t photos, std::size_t failed) {
  if (photos == 0) return "There are no photos.";
  if (failed > 0)
    return fmt::format("Of {}, {} could not be used.", count_of(photos, "photo", "photos"), failed);
  return photos == 1 ? "Its photo could be used." : fmt::format("All {} photos could be used.", photos);
}

std::string glance_section(const NightReport& r) {
  std::string tiles, sum;
  for (const Outcome& o : outcomes(r)) {
    const std::string inner = fmt::format("<b>{}</b><span>{}</span><small>{}</small>", o.n, o.name, o.says);
    tiles += o.n > 0 ? fmt::format("<li class=\"{0}\"><a href=\"#{0}\">{1}</a></li>\n", o.id, inner)
                     : fmt::format("<li class=\"{} none\"><div>{}</div></li>\n", o.id, inner);
    sum += fmt::format("{}{} {}", sum.empty() ? "" : " + ", o.n, o.name);
  }
  std::string sentence =
      fmt::format("{} = {} on the sheet", sum,
                  count_of(static_cast<std::size_t>(r.captures_on_sheet), "capture", "captures"));
  if (!r.sheet.empty()) sentence += " " + escaped(r.sheet);
  if (r.rows.empty() && r.captures_on_sheet == 0) sentence = "Nothing was caught on this night";
  sentence += ". " + photos_used(static_cast<std::size_t>(r.photos_on_sheet), r.failed_photos.size());
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
      "Exact places of protected animals are not published. Pass on the public version of this report, which "
      "names none, and add none to it.",
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
  std::string sources;
  for (const char* source : kSources) sources += fmt::format("<li>{}</li>\n", source);
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
      "<h3>Sources of the methods</h3>\n<ul class=\"sources\">\n{}</ul>\n"
      "<table class=\"whole\"><caption>State of the catalogue</caption><thead><tr><th "
      "scope=\"col\">What</th><th "
      "scope=\"col\">Which</th></tr></thead><tbody>\n"
      "<tr><th scope=\"row\">Ledger head</th><td><code>{}</code></td></tr>\n<tr><th scope=\"row\">Ledger "
      "entries</th><td>{}</td></tr>\n<tr><th scope=\"row\">Program</th><td>{}</td></tr>\n<tr><th "
      "scope=\"row\">Made</th><td>{}</td></tr>\n{}</tbody></table>\n</section>\n",
      sources, escaped(r.ledger_head), r.ledger_entries, escaped(r.program), escaped(r.made_at), rows);
}

}  // namespace evet::report
