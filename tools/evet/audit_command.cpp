#include "matcher/catalogue/audit.h"

#include <fmt/format.h>

#include <ostream>

#include "matcher/base/error.h"
#include "matcher/base/printable.h"
#include "matcher/catalogue/agreement.h"
#include "matcher/catalogue/altered.h"
#include "matcher/catalogue/objection.h"
#include "matcher/catalogue/repair.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/progress.h"
#include "tools/evet/witness_file.h"
#include "tools/verdicts/labels.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/picture_questions.h"
#include "tools/words/text.h"

namespace evet {
namespace {

nlohmann::json json_of(const ErrorRate& rate) {
  return {{"errors", rate.errors},
          {"trials", rate.trials},
          {"rate", rate.rate ? nlohmann::json(*rate.rate) : nullptr},
          {"interval", {rate.interval.low, rate.interval.high}}};
}
nlohmann::json json_of(const std::optional<Kappa>& kappa) {
  if (!kappa) return nullptr;
  return {{"observed", kappa->observed},
          {"chance", kappa->chance},
          {"kappa", kappa->kappa},
          {"interval", {kappa->interval.low, kappa->interval.high}}};
}

nlohmann::json json_of(const Agreement& readers) {
  nlohmann::json json{{"cases", readers.cases.size()},
                      {"all", json_of(readers.all ? std::optional<Kappa>(*readers.all) : std::nullopt)},
                      {"not_independent", readers.not_independent},
                      {"pairs", nlohmann::json::array()},
                      {"planted", nlohmann::json::array()}};
  for (const ReaderPair& pair : readers.pairs)
    json["pairs"].push_back({{"readers", {pair.first, pair.second}},
                             {"cases", pair.cases},
                             {"table", pair.table},
                             {"agreement", json_of(pair.kappa)}});
  for (const ReaderErrors& one : readers.errors)
    json["planted"].push_back({{"reader", one.reader},
                               {"false_match", json_of(one.false_match)},
                               {"false_non_match", json_of(one.false_non_match)},
                               {"cannot_tell", one.cannot_tell},
                               {"unknown_truth", one.unknown_truth}});
  return json;
}

// What people were told and recorded all the same.
nlohmann::json json_of(const std::vector<Overruled>& overruled) {
  nlohmann::json list = nlohmann::json::array();
  for (const Overruled& one : overruled)
    list.push_back({{"entry", one.entry.value},
                    {"kind", one.kind},
                    {"by", one.by},
                    {"on", one.on},
                    {"code", one.code},
                    {"sentence", one.sentence},
                    {"reason", one.reason},
                    {"stands", one.stands}});
  return list;
}
void tell(const std::vector<Overruled>& overruled, std::ostream& out) {
  if (overruled.empty()) return;
  out << counted(overruled.size(), messages::kRecordedInSpite) << "\n";
  for (const Overruled& one : overruled)
    out << "  "
        << printable(in_words(
               one.stands ? messages::kOverruledLine : messages::kOverruledLineNoLonger,
               {{"date", one.on}, {"who", one.by}, {"sentence", one.sentence}, {"reason", one.reason}}))
        << "\n";
}

// What is asked of people and found beside the audit itself.
struct Beside {
  Agreement readers;
  std::vector<std::string> questions, shared_labels;
  std::vector<Overruled> overruled;
};

nlohmann::json json_of(const AuditReport& report, const Beside& beside,
                       const std::optional<RepairReport>& repaired) {
  nlohmann::json json{{"holds", report.holds()},
                      {"entries", report.entries},
                      {"devices", report.devices},
                      {"photos", report.photos},
                      {"stray_files", report.stray_files},
                      {"photos_never_here", nlohmann::json::array()},
                      {"set_aside", nlohmann::json::array()},
                      {"ledger_head", report.head},
                      {"findings", nlohmann::json::array()},
                      {"one_picture_two_sheets", beside.questions},
                      {"one_label_two_individuals", beside.shared_labels},
                      {"in_spite_of", json_of(beside.overruled)},
                      {"readers", json_of(beside.readers)}};
  for (const Finding& finding : report.findings)
    json["findings"].push_back({{"item", finding.item}, {"wrong", finding.wrong()}});
  for (const SetAside& one : report.set_aside)
    json["set_aside"].push_back({{"entry", one.entry.value}, {"why", one.why}});
  for (const PhotoId& photo : report.never_here) json["photos_never_here"].push_back(photo.value);
  for (const AuditAgainst& seen : report.witnessed)
    json["witnessed"].push_back(
        {{"hash", seen.hash}, {"holds", seen.entry.has_value()}, {"covered", seen.covered}});
  if (repaired)
    json["repaired"] = {{"entries", repaired->entries},
                        {"unread", repaired->unread},
                        {"left_out", repaired->left_out},
                        {"parts", repaired->parts},
                        {"old_database", repaired->old_database.string()}};
  json["tree"] = {{"entries", report.entries}, {"root", report.root}, {"proof", report.proof}};
  if (!report.proof_from.empty()) json["tree"]["proof_from"] = report.proof_from;
  json["unsigned"] = report.unsigned_entries;
  json["unsigned_since"] = report.unsigned_since;
  json["keys"] = nlohmann::json::array();
  for (const KeyUse& use : report.keys)
    json["keys"].push_back(
        {{"who", use.who}, {"key", use.key}, {"first", use.first_time}, {"entries", use.entries}});
  for (const Finding& fork : report.forks)
    json["forks"].push_back({{"item", fork.item}, {"what", fork.wrong()}});
  if (report.against)
    json["against"] = {{"hash", report.against->hash},
                       {"holds", report.against->entry.has_value() && report.holds()},
                       {"covered", report.against->covered},
                       {"added_since", report.against->added_since}};
  return json;
}

std::string rate_text(const ErrorRate& rate) {
  if (!rate.rate) return in_words(messages::kNoTrial);
  return in_words(messages::kRateWithInterval, {{"errors", fmt::format("{}", rate.errors)},
                                                {"trials", fmt::format("{}", rate.trials)},
                                                {"low", fmt::format("{:.3f}", rate.interval.low)},
                                                {"high", fmt::format("{:.3f}", rate.interval.high)}});
}

void tell_readers(const Agreement& readers, std::ostream& out) {
  for (const ReaderPair& pair : readers.pairs) {
    int agreed = 0;
    for (size_t i = 0; i < pair.table.size(); ++i) agreed += pair.table[i][i];
    const std::string agreement =
        in_words(messages::kReadersAgreed, {{"first", in_quotes(pair.first)},
                                            {"second", in_quotes(pair.second)},
                                            {"agreed", static_cast<size_t>(agreed)},
                                            {"n", static_cast<size_t>(pair.cases)}});
    if (pair.kappa)
      out << in_words(messages::kReadersKappa, {{"agreement", agreement},
                                                {"kappa", fmt::format("{:.2f}", pair.kappa->kappa)},
                                                {"low", fmt::format("{:.2f}", pair.kappa->interval.low)},
                                                {"high", fmt::format("{:.2f}", pair.kappa->interval.high)}});
    else
      out << agreement << ".";
    out << "\n";
  }
  for (const ReaderErrors& one : readers.errors)
    out << in_words(messages::kPlantedCases, {{"reader", in_quotes(one.reader)},
                                              {"false_match", rate_text(one.false_match)},
                                              {"false_non_match", rate_text(one.false_non_match)}})
        << "\n";
}

void tell(const RepairReport& repaired, std::ostream& out) {
  out << in_words(messages::kRepaired, {{"entries", counted(repaired.entries, messages::kEntries)},
                                        {"database", printable(repaired.old_database.string())}})
      << "\n";
  for (const std::string& left_out : repaired.left_out)
    out << in_words(messages::kLeftOutOfIt, {{"what", printable(left_out)}}) << "\n";
  if (repaired.unread > 0) out << counted(repaired.unread, messages::kPlacesUnread) << "\n";
}

// Who signs with what. A ledger without a signature, as older programs wrote them, needs no word.
void tell_keys(const AuditReport& report, std::ostream& out) {
  for (const KeyUse& use : report.keys)
    out << printable(in_words(messages::kSignedBy, {{"who", use.who},
                                                    {"key", key_words(use.key)},
                                                    {"entries", counted(use.entries, messages::kEntries)},
                                                    {"date", use.first_time.substr(0, 10)}}))
        << "\n";
  for (const auto& [who, count] : report.unsigned_since)
    out << printable(in_words(messages::kNotSignedSince, {{"n", static_cast<size_t>(count)}, {"who", who}}))
        << "\n";
  if (!report.keys.empty() && report.unsigned_entries > 0)
    out << in_words(messages::kNotSignedInAll,
                    {{"entries", counted(report.unsigned_entries, messages::kEntries)}})
        << "\n";
}

void tell(const AuditReport& report, const Beside& beside, const std::optional<RepairReport>& repaired,
          std::ostream& out) {
  if (repaired) tell(*repaired, out);
  for (const Finding& finding : report.findings)
    out << printable(finding.item + ": " + finding.wrong()) << "\n";
  out << in_words(messages::kAuditRead, {{"entries", counted(report.entries, messages::kEntries)},
                                         {"devices", counted(report.devices, messages::kDevices)},
                                         {"photos", counted(report.photos, messages::kPhotos)}})
      << "\n";
  if (!report.never_here.empty())
    out << in_words(messages::kPhotosNeverHere,
                    {{"n", report.never_here.size()}, {"first", printable(report.never_here.front().value)}})
        << "\n";
  for (const Finding& fork : report.forks)
    out << printable(in_words(messages::kForkIsKept, {{"item", fork.item}, {"what", fork.wrong()}})) << "\n";
  for (const SetAside& one : report.set_aside)
    out << printable(in_words(messages::kEntrySaysNothing, {{"entry", one.entry.value}, {"why", one.why}}))
        << "\n";
  for (const auto* list : {&beside.questions, &beside.shared_labels})
    for (const std::string& question : *list) out << printable(question) << "\n";
  tell(beside.overruled, out);
  if (report.stray_files > 0) out << counted(report.stray_files, messages::kStrayFiles) << "\n";
  if (!report.witnessed.empty() && report.holds())
    out << counted(report.witnessed.size(), messages::kHeadsWitnessed) << "\n";
  if (report.against && report.against->entry)
    out << in_words(messages::kOldHeadIsPart,
                    {{"entries", counted(report.against->covered, messages::kEntries)},
                     {"added", static_cast<size_t>(report.against->added_since)}})
        << "\n";
  tell_keys(report, out);
  tell_readers(beside.readers, out);
  if (!report.proof.empty()) {
    out << in_words(messages::kLedgerBeginsWith, {{"root", report.proof_from}}) << "\n";
    for (const std::string& step : report.proof) out << "  " << step << "\n";
  }
  out << (report.holds() ? in_words(messages::kAllHolds)
                         : counted(report.findings.size(), messages::kDoesNotHold))
      << "\n";
  if (report.entries > 0)
    out << in_words(messages::kLedgerHeadIs, {{"head", report.head}}) << "\n"
        << in_words(messages::kTreeRootIs, {{"root", std::to_string(report.entries) + ":" + report.root}})
        << "\n";
}

int answer(const AuditReport& report, const Beside& beside, const std::optional<RepairReport>& repaired,
           bool as_json, Console& console) {
  if (as_json)
    print(console, json_of(report, beside, repaired));
  else
    tell(report, beside, repaired, console.out);
  return report.holds() ? kDone : kDoesNotHold;
}

struct Asked {
  AuditOptions options;
  std::string witness;
  bool no_photos = false, mend = false;
};

void take_options(CommandLine& line, Asked& asked) {
  line.app()
      .add_option("--against", asked.options.against, in_words(messages::kHelpAuditAgainst))
      ->type_name("HASH");
  line.app()
      .add_option("--grown-from", asked.options.grown_from, in_words(messages::kHelpAuditGrownFrom))
      ->type_name("N:ROOT");
  line.app().add_flag("--no-photos", asked.no_photos, in_words(messages::kHelpAuditNoPhotos));
  line.app().add_option("--witness", asked.witness, in_words(messages::kHelpAuditWitness))->type_name("FILE");
  line.app().add_flag("--repair", asked.mend, in_words(messages::kHelpAuditRepair));
}

// Agreement is worked out from a ledger that can be read; where it cannot, the findings say so.
Beside beside_of(Catalogue& catalogue, const AuditReport& report) {
  Beside beside;
  try {
    const Identities who = catalogue.identities();
    beside.questions = picture_questions(who, Names(who));
    beside.shared_labels = shared_labels(who);
    beside.readers = agreement(catalogue.statements(), who);
    beside.overruled = overruled(catalogue);
  } catch (const Error& error) {
    if (report.holds()) throw;
  }
  return beside;
}

}  // namespace

int run_audit(const Args& args, Console& console) {
  CommandLine line(
      "audit", messages::kAuditDoes,
      "evet audit alder-fen --against 9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08");
  line.take_catalogue();
  Asked asked;
  take_options(line, asked);
  if (const auto done = line.parse(args, console)) return *done;
  AuditOptions& options = asked.options;
  options.photos = !asked.no_photos;
  if (!asked.witness.empty()) options.witnessed = read_witnessed(asked.witness, console.env);
  options.check();
  std::optional<RepairReport> repaired;
  if (asked.mend) repaired = repair(line.catalogue(), console.env);

  AuditReport report;
  std::optional<Catalogue> opened;
  try {
    opened = open_apart(line.catalogue(), console, true);
  } catch (const AlteredCatalogue& error) {  // it was checked, and does not hold
    report.findings.push_back(finding_of(error));
    return answer(report, {}, repaired, line.json(), console);
  }
  Catalogue& catalogue = *opened;
  {
    Progress progress(console, in_words(messages::kReadingPhotos));
    options.progress = [&](size_t done, size_t all) { progress.show(done, all); };
    report = audit(catalogue, options);
  }
  if (!asked.witness.empty() && report.holds())
    add_witnessed(asked.witness, report.head, report.entries, report.root, console.env);
  return answer(report, beside_of(catalogue, report), repaired, line.json(), console);
}

}  // namespace evet
