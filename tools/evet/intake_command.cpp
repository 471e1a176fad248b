#include <spdlog/spdlog.h>

#include <filesystem>
#include <map>
#include <optional>
#include <ostream>

#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/progress.h"
#include "tools/intake/intake_night.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

nlohmann::json to_json(const IntakeOutcome& outcome) {
  nlohmann::json photos = nlohmann::json::array(), refused = photos, noticed = photos;
  for (const TakenPhoto& photo : outcome.looked_at) {
    nlohmann::json notes = nlohmann::json::array();
    for (const QualityNote& note : photo.notes)
      notes.push_back({{"measure", note.measure}, {"sentence", note.sentence}, {"blocks", note.blocks}});
    photos.push_back(
        {{"photo", photo.name}, {"capture", photo.capture}, {"usable", photo.usable}, {"notes", notes}});
  }
  nlohmann::json empty = nlohmann::json::array();
  for (const EmptyNight& night : outcome.empty_nights)
    empty.push_back({{"night", night.night}, {"place", night.place}, {"known", night.known}});
  for (const SheetProblem& row : outcome.refused)
    refused.push_back({{"line", row.line}, {"sentence", row.sentence()}});
  for (const Message& notice : outcome.noticed) noticed.push_back(notice.words());
  return {
      {"taken", outcome.taken},
      {"nights", outcome.nights},
      {"places", outcome.places},
      {"rows", outcome.rows},
      {"captures", {{"new", outcome.captures}, {"known", outcome.captures_known}, {"moved", outcome.moved}}},
      {"photos", {{"new", outcome.photos}, {"known", outcome.photos_known}}},
      {"nothing_caught", empty},
      {"entry", outcome.night_entry.empty() ? nlohmann::json() : nlohmann::json(outcome.night_entry.value)},
      {"looked_at", photos},
      {"refused", refused},
      {"on_no_row", outcome.on_no_row},
      {"noticed", noticed}};
}

// "3 photos in card are on no row of the sheet: 'a.jpg', 'b.jpg' and 1 more; ..."
std::string forgotten(const std::vector<std::string>& names, const std::filesystem::path& folder) {
  constexpr size_t kNamed = 3;
  const size_t shown = names.size() <= kNamed ? names.size() : kNamed - 1;
  std::vector<std::string> list;
  for (size_t i = 0; i < shown; ++i) list.push_back(in_quotes(names[i]));
  if (shown < names.size()) list.push_back(in_words(messages::kSoManyMore, {{"more", names.size() - shown}}));
  return in_words(messages::kOnNoRow,
                  {{"n", names.size()}, {"folder", folder.string()}, {"names", listed(list)}});
}

void tell_of_photos(const IntakeOutcome& outcome, Console& console, bool blocked,
                    const std::string& heading) {
  bool first = true;
  for (const TakenPhoto& photo : outcome.looked_at) {
    if (photo.usable == blocked || photo.notes.empty()) continue;
    if (first) console.out << heading << "\n";
    first = false;
    console.out << "  " << in_quotes(photo.name);
    if (photo.capture != photo.name)
      console.out << " " << in_words(messages::kOfCapture, {{"capture", in_quotes(photo.capture)}});
    console.out << "\n";
    for (const QualityNote& note : photo.notes)
      if (note.blocks == blocked) console.out << "      " << note.sentence << "\n";
  }
}

// Nights without a catch, and how to take one back that was a slip: they have no photo to mend it by.
void tell_of_empty_nights(const IntakeOutcome& outcome, const std::string& catalogue, Console& console) {
  bool fresh = false;
  for (const EmptyNight& night : outcome.empty_nights) {
    console.out << in_words(night.known ? messages::kNothingCaughtKnown : messages::kNothingCaughtWritten,
                            {{"night", night.night}, {"place", night.place}})
                << "\n";
    fresh = fresh || !night.known;
  }
  if (fresh && outcome.captures_known + outcome.captures == 0)
    console.out << in_words(messages::kIfThatWasASlip,
                            {{"catalogue", catalogue}, {"entry", outcome.night_entry.value}})
                << "\n";
}

