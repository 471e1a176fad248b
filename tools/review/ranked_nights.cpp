#include "tools/review/ranked_nights.h"

#include <optional>

#include "matcher/catalogue/calibration.h"

namespace evet::review {
namespace {

constexpr std::size_t kRecent = 8;

}  // namespace

std::string knowledge_of(const Statements& said, const Identities& who) {
  std::size_t seed = who.individuals.size();
  const auto mix = [&](std::size_t value) {
    seed ^= value + 0x9e3779b97f4a7c15U + (seed << 6) + (seed >> 2);
  };
  std::set<CaptureId> waiting;
  for (const CaptureState& capture : who.captures) {
    if (capture.individual)
      mix(std::hash<IndividualId>{}(*capture.individual));
    else if (capture.closed)
      mix(3);
    else
      waiting.insert(capture.id);
    for (const PhotoState& photo : capture.photos) mix(photo.usable ? 1 : 2);
  }
  for (const auto& [capture, people] : people_said(said, who, waiting)) {
    mix(people.disputed ? 1 : 2);
    for (const auto* words : {&people.different, &people.cannot_tell}) {
      mix(words->size());
      for (const SaidOfPair& one : *words)
        mix(std::hash<CaptureId>{}(one.other)), mix(std::hash<std::string>{}(one.by));
    }
  }
  return std::to_string(seed);
}

std::string settings_of(Catalogue& catalogue) {
  const CalibrationInForce own = calibration_in_force(catalogue);
  return " " + own.calibration_by.entry.value + " " + own.costs_by.entry.value;
}

RankedNights::RankedNights(std::filesystem::path folder, Env& env, int threads)
    : folder_(std::move(folder)), env_(&env), threads_(threads), thread_([this] { work(); }) {}

RankedNights::~RankedNights() {
  {
    const std::lock_guard lock(mutex_);
    stop_ = true;
  }
  woken_.notify_all();
  thread_.join();
}

void RankedNights::want(const std::string& night, const std::string& known) {
  const std::lock_guard lock(mutex_);
  const auto made = made_for_.find(night);
  if (made != made_for_.end() && made->second == known) return;
  for (Wish& wish : wishes_)
    if (wish.night == night) {
      wish.known = known;
      return;
    }
  // The night on view goes first.
  wishes_.push_front({night, known});
  woken_.notify_all();
}

std::shared_ptr<const RankedNight> RankedNights::of(const std::string& night) const {
  const std::lock_guard lock(mutex_);
  const auto at = nights_.find(night);
  return at == nights_.end() ? nullptr : at->second;
}

std::shared_ptr<const RankedNight> RankedNights::generation(int generation) const {
  const std::lock_guard lock(mutex_);
  for (const auto& one : recent_)
    if (one->generation == generation) return one;
  return nullptr;
}

RankingProgress RankedNights::progress(const std::string& night) const {
  const std::lock_guard lock(mutex_);
  const auto at = progress_.find(night);
  RankingProgress out = at == progress_.end() ? RankingProgress{} : at->second;
  for (const Wish& wish : wishes_) out.running = out.running || wish.night == night;
  return out;
}

std::shared_ptr<const RankedNight> RankedNights::rank(Catalogue& catalogue, PatternCache& kept,
                                                      const std::string& night) {
  RankRequest request;
  request.kept = &kept;
  request.night = night;
  request.threads = threads_;
  request.progress = [&](std::size_t done, std::size_t all) {
    const std::lock_guard lock(mutex_);
    progress_[night].done = done, progress_[night].all = all;
  };
  Ranking ranking = rank_unsettled(catalogue, request);
  auto out = std::make_shared<RankedNight>();
  out->held = hold_back(catalogue, ranking);
  out->night = night, out->search = ranking.search, out->people = ranking.people;
  for (const RankedCapture& ranked : ranking.captures) {
    out->evidence.emplace(ranked.capture, evidence_of(ranked, ranking.gallery));
    out->captures.emplace(ranked.capture, ranked);
  }
  const std::lock_guard lock(mutex_);
  out->generation = ++generations_;
  return out;
}

void RankedNights::work() {
  std::optional<Catalogue> catalogue;
  PatternCache kept;
  while (true) {
    Wish wish;
    {
      std::unique_lock lock(mutex_);
      woken_.wait(lock, [&] { return stop_ || !wishes_.empty(); });
      if (stop_) return;
      wish = wishes_.front();
      wishes_.pop_front();
      made_for_[wish.night] = wish.known;
      progress_[wish.night] = {.running = true};
    }
    std::shared_ptr<const RankedNight> ranked;
    std::string failed;
    try {
      if (!catalogue) catalogue = Catalogue::open(folder_, *env_);
      ranked = rank(*catalogue, kept, wish.night);
    } catch (const std::exception& error) {
      failed = error.what();  // shown on the page; the verdicts go on without a ranking
    }
    const std::lock_guard lock(mutex_);
    progress_[wish.night].running = false;
    progress_[wish.night].failed = failed;
    if (!ranked) continue;
    nights_[wish.night] = ranked;
    recent_.push_back(ranked);
    if (recent_.size() > kRecent) recent_.pop_front();
  }
}

}  // namespace evet::review
