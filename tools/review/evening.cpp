#include "tools/review/evening.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/base/place.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/encode.h"
#include "tools/intake/intake_night.h"
#include "tools/intake/messages.h"
#include "tools/report/messages.h"
#include "tools/review/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

struct Stopped {};

constexpr std::chrono::milliseconds kWatchPause{1500};

std::int64_t position_of(const Catalogue& catalogue) {
  const auto newest = catalogue.ledger({.limit = 1, .newest_first = true});
  return newest.empty() ? 0 : newest.front().position;
}

}  // namespace

Evening::Evening(const std::filesystem::path& catalogue, Env& env, int threads)
    : catalogue_(catalogue),
      env_(env),
      threads_(threads),
      folder_(catalogue, env),
      judging_([this] { judge_all(); }),
      watched_(
          catalogue / "incoming" / "drop", env,
          [this](BytesView bytes, const std::string& name) { take_whole(bytes, name, 0); }, kWatchPause) {}

Evening::~Evening() {
  {
    const std::lock_guard lock(mutex_);
    stop_ = true;
  }
  woken_.notify_all();
  judging_.join();
  if (taker_.joinable()) taker_.join();
}

void Evening::refuse_while_taking() const {
  if (taking_.running)
    throw Error(ErrorKind::conflict, in_words(messages::kTheEvening), messages::kIsBeingTakenIn,
                messages::kWaitUntilIsDone);
}

nlohmann::json Evening::take_piece(const Piece& piece, std::string_view bytes) {
  if (piece.size == 0 || piece.size > kMostPhotoBytes)
    throw Error(
        piece.size == 0 ? ErrorKind::bad_input : ErrorKind::too_large, photo_item(in_quotes(piece.name)),
        piece.size == 0
            ? Message(messages::kPhotoIsEmpty)
            : Message(messages::kPhotoIsLarger, {{"megabytes", std::to_string(kMostPhotoBytes >> 20)}}),
        piece.size == 0 ? messages::kWasItCopiedWhole : messages::kTakeInByCommand);
  safe_photo_name(piece.name);
  std::string whole;
  {
    const std::lock_guard lock(mutex_);
    refuse_while_taking();
    auto at = std::find_if(on_the_way_.begin(), on_the_way_.end(), [&](const OnTheWay& one) {
      return one.upload == piece.upload && one.name == piece.name && one.size == piece.size;
    });
    if (at == on_the_way_.end())
      on_the_way_.push_front({piece.upload, piece.name, piece.size, {}});
    else
      on_the_way_.splice(on_the_way_.begin(), on_the_way_, at);
    OnTheWay& mine = on_the_way_.front();
    if (piece.at == 0) mine.bytes.clear();
    if (piece.at != mine.bytes.size() || bytes.empty() || bytes.size() > mine.size - mine.bytes.size())
      return {{"have", mine.bytes.size()}};
    mine.bytes.append(bytes);
    // What has waited longest goes: its sender begins again.
    std::size_t all = 0;
    for (auto one = on_the_way_.begin(); one != on_the_way_.end();) {
      all += one->bytes.size();
      one = all > kMostOnTheWay && one != on_the_way_.begin() ? on_the_way_.erase(one) : std::next(one);
    }
    if (mine.bytes.size() < mine.size) return {{"have", mine.bytes.size()}};
    whole = std::move(mine.bytes);
    on_the_way_.pop_front();
  }
  const Arrival arrival = take_whole(std::as_bytes(std::span(whole)), piece.name, piece.modified_ms);
  return {{"photo", arrival.name}, {"again", arrival.again}};
}

Arrival Evening::take_whole(BytesView bytes, const std::string& name, std::int64_t modified_ms) {
  const LookedAt looked_at = look_at_photo(bytes, name);
  const std::lock_guard lock(mutex_);
  refuse_while_taking();
  Arrival arrival = folder_.add(bytes, name, looked_at, modified_ms);
  woken_.notify_all();
  return arrival;
}

void Evening::watch() {
  make_folders_durably(env_, watched_.folder());
}

void Evening::change(const std::function<void(Draft&)>& act) {
  const std::lock_guard lock(mutex_);
  refuse_while_taking();
  folder_.change(act);
  woken_.notify_all();
}

void Evening::remove(const std::vector<std::string>& photos) {
  const std::lock_guard lock(mutex_);
  refuse_while_taking();
  folder_.remove(photos);
}

std::string Evening::sheet(Catalogue& catalogue, const std::string& reader) {
  const std::lock_guard lock(mutex_);
  const Draft& draft = folder_.draft();
  return sheet_of(draft, proposed_for(draft, catalogue, reader, today_text(env_))).csv;
}

