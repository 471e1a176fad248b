#include "tools/intake/intake_check.h"

#include <algorithm>
#include <chrono>
#include <mutex>

#include "matcher/base/error.h"
#include "matcher/base/parallel.h"
#include "matcher/base/sha256.h"
#include "matcher/photo/read_file.h"
#include "tools/intake/camera_clock.h"
#include "tools/intake/intake_photos.h"
#include "tools/intake/intake_plan.h"
#include "tools/intake/read_sheet.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

std::chrono::year_month_day today(Env& env) {
  const Instant now = env.now();
  const std::chrono::sys_time<std::chrono::milliseconds> local{
      std::chrono::milliseconds(now.unix_ms + now.utc_offset_min * 60'000LL)};
  return std::chrono::floor<std::chrono::days>(local);
}

void hint_at_nights(const Sheet& sheet, const std::vector<ReadPhoto>& reads, IntakeOutcome& outcome) {
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

  std::vector<ReadPhoto> reads(sheet.rows.size());
  std::mutex mutex;  // a catalogue serves one thread at a time
  size_t done = 0;
  for_each_item(sheet.rows.size(), request.threads, [&](size_t i) {
    reads[i] = read_row_photo(sheet.rows[i], request.photos, env, [&](const PhotoId& id) {
      const std::lock_guard lock(mutex);
      return !catalogue.captures_with_photo(id).empty();
    });
    if (!request.progress) return;
    const std::lock_guard lock(mutex);
    request.progress("checking photos", ++done, sheet.rows.size());
  });
  plan_rows(catalogue, reads, request.move, plan, outcome);
  hint_at_nights(sheet, reads, outcome);
  std::stable_sort(outcome.refused.begin(), outcome.refused.end(),
                   [](const RefusedRow& a, const RefusedRow& b) { return a.line < b.line; });
  return plan;
}

}  // namespace evet
