#include "tools/intake/take_night.h"

#include <algorithm>
#include <map>
#include <mutex>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/parallel.h"
#include "matcher/base/place.h"
#include "matcher/base/sha256.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/photo/read_file.h"
#include "tools/intake/messages.h"
#include "tools/intake/moved_visits.h"
#include "tools/intake/sheet_nights.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// Photos examined before their captures are written down, in one transaction: what a kill can cost.
constexpr size_t kPhotosATransaction = 16;

// What the sheet says now, on top of what was known; what it leaves blank stays. The name stays as well:
// people know the capture by it.
CaptureFacts merged(const CaptureFacts& known, CaptureFacts said, bool says_released) {
  const auto keep = [](auto& value, const auto& before, const auto& blank) {
    if (value == blank) value = before;
  };
  const std::string none;
  const std::optional<double> no_number;
  said.name = known.name;
  keep(said.trap, known.trap, none);
  keep(said.sex, known.sex, Sex::unknown);
  keep(said.stage, known.stage, none);
  keep(said.svl_mm, known.svl_mm, no_number);
  keep(said.total_mm, known.total_mm, no_number);
  keep(said.mass_g, known.mass_g, no_number);
  keep(said.observer, known.observer, none);
  keep(said.licence, known.licence, none);
  keep(said.latitude, known.latitude, no_number);
  keep(said.longitude, known.longitude, no_number);
  keep(said.individual, known.individual, none);
  keep(said.notes, known.notes, none);
  if (!says_released) said.lost = known.lost;
  return said;
}

class Taking {
 public:
  Taking(Catalogue& catalogue, const IntakeRequest& request, const SheetFile& file, const Sheet& sheet,
         const IntakePlan& plan)
      : catalogue_(catalogue), request_(request), file_(file), sheet_(sheet), plan_(plan) {
    for (const PlannedCapture& capture : plan.captures) all_ += capture.fresh.size();
  }

  TakenNight take_all() {
    move_known();
    const auto& captures = plan_.captures;
    for (size_t first = 0, last = 0; first < captures.size(); first = last) {
      size_t photos = 0;
      while (last < captures.size() &&
             (last == first || photos + captures[last].fresh.size() <= kPhotosATransaction))
        photos += captures[last++].fresh.size();
      take(first, last);
    }
    write_night();
    return std::move(out_);
  }

 private:
  struct Work {
    const PlannedCapture* capture;
    const PlannedPhoto* photo;
    PhotoTaken taken;
  };

  // In one transaction with what becomes of the nights that they leave: a night that lost its captures must
  // not stand as one without a catch, whenever the program is killed.
  void move_known() {
    std::vector<Body> bodies;
    std::set<NightIntake::Visit> left;
    std::map<NightIntake::Visit, std::set<NightIntake::Visit>> went;
    for (const PlannedCapture& capture : plan_.captures) {
      if (!capture.known) continue;
      const CaptureFacts& was = capture.known->facts;
      const NightIntake::Visit before{was.site, was.pond, was.night};
      if (request_.move) settle_twins(capture, bodies, left);
      const NightIntake::Visit now{capture.facts.site, capture.facts.pond, capture.facts.night};
      if (before == now) continue;
      left.insert(before);
      went[before].insert(now);
      moved_.insert(capture.known->id);
      correct(capture, bodies);
    }
    if (bodies.empty()) return;
    for (Body& body : without_visits(catalogue_, left, moved_)) bodies.push_back(std::move(body));
    for (Body& body : facts_that_follow(catalogue_, went, moved_)) bodies.push_back(std::move(body));
    catalogue_.append(request_.actor, bodies);
    out_.moved = moved_.size();
    anything_ = true;
  }

