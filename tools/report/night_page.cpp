#include <cmath>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/base/place.h"
#include "tools/report/html.h"
#include "tools/report/messages.h"
#include "tools/report/night_report.h"
#include "tools/report/page_head.h"
#include "tools/report/sections.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/markup.h"

namespace evet {
namespace {

void check_probability(double p, const ReportCapture& capture) {
  if (!(p >= 0 && p <= 1))
    throw Error(ErrorKind::conflict, capture_item(capture.name),
                Message(messages::kIsNotProbability, {{"p", fmt::format("{}", p)}}),
                messages::kRankNightAgain);
}

}  // namespace

void NightReport::check() const {
  const std::size_t in_sections = recaptures.size() + newcomers.size() + looks.size() + unusable.size();
  if (captures_on_sheet < 0 || in_sections != static_cast<std::size_t>(captures_on_sheet))
    throw Error(ErrorKind::conflict, in_words(messages::kReportOf, {{"night", night}}),
                Message(messages::kCapturesAreToldOfBut,
                        {{"told", fmt::format("{}", in_sections)},
                         {"captures_on_sheet", fmt::format("{}", captures_on_sheet)}}),
                messages::kEachCaptureOfSheetBelongs);
  for (const ReportRecapture& r : recaptures) check_probability(r.match.probability, r.capture);
  for (const ReportNew& n : newcomers) check_probability(n.probability, n.capture);
  for (const ReportLook& l : looks) {
    check_probability(l.new_probability, l.capture);
    for (const ReportCandidate& c : l.candidates) check_probability(c.probability, l.capture);
  }
}

std::string night_report_html(const NightReport& r) {
  r.check();
  using namespace report;
  std::string title = in_words(messages::kTitleForPublic, {{"night", long_date(r.night)}});
  if (r.audience == Audience::authority)
    title = in_words(messages::kTitleForAuthority,
                     {{"place", place_of(r.site, r.pond)}, {"night", long_date(r.night)}});
  std::string page = page_head(r.program, title, page_numbers(title));
  page += head_section(r);
  page += "<main>\n";
  for (const std::string& section :
       {glance_section(r), conditions_section(r), captures_section(r), recaptures_section(r),
        newcomers_section(r), looks_section(r), unusable_section(r), overrides_section(r),
        estimate_section(r), cautions_section(), how_section(r), signature_section(r)})
    page += section;
  page += fmt::format(
      "</main>\n<footer><p>{}</p></footer>\n</body>\n</html>\n",
      html(messages::kReportMade, {{"when", escaped(r.made_at)},
                                   {"program", escaped(r.program)},
                                   {"entries", static_cast<std::size_t>(r.ledger_entries)},
                                   {"head", "<code>" + escaped(r.ledger_head.substr(0, 16)) + "</code>"}}));
  return page;
}

}  // namespace evet
