#include "matcher/catalogue/merge.h"

#include <ostream>

#include "matcher/base/printable.h"
#include "matcher/catalogue/calibration.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/progress.h"
#include "tools/verdicts/merge_title.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/names.h"
#include "tools/words/picture_questions.h"
#include "tools/words/text.h"

namespace evet {
namespace {

nlohmann::json json_of(const MergeReport& report, const Names& names, const Identities& who) {
  nlohmann::json json{{"entries", report.entries},
                      {"captures", report.captures},
                      {"verdicts", report.verdicts},
                      {"photos", report.photos},
                      {"twins", report.twins},
                      {"ledger_head", report.head},
                      {"photos_missing", nlohmann::json::array()},
                      {"set_aside", nlohmann::json::array()},
                      {"one_picture_two_sheets", nlohmann::json::array()},
                      {"new_keys", nlohmann::json::array()},
                      {"new_disputes", nlohmann::json::array()}};
  for (const KeyUse& use : report.new_keys)
    json["new_keys"].push_back({{"who", use.who},
                                {"key", use.key},
                                {"first", use.first_time},
                                {"another_than_before", report.known_signers.contains(use.who)}});
  for (const PhotoId& photo : report.photos_missing) json["photos_missing"].push_back(photo.value);
  for (const SetAside& one : report.set_aside)
    json["set_aside"].push_back({{"entry", one.entry.value}, {"why", one.why}});
  for (const CaptureId& id : report.questions)
    json["one_picture_two_sheets"].push_back(names.of(*who.capture(id)));
  for (const Dispute& dispute : report.disputes) {
    nlohmann::json contested = nlohmann::json::array(), against = nlohmann::json::array();
    for (const EntryId& id : dispute.contested) contested.push_back(id.value);
    for (const EntryId& id : dispute.against) against.push_back(id.value);
    json["new_disputes"].push_back(
        {{"captures", {names.of(*who.capture(dispute.a)), names.of(*who.capture(dispute.b))}},
         {"contested", contested},
         {"against", against}});
  }
  return json;
}

void tell(const MergeReport& report, const Names& names, const Identities& who, const std::string& folder,
          std::ostream& out) {
  if (report.entries == 0 && report.photos == 0) {
    out << in_words(messages::kNothingWasNew) << "\n";
  } else {
    out << in_words(messages::kCameIn, {{"captures", counted(report.captures, messages::kCaptures)},
                                        {"verdicts", counted(report.verdicts, messages::kVerdicts)},
                                        {"photos", counted(report.photos, messages::kPhotos)},
                                        {"entries", counted(report.entries, messages::kEntries)}})
        << "\n";
  }
  if (report.twins > 0) out << counted(report.twins, messages::kTakenInOnBothSides) << "\n";
  for (const KeyUse& use : report.new_keys)
    out << printable(in_words(
               report.known_signers.contains(use.who) ? messages::kNewKeyOfKnown : messages::kNewKey,
               {{"who", use.who}, {"key", key_words(use.key)}, {"date", use.first_time.substr(0, 10)}}))
        << "\n";
  for (const CaptureId& id : report.questions)
    for (const std::string& sentence : picture_questions(*who.capture(id), names))
      out << printable(sentence) << "\n";
  for (const SetAside& one : report.set_aside)
    out << printable(in_words(messages::kSetAsideUnreadable, {{"entry", one.entry.value}, {"why", one.why}}))
        << "\n";
  for (const Dispute& dispute : report.disputes)
    out << in_words(messages::kInDisputeAre,
                    {{"one", in_quotes(names.of(*who.capture(dispute.a)))},
                     {"other", in_quotes(names.of(*who.capture(dispute.b)))},
                     {"joined", counted(dispute.contested.size(), messages::kVerdicts)},
                     {"against", counted(dispute.against.size(), messages::kVerdicts)}})
        << "\n";
  if (!report.disputes.empty()) out << in_words(messages::kSettleInReview, {{"catalogue", folder}}) << "\n";
  for (const PhotoId& photo : report.photos_missing)
    out << in_words(messages::kPhotoIsWholeNowhere, {{"photo", photo.value}}) << "\n";
  out << in_words(messages::kLedgerHeadIs, {{"head", report.head}}) << "\n";
}

}  // namespace

int run_merge(const Args& args, Console& console) {
  CommandLine line("merge", messages::kMergeDoes, "evet merge alder-fen /media/stick/alder-fen --by KM");
  line.take_catalogue();
  line.take_actor();
  std::string other;
  MergeOptions options;
  line.app().add_option("OTHER", other, in_words(messages::kHelpMergeTheOther))->required();
  line.app().add_flag("--check-photos", options.check_photos, in_words(messages::kHelpMergeCheckPhotos));
  line.app()
      .add_option("--days-ahead", options.most_days_ahead, in_words(messages::kHelpMergeDaysAhead))
      ->type_name("N");
  std::string in_spite;
  line.app().add_option("--in-spite", in_spite, in_words(messages::kHelpMergeInSpite))->type_name("WORDS");
  if (const auto done = line.parse(args, console)) return *done;

  Catalogue into = open_catalogue(line.catalogue(), console, Access::write);
  Catalogue from = open_apart(other, console);
  options.in_spite_of =
      overrule(objections_to_merge(into, from), in_spite, nullptr, other, messages::kLookWhetherItIsTheOne);
  MergeReport report;
  const EntryId calibrated_by = calibration_in_force(into).calibration_by.entry,
                other_by = calibration_in_force(from).calibration_by.entry;
  {
    Progress progress(console, in_words(messages::kMergingPhotos));
    options.progress = [&](size_t done, size_t all) { progress.show(done, all); };
    report = merge(into, from, line.actor(), options);
  }
  const CalibrationInForce own = calibration_in_force(into);
  const bool met = !calibrated_by.empty() && !other_by.empty() && calibrated_by != other_by;
  const Identities& who = into.identities();
  const Names names(who);
  if (line.json()) {
    nlohmann::json document = json_of(report, names, who);
    document["two_calibrations_met"] = met;
    print(console, document);
    return kDone;
  }
  tell(report, names, who, line.catalogue(), console.out);
  if (met)
    console.out << in_words(messages::kTwoCalibrationsMet, {{"date", own.calibration_by.time.substr(0, 10)},
                                                            {"who", own.calibration_by.actor.name},
                                                            {"catalogue", line.catalogue()}})
                << "\n";
  return kDone;
}

}  // namespace evet