  // The same picture taken in elsewhere, under another night or place: there, too, this sheet is right now.
  void settle_twins(const PlannedCapture& capture, std::vector<Body>& bodies,
                    std::set<NightIntake::Visit>& left) {
    const CaptureFacts& facts = capture.facts;
    for (const SaidOtherwise& said : capture.known->said_otherwise) {
      nlohmann::json changes{{"site", facts.site}, {"night", facts.night}, {"pond", nullptr}};
      if (!facts.pond.empty()) changes["pond"] = facts.pond;
      if (!facts.individual.empty()) changes["individual"] = facts.individual;
      bodies.push_back(Correction{
          said.twin, changes,
          in_words(messages::kSheetSaysWhere, {{"sheet", in_quotes(request_.sheet.filename().string())}})});
      if (const NightIntake::Visit there{said.site, said.pond, said.night};
          there != NightIntake::Visit{facts.site, facts.pond, facts.night})
        left.insert(there);
      out_.noticed.push_back({messages::kMovedElsewhere,
                              {{"name", in_quotes(capture.known->facts.name)},
                               {"before", said.night},
                               {"place", place_of(said.site, said.pond)},
                               {"night", facts.night}}});
    }
  }

  void examine(Work& work) {
    const SheetRow& row = sheet_.rows[work.photo->row];
    const std::string item = at_photo(row.line, row.photo).words();
    const Bytes bytes = read_file(request_.photos / std::filesystem::path(row.photo), item);
    if (sha256_hex(bytes) != work.photo->id.value)
      throw Error(ErrorKind::bad_input, item, messages::kPhotoChanged, messages::kRunAgain);
    {
      const std::lock_guard lock(mutex_);
      catalogue_.store_photo(bytes);
    }
    const Examined examined = examine_photo(bytes, item, examine_options({}));
    work.taken.photo = work.photo->id;
    work.taken.name = row.photo;
    work.taken.bytes = static_cast<std::int64_t>(bytes.size());
    work.taken.header = examined.header;
    work.taken.examination = examination_of(examined, {});
    const std::lock_guard lock(mutex_);
    keep_in_cache(catalogue_, work.photo->id, {}, examined);
    ++done_;
    if (request_.progress) request_.progress(in_words(messages::kExaminingPhotos), done_, all_);
  }

  void take(size_t first, size_t last) {
    std::vector<Work> work;
    for (size_t i = first; i < last; ++i)
      for (const PlannedPhoto& photo : plan_.captures[i].fresh)
        work.push_back({&plan_.captures[i], &photo, {}});
    for_each_item(work.size(), request_.threads, [&](size_t i) { examine(work[i]); });

    std::vector<Body> bodies;
    size_t at = 0;
    for (size_t i = first; i < last; ++i) {
      const PlannedCapture& capture = plan_.captures[i];
      CaptureId id;
      if (capture.known) {
        id = capture.known->id;
        if (!moved_.contains(id)) correct(capture, bodies);
      } else {
        id = catalogue_.new_capture_id();
        bodies.push_back(Capture{id, capture.facts});
        ++out_.captures;
      }
      for (; at < work.size() && work[at].capture == &capture; ++at) {
        PhotoTaken& taken = work[at].taken;
        taken.capture = id;
        out_.looked_at.push_back(
            {taken.name, capture.facts.name, taken.examination.usable, taken.examination.notes});
        ++out_.photos;
        bodies.push_back(std::move(taken));
      }
    }
    if (!bodies.empty()) catalogue_.append(request_.actor, bodies);
    anything_ = anything_ || !bodies.empty();
  }

  void correct(const PlannedCapture& capture, std::vector<Body>& bodies) {
    const CaptureFacts& before = capture.known->facts;
    Correction correction =
        correction_between(capture.known->id, before, merged(before, capture.facts, capture.says_released),
                           in_words(messages::kSheetTakenInAgain, {{"sheet", in_quotes(file_.name)}}));
    if (correction.changes.empty()) return;
    std::string changed;
    for (const auto& [field, value] : correction.changes.items())
      changed +=
          (changed.empty() ? "" : ", ") +
          (value.is_null() ? Message(messages::kFieldIsBlank, {{"field", field}})
                           : Message(messages::kFieldIsNow, {{"field", field}, {"value", value.dump()}}))
              .words();
    out_.noticed.push_back(
        {messages::kCorrected,
         {{"name", in_quotes(before.name)}, {"night", before.night}, {"changes", changed}}});
    bodies.push_back(std::move(correction));
  }

