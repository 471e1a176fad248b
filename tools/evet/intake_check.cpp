#include "tools/evet/intake_check.h"

#include <algorithm>
#include <chrono>
#include <mutex>
#include <set>
#include <unordered_map>

#include "matcher/base/error.h"
#include "matcher/base/parallel.h"
#include "matcher/base/sha256.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/read_file.h"
#include "tools/evet/camera_clock.h"
#include "tools/evet/place.h"
#include "tools/evet/text.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

std::chrono::year_month_day today(Env& env) {
  const Instant now = env.now();
  const std::chrono::sys_time<std::chrono::milliseconds> local{
      std::chrono::milliseconds(now.unix_ms + now.utc_offset_min * 60'000LL)};
  return std::chrono::floor<std::chrono::days>(local);
}

std::string at_line(const SheetRow& row) {
  return "line " + std::to_string(row.line) + ", photo " + evet::quoted(row.photo);
}

std::string described(const CaptureFacts& facts) {
  return "capture " + evet::quoted(facts.name) + " of " + facts.night + " at " +
         place_of(facts.site, facts.pond);
}

// The file that was probably meant, for a name that is not there.
std::string meant_instead(const fs::path& folder, const std::string& name, Env& env) {
  std::string plain = "check the name and the photos folder, " + folder.string();
  try {
    if (name.find('/') != std::string::npos || !env.exists(folder)) return plain;
    const std::vector<std::string> names = env.list_folder(folder);
    for (const std::string& other : names)
      if (lower_ascii(other) == lower_ascii(name)) return "did you mean " + evet::quoted(other) + "?";
    if (const auto near = near_miss(name, names)) return "did you mean " + evet::quoted(*near) + "?";
  } catch (const Error&) {  // a hint is not worth a failure
  }
  return plain;
}

// What reading a row's photo gave: its name by content, or why it cannot be taken.
struct Read {
  PhotoId id;
  std::string refusal;
  std::optional<std::string> taken_at;  // by the camera's clock; of a photo that the catalogue does not know
};

Read read_photo(const SheetRow& row, const IntakeRequest& request, Env& env,
                const std::function<bool(const PhotoId&)>& known) {
  Read read;
  try {
    const Bytes bytes = read_file(request.photos / fs::path(row.photo), at_line(row));
    read.id = PhotoId(sha256_hex(bytes));
    // Decoded in full, though small: a picture cut short shows only at its end.
    if (!known(read.id))
      read.taken_at = decode_photo(bytes, at_line(row), {.enough_long_side_px = 64}).header.taken_at;
  } catch (const Error& error) {
    if (error.kind() == ErrorKind::storage) throw;
    read.refusal = error.kind() == ErrorKind::not_found ? at_line(row) + ": there is no such file; " +
                                                              meant_instead(request.photos, row.photo, env)
                                                        : error.what();
  }
  return read;
}

// Forgotten rows: pictures that lie in the folder, and that neither the sheet nor the catalogue names.
std::vector<std::string> pictures_on_no_row(const fs::path& folder, const Sheet& sheet, const Identities& who,
                                            Env& env) {
  static const std::set<std::string> kinds{".jpg", ".jpeg", ".png", ".tif", ".tiff", ".heic", ".heif"};
  std::set<std::string> left;
  for (const std::string& name : env.list_folder(folder))
    if (kinds.contains(lower_ascii(fs::path(name).extension().string())) && !sheet.named.contains(name))
      left.insert(name);
  for (const CaptureState& capture : who.captures)
    for (const PhotoState& photo : capture.photos) left.erase(photo.name);
  return {left.begin(), left.end()};
}

CaptureFacts facts_of(const Sheet& sheet, const SheetCapture& capture) {
  const SheetRow& row = capture.facts;
  CaptureFacts facts;
  facts.site = row.site, facts.pond = row.pond, facts.night = row.night, facts.trap = row.trap;
  facts.name = row.capture.empty() ? row.photo : row.capture;
  facts.sex = row.sex, facts.stage = row.stage;
  facts.svl_mm = row.svl_mm, facts.total_mm = row.total_mm, facts.mass_g = row.mass_g;
  facts.observer = row.observer, facts.licence = row.licence;
  facts.latitude = row.latitude, facts.longitude = row.longitude;
  facts.lost = row.released == false;
  facts.individual = row.individual;
  std::set<std::string> said;
  for (const size_t i : capture.rows) {
    const std::string& note = sheet.rows[i].notes;
    if (note.empty() || !said.insert(note).second) continue;
    facts.notes += facts.notes.empty() ? note : "; " + note;
  }
  return facts;
}

bool same_occasion(const CaptureFacts& a, const CaptureFacts& b) {
  return a.night == b.night && a.site == b.site && a.pond == b.pond;
}

// Sorts rows into known, new and refused, capture by capture.
class Planner {
 public:
  Planner(Catalogue& catalogue, const Sheet& sheet, const std::vector<Read>& reads, bool move,
          IntakeOutcome& outcome)
      : catalogue_(catalogue),
        who_(catalogue.identities()),
        sheet_(sheet),
        move_(move),
        reads_(reads),
        outcome_(outcome) {}

  std::optional<PlannedCapture> plan(const SheetCapture& capture) {
    PlannedCapture planned;
    planned.facts = facts_of(sheet_, capture);
    planned.says_released = capture.facts.released.has_value();
    bool any = false;
    for (const size_t row : capture.rows) any = take(row, capture, planned) || any;
    if (!any) return std::nullopt;
    if (planned.known) {
      ++outcome_.captures_known;
      if (!same_occasion(planned.known->facts, planned.facts)) moving_.insert(planned.known->id);
    }
    return planned;
  }

  // Whether the catalogue, too, knows of no catch there and then. Asked after all captures.
  bool plan(const NoCatch& none) {
    const auto caught =
        std::count_if(who_.captures.begin(), who_.captures.end(), [&](const CaptureState& state) {
          const CaptureFacts& facts = state.facts;
          return !moving_.contains(state.id) && facts.night == none.night && facts.site == none.site &&
                 facts.pond == none.pond && (none.trap.empty() || facts.trap == none.trap);
        });
    if (caught == 0) return true;
    outcome_.refused.push_back(
        {none.line, "line " + std::to_string(none.line) + ", photo: says that nothing was caught on " +
                        none.night + " at " + place_of(none.site, none.pond) + ", but the catalogue holds " +
                        counted(static_cast<size_t>(caught), "capture") +
                        " of that night there; take the row out, or mend its night or place"});
    return false;
  }

 private:
  void refuse(size_t row, const std::string& sentence) {
    outcome_.refused.push_back({sheet_.rows[row].line, sentence});
  }

  // Whether the row counts; then its photo is known or among the fresh ones.
  bool take(size_t row, const SheetCapture& capture, PlannedCapture& planned) {
    const SheetRow& said = sheet_.rows[row];
    const Read& read = reads_[row];
    if (!read.refusal.empty()) {
      refuse(row, read.refusal);
      return false;
    }
    const auto [first, is_first] = row_of_.try_emplace(read.id, row);
    if (!is_first) {
      const SheetRow& other = sheet_.rows[first->second];
      const std::string same = at_line(said) + ": the same picture, byte for byte, as " +
                               evet::quoted(other.photo) + " on line " + std::to_string(other.line);
      if (!said.capture.empty() && said.capture == other.capture && said.night == other.night &&
          said.site == other.site) {
        outcome_.noticed.push_back(same + "; it is taken in once");
        return true;
      }
      refuse(row, same + ", which is another capture; a picture shows one animal once: leave one row out");
      return false;
    }
    for (const CaptureId& id : catalogue_.captures_with_photo(read.id)) {
      const CaptureState* state = who_.capture(id);
      if (state == nullptr) continue;
      if (!move_ && !same_occasion(state->facts, planned.facts)) {
        refuse(row, at_line(said) + ": the same picture is in the catalogue already, in " +
                        described(state->facts) +
                        "; leave the row out, mend its night and place, or say --move if the sheet is right");
        return false;
      }
      if (!one_hand(row, capture, planned, *state)) return false;
      planned.known = *state;
      notice_other_name(said, read.id, *state);
      ++outcome_.photos_known;
      return true;
    }
    planned.fresh.push_back({row, read.id});
    return true;
  }

  // One capture of the sheet, one of the catalogue: corrections and moves would else meet half of each.
  bool one_hand(size_t row, const SheetCapture& capture, const PlannedCapture& planned,
                const CaptureState& state) {
    const std::string there =
        at_line(sheet_.rows[row]) + ": the picture is in the catalogue already, in " + described(state.facts);
    if (planned.known && planned.known->id != state.id) {
      refuse(row, there + ", but the sheet puts it with photos of " + described(planned.known->facts) +
                      "; make it a capture of its own, and if both are one animal, tell evet verdict");
      return false;
    }
    const auto [on_sheet, is_first] = on_sheet_.try_emplace(state.id, &capture);
    if (is_first || on_sheet->second == &capture) return true;
    refuse(row, there + ", but the sheet makes two captures of that, here and on line " +
                    std::to_string(sheet_.rows[on_sheet->second->rows.front()].line) +
                    "; give the rows the same capture");
    return false;
  }

  void notice_other_name(const SheetRow& said, const PhotoId& id, const CaptureState& state) {
    for (const PhotoState& photo : state.photos)
      if (photo.photo == id && photo.name != said.photo)
        outcome_.noticed.push_back(at_line(said) + ": the same picture, byte for byte, as " +
                                   evet::quoted(photo.name) + ", which is in the catalogue already, in " +
                                   described(state.facts) + "; it is not added again");
  }

  Catalogue& catalogue_;
  const Identities who_;  // a copy: it must outlive other calls on the catalogue
  const Sheet& sheet_;
  const bool move_;
  const std::vector<Read>& reads_;
  IntakeOutcome& outcome_;
  std::unordered_map<PhotoId, size_t> row_of_;
  std::unordered_map<CaptureId, const SheetCapture*> on_sheet_;  // the known ones, and what names them
  std::set<CaptureId> moving_;
};

void hint_at_nights(const Sheet& sheet, const std::vector<Read>& reads, IntakeOutcome& outcome) {
  std::vector<TimedPhoto> timed;
  for (size_t i = 0; i < reads.size(); ++i)
    if (reads[i].taken_at && reads[i].refusal.empty())
      timed.push_back({sheet.rows[i].photo, sheet.rows[i].night, *reads[i].taken_at});
  for (std::string& hint : camera_clock_hints(timed)) outcome.noticed.push_back(std::move(hint));
}

// The two are easily given the wrong way round.
void check_paths(const IntakeRequest& request, Env& env) {
  std::error_code ignored;
  if (env.exists(request.sheet) && !fs::is_regular_file(request.sheet, ignored))
    throw Error(ErrorKind::bad_input, request.sheet.string(),
                fs::is_directory(request.sheet, ignored) ? "it is a folder, not a night sheet"
                                                         : "it is not an ordinary file",
                "name the sheet, a CSV file, and after it the folder of the photos");
  if (!env.exists(request.photos))
    throw Error(ErrorKind::not_found, request.photos.string(), "there is no such folder",
                "name the folder that holds the photos");
  if (!fs::is_directory(request.photos, ignored))
    throw Error(ErrorKind::bad_input, request.photos.string(), "it is a file, not a folder",
                "name the folder that holds the photos");
}

}  // namespace

IntakePlan check_night(Catalogue& catalogue, const IntakeRequest& request, Env& env, IntakeOutcome& outcome) {
  check_paths(request, env);
  const SheetOptions limits{.today = today(env)};
  std::error_code no_size;  // then reading says what is wrong
  Bytes file;
  if (fs::file_size(request.sheet, no_size) != 0)  // an empty one is the sheet's matter, not the camera's
    file = read_file(request.sheet, request.sheet.string(), limits.max_bytes + 1);
  IntakePlan plan;
  plan.sheet_sha256 = sha256_hex(file);
  plan.sheet = read_sheet({reinterpret_cast<const char*>(file.data()), file.size()}, limits);
  const Sheet& sheet = plan.sheet;
  for (const SheetProblem& problem : sheet.problems)
    outcome.refused.push_back({problem.line, problem.sentence()});
  outcome.readable = sheet.readable();
  if (!outcome.readable) return plan;
  outcome.on_no_row = pictures_on_no_row(request.photos, sheet, catalogue.identities(), env);

  std::vector<Read> reads(sheet.rows.size());
  std::mutex mutex;  // a catalogue serves one thread at a time
  size_t done = 0;
  for_each_item(sheet.rows.size(), request.threads, [&](size_t i) {
    reads[i] = read_photo(sheet.rows[i], request, env, [&](const PhotoId& id) {
      const std::lock_guard lock(mutex);
      return !catalogue.captures_with_photo(id).empty();
    });
    if (!request.progress) return;
    const std::lock_guard lock(mutex);
    request.progress("checking photos", ++done, sheet.rows.size());
  });
  Planner planner(catalogue, sheet, reads, request.move, outcome);
  for (const SheetCapture& capture : sheet.captures)
    if (auto planned = planner.plan(capture)) plan.captures.push_back(std::move(*planned));
  hint_at_nights(sheet, reads, outcome);
  for (const NoCatch& none : sheet.no_catches)
    if (planner.plan(none)) plan.no_catches.push_back(none);
  std::stable_sort(outcome.refused.begin(), outcome.refused.end(),
                   [](const RefusedRow& a, const RefusedRow& b) { return a.line < b.line; });
  return plan;
}

}  // namespace evet