std::string Evening::picture(const PhotoId& photo, int long_side_px) {
  const std::string name = photo.value + " " + std::to_string(long_side_px);
  {
    const std::lock_guard lock(pictures_mutex_);
    if (const std::string* kept = pictures_.find(name)) return *kept;
  }
  Bytes bytes;
  {
    const std::lock_guard lock(mutex_);
    const DraftPhoto* found = folder_.draft().photo(photo);
    if (found == nullptr)
      throw Error(ErrorKind::not_found, photo_item(photo.value), messages::kNotOfThisEvening);
    bytes = folder_.read(*found);
  }
  const Photo decoded =
      decode_photo(bytes, in_words(messages::kThePhoto), {.enough_long_side_px = long_side_px});
  cv::Mat3b small = decoded.bgr;
  const double factor = static_cast<double>(long_side_px) / std::max(small.rows, small.cols);
  if (factor < 1) cv::resize(decoded.bgr, small, {}, factor, factor, cv::INTER_AREA);
  const Bytes jpeg = encode_jpeg(small, 82);
  const std::lock_guard lock(pictures_mutex_);
  return pictures_.keep(name, {reinterpret_cast<const char*>(jpeg.data()), jpeg.size()});
}

// The newest first: that animal is still in the tray. Then who those are that were judged before.
std::optional<DraftPhoto> Evening::next_to_judge() {
  std::unique_lock lock(mutex_);
  for (;;) {
    if (stop_) return std::nullopt;
    if (!taking_.running) {
      const auto& photos = folder_.draft().photos;
      for (auto photo = photos.rbegin(); photo != photos.rend(); ++photo)
        if (!photo->left_out && !photo->judged) return *photo;
      for (auto photo = photos.rbegin(); photo != photos.rend(); ++photo)
        if (!photo->left_out && photo->usable && !tried_.contains(photo->id)) return *photo;
    }
    woken_.wait(lock);
  }
}

void Evening::judge_all() {
  std::optional<Catalogue> catalogue;
  while (const auto photo = next_to_judge()) {
    std::string failed;
    try {
      if (!catalogue) catalogue.emplace(Catalogue::open(catalogue_, env_));
      judge(*catalogue, *photo);
      continue;
    } catch (const Error& error) {
      failed = error.what();
    } catch (const std::exception&) {
      failed = in_words(messages::kCouldNotLookAtPhoto);
    }
    std::unique_lock lock(mutex_);
    tried_[photo->id] = true;
    if (photo->judged) continue;
    try {
      folder_.change([&](Draft& draft) {
        for (DraftPhoto& one : draft.photos)
          if (one.id == photo->id) one.judged = true, one.notes = {{"not_looked_at", failed, true}};
        ++draft.revision;
      });
    } catch (const Error&) {  // the disk: tried again after a while
      catalogue.reset();
      if (!stop_) woken_.wait_for(lock, std::chrono::seconds(5));
    }
  }
}

void Evening::judge(Catalogue& catalogue, const DraftPhoto& photo) {
  if (photo.judged)
    if (const auto pattern = catalogue.cache().pattern(photo.id, maker_of({})))
      return find_likely(catalogue, photo, *pattern);
  Bytes bytes;
  {
    const std::lock_guard lock(mutex_);
    const DraftPhoto* still = folder_.draft().photo(photo.id);
    if (still == nullptr) return;
    bytes = folder_.read(*still);
  }
  const Examined examined = examine_photo(bytes, photo_item(in_quotes(photo.name)), examine_options({}));
  const Examination examination = examination_of(examined, {});
  keep_in_cache(catalogue, photo.id, {}, examined);
  if (!photo.judged) {
    const std::lock_guard lock(mutex_);
    if (folder_.draft().photo(photo.id) == nullptr) return;
    folder_.change([&](Draft& draft) {
      for (DraftPhoto& one : draft.photos)
        if (one.id == photo.id)
          one.judged = true, one.usable = examination.usable, one.notes = examination.notes;
      ++draft.revision;
    });
  }
  if (examined.pattern && examination.usable)
    find_likely(catalogue, photo, *examined.pattern);
  else {
    const std::lock_guard lock(mutex_);
    tried_[photo.id] = true;
  }
}

