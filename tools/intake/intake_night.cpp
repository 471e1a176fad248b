#include "tools/intake/intake_night.h"

#include <algorithm>
#include <chrono>
#include <set>

#include "matcher/base/moment.h"
#include "matcher/base/place.h"
#include "tools/intake/intake_photos.h"
#include "tools/intake/intake_plan.h"
#include "tools/intake/messages.h"
#include "tools/intake/near_known_places.h"
#include "tools/intake/photo_files.h"
#include "tools/intake/read_sheet.h"
#include "tools/intake/sheet_file.h"
#include "tools/intake/take_night.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// What can be said of a sheet before anything is written.
void tell_of_plan(const IntakePlan& plan, IntakeOutcome& outcome) {
  std::set<std::string> nights, places;
  for (const PlannedCapture& capture : plan.captures) {
    nights.insert(capture.facts.night);
    places.insert(place_of(capture.facts.site, capture.facts.pond));
  }
  outcome.nights.assign(nights.begin(), nights.end());
  outcome.places.assign(places.begin(), places.end());
  outcome.rows = plan.rows;
  outcome.captures_known = plan.captures_known, outcome.photos_known = plan.photos_known;
  outcome.refused = plan.refused;
  outcome.noticed = plan.noticed;
}

// An animal that the sheet knows by the label of another one here: two individuals would bear it.
std::vector<SheetProblem> labels_of_others(Catalogue& catalogue, const IntakePlan& plan, const Sheet& sheet) {
  const Identities& who = catalogue.identities();
  std::set<std::string> taken;
  for (const PlannedCapture& capture : plan.captures) {
    const std::string& label = capture.facts.individual;
    if (label.empty()) continue;
    for (const Individual& one : who.individuals) {
      const bool known_so = std::any_of(one.captures.begin(), one.captures.end(), [&](const CaptureId& id) {
        return who.capture(id)->facts.individual == label;
      });
      const bool its_own = capture.known && capture.known->individual == one.id;
      if (one.label == label && !known_so && !its_own) taken.insert(label);
    }
  }
  std::vector<SheetProblem> out;
  for (const SheetRow& row : sheet.rows)
    if (taken.erase(row.individual) > 0)
      out.push_back({row.line,
                     "individual",
                     {Message(messages::kLabelOfAnother, {{"label", in_quotes(row.individual)}}),
                      messages::kSettleByPhotos}});
  return out;
}

void tell_of_taken(TakenNight taken, IntakeOutcome& outcome) {
  outcome.taken = true;
  outcome.captures = taken.captures, outcome.photos = taken.photos, outcome.moved = taken.moved;
  outcome.looked_at = std::move(taken.looked_at);
  outcome.empty_nights = std::move(taken.empty_nights);
  outcome.night_entry = taken.night_entry;
  outcome.noticed.insert(outcome.noticed.end(), taken.noticed.begin(), taken.noticed.end());
}

}  // namespace

std::chrono::year_month_day today(Env& env) {
  const Instant now = env.now();
  const std::chrono::sys_time<std::chrono::milliseconds> local{
      std::chrono::milliseconds(now.unix_ms + now.utc_offset_min * 60'000LL)};
  return std::chrono::floor<std::chrono::days>(local);
}

std::string today_text(Env& env) {
  return to_text(env.now()).substr(0, 10);
}

IntakeOutcome intake_night(Catalogue& catalogue, const IntakeRequest& request, Env& env) {
  const SheetOptions limits{.today = today(env)};
  const SheetFile file = read_sheet_file(request.sheet, request.photos, limits.max_bytes, env);
  Sheet sheet = read_sheet({reinterpret_cast<const char*>(file.bytes.data()), file.bytes.size()}, limits);
  PhotosOfSheet photos;
  std::vector<Message> renamed;
  if (sheet.readable()) {
    renamed = find_photo_files(sheet, request.photos, env);
    std::function<void(size_t, size_t)> progress;
    if (request.progress)
      progress = [&](size_t done, size_t all) {
        request.progress(in_words(messages::kCheckingPhotos), done, all);
      };
    photos = read_photos(catalogue, sheet, request.photos, request.threads, progress, env);
  }
  const IntakePlan plan = plan_night(catalogue, sheet, photos.reads, request.move);

  IntakeOutcome outcome;
  outcome.readable = sheet.readable();
  tell_of_plan(plan, outcome);
  outcome.on_no_row = std::move(photos.on_no_row);
  outcome.noticed.insert(outcome.noticed.begin(), renamed.begin(), renamed.end());
  outcome.noticed.insert(outcome.noticed.end(), photos.hints.begin(), photos.hints.end());
  IntakeRequest complete = request;
  const std::vector<NearPlace> near = near_known_places(catalogue, plan);
  for (const NearPlace& one : near) {
    complete.in_spite_of.push_back({"near_place", one.message().words(), request.in_spite});
    if (request.in_spite.empty()) outcome.refused.push_back(refused_for(one, sheet));
  }
  const std::vector<SheetProblem> labels = labels_of_others(catalogue, plan, sheet);
  outcome.refused.insert(outcome.refused.end(), labels.begin(), labels.end());
  // The good rows too: they may lie at that place, or show that animal.
  const bool held = (!near.empty() && request.in_spite.empty()) || !labels.empty();
  if (!outcome.readable || held || (!outcome.refused.empty() && !request.keep_going)) return outcome;
  tell_of_taken(take_night(catalogue, complete, file, sheet, plan), outcome);
  return outcome;
}

}  // namespace evet
