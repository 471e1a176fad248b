#include "tools/report/strip_catalogue.h"

#include "fmt/format.h"
#include "matcher/base/moment.h"
#include "matcher/base/version.h"
#include "matcher/catalogue/photo_work.h"
#include "tools/report/by_likeness.h"
#include "tools/report/fill_strips.h"
#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/report/page_head.h"
#include "tools/report/picture.h"
#include "tools/words/animal_words.h"
#include "tools/words/in_words.h"
#include "tools/words/markup.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

constexpr const char* kStyle = R"css(
.sheet { display: grid; grid-template-columns: repeat(auto-fill, minmax(8.4rem, 1fr)); gap: 1rem 0.8rem; list-style: none; padding: 0; }
.sheet li { --strip: 100%; break-inside: avoid; }
.sheet .single { width: 100%; max-width: 9.5rem; }
.sheet b { overflow-wrap: anywhere; }
@media print {
  .sheet { display: block; orphans: 1; widows: 1; }
  .sheet li { display: inline-block; vertical-align: top; width: 30.5mm; margin: 0 5mm 5mm 0; }
  .sheet .single { width: 30.5mm; max-width: none; }
  .sheet small { font-size: 6.5pt; }
}
)css";

std::string item(const CatalogueStrip& one, const ReportStrip& strip) {
  using namespace report;
  std::string nights = one.first_night;
  if (one.first_night != one.last_night)
    nights = in_words(messages::kNightToNight, {{"first", one.first_night}, {"last", one.last_night}});
  const std::string sex = animal_in_words(one.sex, {});
  std::string caption = fmt::format("<b>{}</b><br>", escaped(one.name));
  if (!one.aliases.empty())
    caption += fmt::format("<small>{}</small><br>",
                           html(messages::kAlsoNamed, {{"names", escaped(joined(one.aliases, ", "))}}));
  caption += fmt::format("<small>{}{}, {}</small>", sex.empty() ? "" : escaped(sex) + ", ",
                         escaped(counted(one.captures, messages::kCaptures)), escaped(nights));
  return "<li>" + strip_figure({strip, in_words(messages::kAltOfStripOf, {{"whose", one.name}}), caption}) +
         "</li>\n";
}

}  // namespace

std::vector<CatalogueStrip> strips_by_likeness(Catalogue& catalogue, int threads) {
  const Identities who = catalogue.identities();
  std::vector<CatalogueStrip> all;
  std::vector<PhotoRef> photos;
  std::vector<std::size_t> of_photo;
  for (const Individual& individual : who.individuals) {
    CatalogueStrip one;
    one.id = individual.id, one.name = individual.name, one.aliases = individual.aliases;
    one.sex = name(individual.sex), one.captures = individual.captures.size();
    one.first_night = who.capture(individual.captures.front())->facts.night;
    one.last_night = who.capture(individual.captures.back())->facts.night;
    for (auto at = individual.captures.rbegin(); at != individual.captures.rend() && one.photo.empty(); ++at)
      for (const PhotoState& photo : who.capture(*at)->photos)
        if (photo.usable && one.photo.empty()) one.photo = photo.photo, one.capture = *at;
    if (!one.photo.empty()) photos.push_back({one.photo, one.capture}), of_photo.push_back(all.size());
    all.push_back(std::move(one));
  }
  const std::vector<std::optional<Pattern>> patterns = patterns_of(catalogue, photos, threads);
  std::vector<std::vector<float>> descriptors(all.size());
  for (std::size_t i = 0; i < patterns.size(); ++i)
    if (patterns[i]) descriptors[of_photo[i]] = patterns[i]->descriptor;
  std::vector<CatalogueStrip> ordered;
  for (const std::size_t i : order_by_likeness(descriptors)) ordered.push_back(std::move(all[i]));
  return ordered;
}

std::string strip_catalogue_html(Catalogue& catalogue, const std::vector<CatalogueStrip>& strips, Env& env) {
  using namespace report;
  const Identities who = catalogue.identities();
  ReportStrips pictures(catalogue);
  const std::string heading =
      in_words(messages::kCatalogueOfStrips);  // the catalogue's title is often the name of the site
  std::string page = page_head(kProgram, heading, kStyle + page_numbers(heading));
  page += fmt::format(
      "<header><p class=\"over\">{}</p><h1>{}</h1><p class=\"when\">{}</p></header>\n<main>\n"
      "<p class=\"lead\">{}</p>\n<ul class=\"sheet\">\n",
      html(messages::kIndividualsOver), escaped(heading),
      escaped(counted(strips.size(), messages::kIndividuals)), html(messages::kCatalogueOfStripsLead));
  for (const CatalogueStrip& one : strips) {
    const CaptureState* capture = one.photo.empty() ? nullptr : who.capture(one.capture);
    page += item(one, capture == nullptr ? ReportStrip{} : pictures.strip(*capture, one.photo));
  }
  page += fmt::format(
      "</ul>\n</main>\n<footer><p>{}</p></footer>\n</body>\n</html>\n",
      html(messages::kStripsMade, {{"when", escaped(to_text(env.now()))},
                                   {"program", escaped(kProgram)},
                                   {"head", "<code>" + escaped(catalogue.head_hash()) + "</code>"}}));
  return page;
}

}  // namespace evet