  // A sheet that is known already says nothing new: what was mended since by other means stays.
  void write_facts() {
    const std::vector<Body> facts =
        facts_said(catalogue_, sheet_, in_words(messages::kSheetSaysSo, {{"sheet", in_quotes(file_.name)}}));
    if (facts.empty()) return;
    for (const Body& body : facts) {
      const auto& said = std::get<NightFactsSaid>(body);
      std::string fields;
      for (const auto& [field, value] : said.changes.items())
        if (field != "licence" && field != "observers")  // every row says them; here they stand for captures
          fields += (fields.empty() ? "" : ", ") + field + " " + value.dump();
      if (fields.empty()) continue;
      out_.noticed.push_back(
          {messages::kNightWrittenDown, {{"night", said.visit.night}, {"fields", fields}}});
    }
    catalogue_.append(request_.actor, facts);
  }

  // One entry a sheet; a sheet that is known already and adds nothing writes nothing.
  void write_night() {
    std::set<NightIntake::Visit> visits, empty, known;
    for (const PlannedCapture& capture : plan_.captures)
      visits.insert({capture.facts.site, capture.facts.pond, capture.facts.night});
    const std::set<NightIntake::Visit> caught = visits;
    for (const NoCatch& none : plan_.no_catches) {
      const NightIntake::Visit place{none.site, none.pond, none.night};
      if (caught.contains(place)) continue;  // another trap of the place did catch something
      empty.insert(place);
      visits.insert(place);
    }
    const bool sheet_known = look_up(known);
    for (const NightIntake::Visit& visit : empty)
      out_.empty_nights.push_back({visit.night, place_of(visit.site, visit.pond), known.contains(visit)});
    if (!sheet_known) write_facts();
    if (sheet_known && !anything_) return;
    NightIntake night;
    night.sheet = file_.name;
    night.sheet_sha256 = file_.sha256;
    std::set<std::string> nights;
    for (const NightIntake::Visit& visit : visits) nights.insert(visit.night);
    night.nights.assign(nights.begin(), nights.end());
    night.visits.assign(visits.begin(), visits.end());
    night.rows = static_cast<std::int64_t>(plan_.rows);
    night.captures = static_cast<std::int64_t>(plan_.captures.size());
    night.photos = static_cast<std::int64_t>(out_.photos + plan_.photos_known);
    for (const SheetProblem& refused : plan_.refused) {
      night.refused.push_back(refused.without_line());
      night.refused_lines.push_back(static_cast<std::int64_t>(refused.line));
    }
    night.in_spite_of = request_.in_spite_of;
    out_.night_entry = catalogue_.append(request_.actor, {night}).front().id;
  }

  // Every place and night that intakes in force say was worked; true when this very sheet is among them.
  bool look_up(std::set<NightIntake::Visit>& known) const {
    LedgerQuery nights_only;
    nights_only.kind = NightIntake::kKind;
    const Identities& who = catalogue_.identities();
    bool this_sheet = false;
    for (const ListedEntry& listed : catalogue_.ledger(nights_only)) {
      if (!who.in_force(listed.entry.id)) continue;
      const auto before = std::get<NightIntake>(body_of(listed.entry));
      this_sheet = this_sheet || before.sheet_sha256 == file_.sha256;
      for (const NightIntake::Visit& visit : before.visits)
        known.insert({visit.site, visit.pond, visit.night});
    }
    return this_sheet;
  }

  Catalogue& catalogue_;
  const IntakeRequest& request_;
  const SheetFile& file_;
  const Sheet& sheet_;
  const IntakePlan& plan_;
  TakenNight out_;
  std::mutex mutex_;  // a catalogue serves one thread at a time
  size_t done_ = 0, all_ = 0;
  bool anything_ = false;
  std::set<CaptureId> moved_;  // corrected already
};

}  // namespace

TakenNight take_night(Catalogue& catalogue, const IntakeRequest& request, const SheetFile& file,
                      const Sheet& sheet, const IntakePlan& plan) {
  return Taking(catalogue, request, file, sheet, plan).take_all();
}

}  // namespace evet
