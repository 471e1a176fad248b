#include <ostream>
#include <span>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/growth.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/wrong_usage.h"
#include "tools/report/fill_report.h"
#include "tools/report/for_public.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// For the report's last part, below today's tree root.
std::pair<std::string, std::string> grown_since(const std::string& text, const Catalogue& catalogue) {
  const TreeHead earlier = tree_head_of(text, "--grown-from");
  std::vector<Digest> leaves;
  for (const ListedEntry& listed : catalogue.ledger()) leaves.push_back(leaf_hash(listed.entry.hash));
  const auto proof = proof_of_growth(earlier, leaves);
  if (!proof)
    throw Error(ErrorKind::conflict, "--grown-from",
                Message(messages::kLedgerBeginsOtherwise, {{"entries", std::to_string(earlier.entries)}}),
                messages::kLookWhoseReport);
  std::string hashes;
  for (const Digest& step : *proof) hashes += (hashes.empty() ? "" : " ") + hex(step);
  return {in_words(messages::kGrownFromTreeRoot, {{"root", text_of(earlier)}}),
          hashes.empty() ? in_words(messages::kRootIsTodays) : hashes};
}

// `site` and `pond` as the catalogue has them, whoever the report is for.
struct Written {
  std::string out, audience, site, pond;
};

void tell_written(const NightReport& report, const Written& written, const CommandLine& line,
                  Console& console) {
  if (line.json())
    print(console, {{"report", written.out},
                    {"night", report.night},
                    {"for", written.audience},
                    {"site", written.site},
                    {"pond", written.pond},
                    {"captures", report.captures_on_sheet},
                    {"recaptures", report.recaptures.size()},
                    {"new", report.newcomers.size()},
                    {"to_look_at", report.looks.size()},
                    {"unusable", report.unusable.size()},
                    {"ledger_head", report.ledger_head}});
  else
    console.out << in_words(messages::kReportWritten,
                            {{"night", report.night},
                             {"captures", counted(report.captures_on_sheet, messages::kCaptures)},
                             {"again", report.recaptures.size()},
                             {"fresh", report.newcomers.size()},
                             {"look", report.looks.size()},
                             {"unusable", report.unusable.size()},
                             {"file", written.out}})
                << "\n";
}

}  // namespace

int run_report(const Args& args, Console& console) {
  CommandLine line("report", messages::kReportDoes,
                   "evet report alder-fen --night 2024-05-14 --out 2024-05-14.html\n"
                   "  evet report alder-fen --night 2024-05-14 --for everybody --out public.html");
  line.take_catalogue();
  line.take_threads();
  ReportRequest request;
  std::string out, audience = "authority";
  line.app().add_option("--night", request.night, in_words(messages::kHelpNightNight))->type_name("DATE");
  line.app().add_option("--site", request.site, in_words(messages::kHelpNightSite))->type_name("SITE");
  line.app().add_option("--pond", request.pond, in_words(messages::kHelpNightPond))->type_name("POND");
  one_of(line.app().add_option("--for", audience, in_words(messages::kHelpReportFor)),
         {"authority", "everybody"})
      ->capture_default_str();
  line.app().add_option("--out", out, in_words(messages::kHelpReportOut))->type_name("FILE");
  std::string grown_from;
  line.app()
      .add_option("--grown-from", grown_from, in_words(messages::kHelpReportGrownFrom))
      ->type_name("N:ROOT");
  if (const auto done = line.parse(args, console)) return *done;
  if (!request.night.empty() && !is_date(request.night))
    throw Error(ErrorKind::usage, "--night",
                Message(messages::kIsNoDate, {{"text", in_quotes(request.night)}}), messages::kWriteIsoDate);

  check_can_write_file(console.env, out.empty() ? "report.html" : out);
  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::read);
  request.threads = line.threads();
  NightReport report = fill_report(catalogue, request, console.env);
  if (!grown_from.empty()) report.how.insert(report.how.begin() + 1, grown_since(grown_from, catalogue));
  const std::string site = report.site, pond = report.pond;
  if (audience == "everybody") report = for_everybody(std::move(report));
  if (out.empty()) out = "report-" + report.night + ".html";
  const std::string page = night_report_html(report);
  write_file_durably(console.env, out, std::as_bytes(std::span(page)));
  tell_written(report, {out, audience, site, pond}, line, console);
  return kDone;
}

}  // namespace evet
