// The sections round the captures: head, the night at a glance, cautions, how the figures were made.
#include <array>
#include <iterator>

#include "fmt/format.h"
#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/report/sections.h"
#include "tools/words/in_words.h"
#include "tools/words/markup.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet::report {
namespace {

std::string night_fact(const MessageText& what, const std::string& value) {
  return value.empty() ? "" : fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", html(what), value);
}

struct Outcome {
  const char* id;
  MessageText name, says;
  std::size_t n;
};

std::array<Outcome, 4> outcomes(const NightReport& r) {
  return {{{"again", messages::kTileAgain, messages::kTileAgainSays, r.recaptures.size()},
           {"new", messages::kTileNew, messages::kTileNewSays, r.newcomers.size()},
           {"look", messages::kTileLook, messages::kTileLookSays, r.looks.size()},
           {"unusable", messages::kTileUnusable, messages::kTileUnusableSays, r.unusable.size()}}};
}

// What is ours, the comparison of patterns, is described with its measurements in the program's own documents.
constexpr std::array kSources = {messages::kSourceOfCalibration, messages::kSourceOfWords,
                                 messages::kSourceOfSets,        messages::kSourceOfCoarsePlaces,
                                 messages::kSourceOfHashes,      messages::kSourcesOfNumbers};

}  // namespace

std::string head_section(const NightReport& r) {
  const bool exact = r.audience == Audience::authority;
  const std::string name = r.pond.empty() ? r.site : r.pond;
  const std::string published = r.place.empty() ? in_words(messages::kNotPublished) : r.place;
  std::string facts;
  if (exact) {
    facts += night_fact(messages::kHeadSite, escaped(r.site));
    if (!r.pond.empty()) facts += night_fact(messages::kHeadPond, escaped(r.pond));
    facts += night_fact(messages::kHeadCatalogue, escaped(r.catalogue));
    if (!r.place.empty()) facts += night_fact(messages::kHeadPublishedPlace, escaped(r.place));
  } else {
    facts += night_fact(messages::kHeadPlace, escaped(published));
  }
  if (!r.observers.empty())
    facts += night_fact(r.observers.size() == 1 ? messages::kOneObserver : messages::kSeveralObservers,
                        escaped(joined(r.observers, ", ")));
  if (!r.ledger_head.empty())
    facts += fmt::format("<div class=\"long\"><dt>{}</dt><dd><code>{}</code></dd></div>\n",
                         html(messages::kLedgerHead), escaped(r.ledger_head));
  const std::string night =
      fmt::format("<time datetime=\"{}\">{}</time>", escaped(r.night), escaped(long_date(r.night)));
  const MessageText& version = exact ? messages::kForTheAuthority : messages::kPublicVersion;
  const MessageText& what_it_names = exact ? messages::kNamesTheExactPlace : messages::kPlaceIsToldCoarsely;
  return fmt::format(
      "<header>\n<p class=\"over\">{}</p>\n<h1>{}</h1>\n<p class=\"when\">{}</p>\n<p "
      "class=\"version\"><b>{}</b> {}</p>\n<dl class=\"facts\">\n{}</dl>\n</header>\n",
      html(messages::kNightReport), exact ? escaped(name) : html(messages::kAPondWithProtectedNewts),
      html(messages::kNightOf, {{"night", night}}), html(version), html(what_it_names), facts);
}

std::string photos_used(std::size_t photos, std::size_t failed) {
  if (photos == 0) return html(messages::kThereAreNoPhotos);
  if (failed > 0)
    return html(messages::kOfPhotosNotUsed,
                {{"photos", counted(photos, messages::kPhotos)}, {"failed", failed}});
  return html(messages::kAllPhotosUsed, {{"n", photos}});
}

