#include <filesystem>
#include <ostream>
#include <set>
#include <span>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/write_durably.h"
#include "matcher/photo/read_file.h"
#include "tools/evet/commands.h"
#include "tools/evet/messages.h"
#include "tools/evet/progress.h"
#include "tools/evet/wrong_usage.h"
#include "tools/intake/draft_folder.h"
#include "tools/intake/draft_sheet.h"
#include "tools/intake/intake_night.h"
#include "tools/intake/messages.h"
#include "tools/intake/sheet.h"
#include "tools/words/in_words.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

// The pictures of a folder that the catalogue does not have yet, gathered by time.
struct Found {
  Draft draft;
  std::size_t known = 0;
  std::vector<std::string> refused;  // sentences
};

Found pictures_in(const fs::path& folder, Catalogue& catalogue, int gap_seconds, Console& console) {
  static const std::set<std::string> kinds{".jpg", ".jpeg", ".png", ".tif", ".tiff", ".heic", ".heif"};
  Found found;
  set_gap(found.draft, gap_seconds);
  std::vector<std::string> names;
  for (const std::string& name : console.env.list_folder(folder))
    if (kinds.contains(lower_ascii(fs::path(name).extension().string()))) names.push_back(name);
  Progress bar(console, in_words(messages::kReadingPhotos));
  for (std::size_t i = 0; i < names.size(); ++i) {
    bar.show(i, names.size());
    try {
      const Bytes bytes = read_file(folder / names[i], names[i]);
      const LookedAt looked_at = look_at_photo(bytes, names[i]);
      if (!catalogue.captures_with_photo(looked_at.id).empty()) {
        ++found.known;
        continue;
      }
      add_photo(found.draft, {.name = names[i],
                              .from = names[i],
                              .id = looked_at.id,
                              .bytes = static_cast<std::int64_t>(bytes.size()),
                              .taken_at = looked_at.taken_at,
                              .notes = {}});
    } catch (const Error& error) {
      if (error.kind() == ErrorKind::storage) throw;
      found.refused.emplace_back(error.what());
    }
  }
  return found;
}

std::string blank_sheet() {
  std::string line;
  for (const std::string& column : sheet_columns()) line += (line.empty() ? "" : ",") + column;
  return line + "\n";
}

}  // namespace

int run_sheet(const Args& args, Console& console) {
  CommandLine line("sheet", messages::kSheetDoes, "evet sheet alder-fen 2024-05-14.csv card/DCIM --by KM");
  line.take_catalogue();
  line.take_actor();
  std::string file, photos;
  int gap = kUsualGapSeconds;
  line.app().add_option("SHEET", file, in_words(messages::kHelpSheetTheSheet))->required();
  line.app().add_option("PHOTOS", photos, in_words(messages::kHelpSheetThePhotos));
  whole_within(line.app().add_option("--gap", gap, in_words(messages::kHelpSheetGap)), 1, 3600)
      ->type_name("SECONDS");
  if (const auto done = line.parse(args, console)) return *done;

  if (console.env.exists(file))
    throw Error(ErrorKind::usage, file, messages::kAlreadyThere, messages::kNameNewFileOrTakeAway);
  check_can_write_file(console.env, file);
  Catalogue catalogue = open_catalogue(line.catalogue(), console, Access::read);
  std::string csv = blank_sheet();
  Found found;
  if (!photos.empty()) {
    if (console.env.facts(photos).kind != FileKind::folder)
      throw Error(ErrorKind::not_found, photos, messages::kNoSuchFolder, messages::kNamePhotosFolder);
    found = pictures_in(photos, catalogue, gap, console);
    const std::string today = today_text(console.env);
    csv = sheet_of(found.draft, proposed_for(found.draft, catalogue, line.actor().name, today)).csv;
  }
  write_file_durably(console.env, file, std::as_bytes(std::span(csv)));
  if (line.json()) {
    print(console, {{"sheet", file},
                    {"photos", found.draft.photos.size()},
                    {"captures", found.draft.captures.size()},
                    {"known", found.known},
                    {"refused", found.refused}});
  } else {
    const Draft& draft = found.draft;
    if (photos.empty())
      console.out << in_words(messages::kWroteBlankSheet, {{"file", file}}) << "\n";
    else
      console.out << in_words(messages::kWroteSheetOfPhotos,
                              {{"file", file},
                               {"photos", counted(draft.photos.size(), messages::kPhotos)},
                               {"captures", counted(draft.captures.size(), messages::kCaptures)}})
                  << "\n";
    if (found.known > 0) console.out << counted(found.known, messages::kMoreAreThereAlready) << "\n";
    for (const std::string& one : found.refused)
      console.out << in_words(messages::kPhotoLeftOut, {{"why", one}}) << "\n";
    console.out << in_words(messages::kFillItIn, {{"catalogue", line.catalogue()},
                                                  {"file", file},
                                                  {"photos", photos.empty() ? "PHOTOS" : photos}})
                << "\n";
  }
  return found.refused.empty() ? kDone : kBadInput;
}

}  // namespace evet
