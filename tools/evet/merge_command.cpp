#include "matcher/catalogue/merge.h"

#include <ostream>

#include "matcher/base/printable.h"
#include "matcher/catalogue/calibration.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/progress.h"
#include "tools/verdicts/merge_title.h"
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
    out << "Nothing was new: the catalogue has it all already.\n";
  } else {
    out << "Came in: " << counted(report.captures, "capture") << ", " << counted(report.verdicts, "verdict")
        << ", " << counted(report.photos, "photo") << "; " << counted(report.entries, "entry", "entries")
        << " of the ledger in all.\n";
  }
  if (report.twins > 0)
    out << counted(report.twins, "capture")
        << " had been taken in on both sides and count once from now on.\n";
  for (const KeyUse& use : report.new_keys)
    out << printable("New here: what " + use.who + " signed with the key " + key_words(use.key) +
                     ", first on " + use.first_time.substr(0, 10) +
                     (report.known_signers.contains(use.who)
                          ? "; another key than before, so ask whether it is theirs."
                          : "."))
        << "\n";
  for (const CaptureId& id : report.questions)
    for (const std::string& sentence : picture_questions(*who.capture(id), names))
      out << printable(sentence) << "\n";
  for (const SetAside& one : report.set_aside)
    out << printable("Set aside, since it cannot be read: entry " + one.entry.value + ": " + one.why + ".")
        << "\n";
  for (const Dispute& dispute : report.disputes)
    out << "In dispute: are " << evet::quoted(names.of(*who.capture(dispute.a))) << " and "
        << evet::quoted(names.of(*who.capture(dispute.b))) << " one animal? "
        << counted(dispute.contested.size(), "verdict") << " joined them, "
        << counted(dispute.against.size(), "verdict") << " stood against it.\n";
  if (!report.disputes.empty()) out << "Settle it in the review page: evet review " << folder << "\n";
  for (const PhotoId& photo : report.photos_missing)
    out << "Photo " << photo.value << " is whole in neither catalogue; put it back from a backup.\n";
  out << "Ledger head: " << report.head << "\n";
}

}  // namespace

int run_merge(const Args& args, Console& console) {
  CommandLine line(
      "merge",
      "Takes everything into CATALOGUE that OTHER has and it lacks: entries and photos. OTHER stays as\n"
      "it is. The outcome does not depend on who merges whom; doing it again changes nothing; verdicts\n"
      "that contradict each other become disputes.",
      "evet merge alder-fen /media/stick/alder-fen --by KM");
  line.take_catalogue();
  line.take_actor();
  std::string other;
  MergeOptions options;
  line.app().add_option("OTHER", other, "Folder of the catalogue to take from")->required();
  line.app().add_flag("--check-photos", options.check_photos,
                      "Read every photo there is already, and put damaged ones back from OTHER");
  line.app()
      .add_option("--days-ahead", options.most_days_ahead,
                  "Take entries of a clock that ran this many days ahead (else 2)")
      ->type_name("N");
  std::string in_spite;
  line.app()
      .add_option("--in-spite", in_spite,
                  "Why, where the other bears another title and is no copy of this one")
      ->type_name("WORDS");
  if (const auto done = line.parse(args, console)) return *done;

  Catalogue into = open_catalogue(line.catalogue(), console, Access::write);
  Catalogue from = open_apart(other, console);
  options.in_spite_of =
      overrule(objections_to_merge(into, from), in_spite, nullptr, other, messages::kLookWhetherItIsTheOne);
  MergeReport report;
  const EntryId calibrated_by = calibration_in_force(into).calibration_by.entry,
                other_by = calibration_in_force(from).calibration_by.entry;
  {
    Progress progress(console, "merging photos");
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
    console.out << "Each had a calibration of its own. The later counts, of "
                << own.calibration_by.time.substr(0, 10) << " by " << own.calibration_by.actor.name
                << "; neither knew the other's animals: see whether 'evet trial " << line.catalogue()
                << " --refit' does better.\n";
  return kDone;
}

}  // namespace evet