std::string glance_section(const NightReport& r) {
  std::string tiles, sum;
  for (const Outcome& o : outcomes(r)) {
    const std::string inner =
        fmt::format("<b>{}</b><span>{}</span><small>{}</small>", o.n, html(o.name), html(o.says));
    tiles += o.n > 0 ? fmt::format("<li class=\"{0}\"><a href=\"#{0}\">{1}</a></li>\n", o.id, inner)
                     : fmt::format("<li class=\"{} none\"><div>{}</div></li>\n", o.id, inner);
    sum += fmt::format("{}{} {}", sum.empty() ? "" : " + ", o.n, html(o.name));
  }
  std::string sentence = html(messages::kSumIsCapturesOnSheet,
                              {{"sum", sum},
                               {"captures", escaped(counted(r.captures_on_sheet, messages::kCaptures))},
                               {"sheet", r.sheet.empty() ? "" : " " + escaped(r.sheet)}});
  if (r.rows.empty() && r.captures_on_sheet == 0) sentence = html(messages::kNothingCaughtThisNight);
  sentence += " " + photos_used(static_cast<std::size_t>(r.photos_on_sheet), r.failed_photos.size());
  if (!r.refused_rows.empty()) sentence += " " + html(messages::kRowsRefused, {{"n", r.refused_rows.size()}});
  std::string questions;
  for (const std::string& question : r.picture_questions)
    questions += "<p class=\"sum\">" + escaped(question) + "</p>\n";
  return fmt::format(
      "<section class=\"glance\" aria-labelledby=\"glance-title\">\n<h2 id=\"glance-title\">{}</h2>\n<ul "
      "class=\"tiles\">\n{}</ul>\n<p class=\"sum\">{}</p>\n{}</section>\n",
      html(messages::kNightAtAGlance), tiles, sentence, questions);
}

std::string cautions_section() {
  static constexpr std::array cautions = {messages::kCautionLicence,   messages::kCautionTimeInHand,
                                          messages::kCautionDisinfect, messages::kCautionNotAlone,
                                          messages::kCautionPlaces,    messages::kCautionWhoDecides};
  std::string items;
  for (const MessageText& c : cautions) items += fmt::format("<li>{}</li>\n", html(c));
  return fmt::format(
      "<section class=\"cautions\" aria-labelledby=\"cautions-title\">\n<h2 "
      "id=\"cautions-title\">{}</h2>\n<ul>\n{}</ul>\n</section>\n",
      html(messages::kCautions), items);
}

std::string how_section(const NightReport& r) {
  std::string rows;
  for (const auto& [what, which] : r.how)
    rows += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(what), escaped(which));
  std::string sources;
  for (const MessageText& source : kSources) sources += fmt::format("<li>{}</li>\n", html(source));
  const auto line = [](const MessageText& what, const std::string& which) {
    return fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", html(what), which);
  };
  return fmt::format(
      "<section class=\"how\" aria-labelledby=\"how-title\">\n<h2 id=\"how-title\">{}</h2>\n"
      "<p>{}</p>\n<p>{}</p>\n<h3>{}</h3>\n<ul class=\"sources\">\n{}</ul>\n"
      "<table class=\"whole\"><caption>{}</caption><thead><tr><th scope=\"col\">{}</th><th "
      "scope=\"col\">{}</th></tr></thead><tbody>\n{}{}{}{}{}</tbody></table>\n</section>\n",
      html(messages::kHowFiguresWereMade), html(messages::kHowIdentitiesFollow),
      html(messages::kWordsForProbabilities), html(messages::kSourcesOfTheMethods), sources,
      html(messages::kStateOfTheCatalogue), html(messages::kStateWhat), html(messages::kStateWhich),
      line(messages::kLedgerHead, "<code>" + escaped(r.ledger_head) + "</code>"),
      line(messages::kLedgerEntries, std::to_string(r.ledger_entries)),
      line(messages::kStateProgram, escaped(r.program)), line(messages::kStateMade, escaped(r.made_at)),
      rows);
}

}  // namespace evet::report