void Evening::find_likely(Catalogue& catalogue, const DraftPhoto& photo, const Pattern& pattern) {
  const std::int64_t position = position_of(catalogue);
  if (!gallery_ || gallery_position_ != position) {
    gallery_.emplace(gallery_of(catalogue, {{}, {}, threads_, &kept_, nullptr}));
    gallery_position_ = position;
  }
  SheetFacts facts;
  {
    const std::lock_guard lock(mutex_);
    const Draft& draft = folder_.draft();
    const Proposed proposed = proposed_for(draft, catalogue, {}, today_text(env_));
    std::string key;
    for (const DraftCapture& capture : draft.captures)
      if (std::find(capture.photos.begin(), capture.photos.end(), photo.name) != capture.photos.end())
        key = capture.key;
    facts.site = place_of(cell_of(draft, proposed, key, "site"), cell_of(draft, proposed, key, "pond"));
    facts.night = cell_of(draft, proposed, key, "night");
  }
  Likely likely;
  if (gallery_->individuals > 0) {
    const RankedCapture ranked =
        gallery_->gallery.rank({catalogue.new_capture_id(), {{photo.id, pattern}}, facts});
    likely.new_probability = ranked.new_probability, likely.advice = name(ranked.advice);
    if (!ranked.candidates.empty()) {
      const Candidate& best = ranked.candidates.front();
      const Individual* who = catalogue.identities().individual(best.individual);
      likely.individual = who == nullptr ? std::string() : who->name;
      likely.capture = best.individual.value, likely.best_photo = best.best_photo.value;
      likely.probability = best.probability;
    }
  }
  const std::lock_guard lock(mutex_);
  likely_[photo.id] = std::move(likely);
  tried_[photo.id] = true;
}

void Evening::take_night(Catalogue& catalogue, const Actor& actor, const std::string& in_spite) {
  const std::lock_guard lock(mutex_);
  refuse_while_taking();
  const Draft& draft = folder_.draft();
  const Proposed proposed = proposed_for(draft, catalogue, actor.name, today_text(env_));
  const DraftSheet written = sheet_of(draft, proposed);
  if (written.rows.empty())
    throw Error(ErrorKind::bad_input, in_words(messages::kTheEvening), messages::kHasNoPhotoYet,
                messages::kDropPhotosOrSayNothing);
  const DraftCheck check = check_draft(draft, proposed, catalogue, env_);
  if (!check.faults.empty())
    throw Error(
        ErrorKind::bad_input, in_words(messages::kTheSheet),
        Message(messages::kMustBeMendedFirst, {{"faults", counted(check.faults.size(), messages::kCells)}}),
        bare(check.faults.front().sentence));
  if (!check.asks.empty() && in_spite.empty())
    throw Error(ErrorKind::conflict, in_words(messages::kTheSheet), bare(check.asks.front().sentence),
                messages::kSayWhyAllTheSame);
  IntakeRequest request;
  request.sheet = folder_.write_sheet(sheet_name(draft, proposed), written.csv);
  request.photos = folder_.photos();
  request.threads = threads_;
  request.actor = actor;
  request.in_spite = in_spite;
  if (taker_.joinable()) taker_.join();
  taking_ = {.running = true, .stage = in_words(messages::kCheckingPhotos), .failed = {}, .outcome = {}};
  taker_ = std::thread([this, request] { take(request); });
}

void Evening::take(const IntakeRequest& asked) {
  IntakeRequest request = asked;
  request.progress = [this](const std::string& stage, std::size_t done, std::size_t all) {
    const std::lock_guard lock(mutex_);
    if (stop_) throw Stopped();  // as a kill would: what is acknowledged stays, and the same call carries on
    taking_.stage = stage, taking_.done = done, taking_.all = all;
  };
  std::string failed;
  nlohmann::json summary;
  try {
    Catalogue catalogue = Catalogue::open(catalogue_, env_);
    std::vector<std::string> noticed;
    const IntakeOutcome outcome = intake_night(catalogue, request, env_);
    for (const SheetProblem& row : outcome.refused)
      failed += (failed.empty() ? "" : " ") + row.sentence() + ".";
    for (const Message& notice : outcome.noticed) noticed.push_back(notice.words());
    std::size_t unusable = 0;
    for (const TakenPhoto& photo : outcome.looked_at) unusable += photo.usable ? 0 : 1;
    summary = {{"nights", outcome.nights},
               {"places", outcome.places},
               {"captures", outcome.captures},
               {"photos", outcome.photos},
               {"photos_known", outcome.photos_known},
               {"unusable", unusable},
               {"noticed", noticed},
               {"sheet", request.sheet.string()}};
    if (!outcome.empty_nights.empty()) summary["nothing_caught"] = outcome.empty_nights.front().night;
    const std::lock_guard lock(mutex_);
    if (outcome.taken) folder_.forget_taken(catalogue);
  } catch (const Stopped&) {
    failed = in_words(messages::kProgramWasEnded);
  } catch (const Error& error) {
    failed = error.what();
  } catch (const std::exception&) {
    failed = in_words(messages::kProgramFailedAtNight);
  }
  const std::lock_guard lock(mutex_);
  taking_.running = false, taking_.failed = failed;
  taking_.outcome = failed.empty() ? summary : nlohmann::json();
  woken_.notify_all();
}

}  // namespace evet::review