void tell(const IntakeOutcome& outcome, const std::string& catalogue, Console& console) {
  if (outcome.captures + outcome.photos == 0 && outcome.photos_known == 0) {
    tell_of_empty_nights(outcome, catalogue, console);
    return;
  }
  if (outcome.captures + outcome.photos == 0 && outcome.moved > 0)
    console.out << in_words(messages::kMovedCaptures,
                            {{"captures", counted(outcome.moved, messages::kCaptures)},
                             {"nights", listed(outcome.nights)},
                             {"places", listed(outcome.places)}})
                << "\n";
  else if (outcome.captures + outcome.photos == 0)
    console.out << in_words(messages::kNothingNew,
                            {{"photos", counted(outcome.photos_known, messages::kPhotos)},
                             {"captures", counted(outcome.captures_known, messages::kCaptures)}})
                << "\n";
  else
    console.out << in_words(messages::kTookIn, {{"n", outcome.nights.size()},
                                                {"nights", listed(outcome.nights)},
                                                {"places", listed(outcome.places)},
                                                {"captures", counted(outcome.captures, messages::kCaptures)},
                                                {"photos", counted(outcome.photos, messages::kPhotos)}})
                << "\n";
  if (outcome.captures + outcome.photos > 0 && outcome.moved > 0)
    console.out << counted(outcome.moved, messages::kCapturesMoved) << "\n";
  if (outcome.captures + outcome.photos > 0 && outcome.photos_known > 0)
    console.out << counted(outcome.photos_known, messages::kPhotosWereThere) << "\n";
  tell_of_empty_nights(outcome, catalogue, console);
  size_t unusable = 0;
  for (const TakenPhoto& photo : outcome.looked_at) unusable += photo.usable ? 0 : 1;
  tell_of_photos(outcome, console, true, counted(unusable, messages::kCannotBeMatched));
  tell_of_photos(outcome, console, false, in_words(messages::kCouldBeBetter));
  if (outcome.captures > 0) console.out << in_words(messages::kNextRank, {{"catalogue", catalogue}}) << "\n";
}

void take_options(CommandLine& line, IntakeRequest& request, std::string& sheet, std::string& photos) {
  line.app().add_option("SHEET", sheet, in_words(messages::kHelpIntakeTheSheet))->required();
  line.app().add_option("PHOTOS", photos, in_words(messages::kHelpIntakeThePhotos));
  line.app().add_flag("--keep-going", request.keep_going, in_words(messages::kHelpIntakeKeepGoing));
  line.app().add_flag("--move", request.move, in_words(messages::kHelpIntakeMove));
  line.app()
      .add_option("--in-spite", request.in_spite, in_words(messages::kHelpIntakeInSpite))
      ->type_name("WORDS");
}

// Refused rows and what was noticed, on the log.
void log_outcome(const IntakeOutcome& outcome, const IntakeRequest& request) {
  const std::string name = request.sheet.filename().string();
  for (const std::string& sentence : refused_sentences(outcome.refused))
    spdlog::error("{}: {}", name, sentence);
  for (const Message& notice : outcome.noticed) spdlog::warn("{}: {}", name, notice.words());
  if (outcome.taken && !outcome.on_no_row.empty())
    spdlog::warn("{}: {}", name, forgotten(outcome.on_no_row, request.photos));
  if (outcome.taken) return;
  const std::string mend = outcome.readable ? counted(outcome.refused.size(), messages::kMendTheseRows)
                                            : in_words(messages::kMendTheSheet);
  spdlog::error("{}", in_words(outcome.rows > outcome.refused.size() ? messages::kNothingTakenInOrRest
                                                                     : messages::kNothingTakenIn,
                               {{"sheet", name}, {"mend", mend}}));
}

}  // namespace

int run_intake(const Args& args, Console& console) {
  CommandLine line("intake", messages::kIntakeDoes, "evet intake alder-fen 2024-05-14.csv card/DCIM --by KM");
  line.take_catalogue();
  line.take_actor();
  line.take_threads();
  IntakeRequest request;
  std::string sheet, photos;
  take_options(line, request, sheet, photos);
  if (const auto done = line.parse(args, console)) return *done;

  request.sheet = sheet;
  request.photos = photos.empty() ? request.sheet.parent_path() : std::filesystem::path(photos);
  if (request.photos.empty()) request.photos = ".";
  request.threads = line.threads();
  request.actor = line.actor();
  std::map<std::string, Progress> bars;
  request.progress = [&](const std::string& stage, size_t done, size_t all) {
    bars.try_emplace(stage, console, stage).first->second.show(done, all);
  };
  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::write);
  const IntakeOutcome outcome = intake_night(catalogue, request, console.env);
  bars.clear();

  log_outcome(outcome, request);
  if (line.json())
    print(console, to_json(outcome));
  else if (outcome.taken)
    tell(outcome, line.catalogue(), console);
  return outcome.refused.empty() ? kDone : kBadInput;
}

}  // namespace evet
