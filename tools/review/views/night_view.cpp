#include <algorithm>
#include <map>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/place.h"
#include "tools/report/messages.h"
#include "tools/review/capture_words.h"
#include "tools/review/messages.h"
#include "tools/review/views/queue_words.h"
#include "tools/review/views/views.h"
#include "tools/words/costs_words.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

std::string night_asked_for(const Call& call, const Identities& who) {
  std::string night = call.target.path.size() > 2 ? call.part(2) : std::string();
  if (!night.empty() && !is_date(night))
    throw Error(ErrorKind::bad_input, night_item(in_quotes(night)), messages::kIsNotDateReview,
                messages::kWriteIsoDate);
  if (night.empty() && !who.captures.empty()) night = who.captures.back().facts.night;
  return night;
}

// What people have said of a night's captures.
struct Heard {
  std::map<CaptureId, std::string> readers;  // who gave the newest verdict
  std::set<CaptureId> open_by_reader;        // looked at by this reader, who could not tell
};
Heard heard_of(const std::string& night, const std::string& reader, const Statements& said,
               const Identities& who) {
  std::set<CaptureId> tonight;
  for (const CaptureState& capture : who.captures)
    if (capture.facts.night == night) {
      tonight.insert(capture.id);
      tonight.insert(capture.twins.begin(), capture.twins.end());
    }
  Heard heard;
  for (const auto& verdict : said.verdicts) {  // newest last
    if (!tonight.contains(verdict.what.capture) && !tonight.contains(verdict.what.other)) continue;
    if (verdict.stamp.actor.kind != ActorKind::person || verdict.what.planted ||
        !who.in_force(verdict.stamp.id))
      continue;
    if (verdict.what.answer == Answer::cannot_tell) {
      if (verdict.stamp.actor.name == reader) heard.open_by_reader.insert(verdict.what.capture);
    } else if (verdict.what.answer != Answer::different) {
      heard.readers[verdict.what.capture] = verdict.stamp.actor.name;
      if (!verdict.what.other.empty()) heard.readers.emplace(verdict.what.other, verdict.stamp.actor.name);
    }
  }
  return heard;
}

// A night's captures, each in the list that it belongs to.
class NightLists {
 public:
  NightLists(const Identities& who, const Heard& heard, const RankedNight* ranked)
      : who_(who), heard_(heard), ranked_(ranked) {}

  void add(const CaptureState& capture) {
    ++captures, photos += capture.photos.size();
    for (const PhotoState& photo : capture.photos) photos_unusable += photo.usable ? 0 : 1;
    places.insert(place_of(capture.facts.site, capture.facts.pond));
    if (capture.individual && !capture.disputed)
      add_settled(capture);
    else if (capture.closed)
      add_closed(capture);
    else if (!capture.usable() && !capture.disputed)
      unusable.push_back(capture);
    else
      add_waiting(capture);
  }

  // Best to look at first.
  nlohmann::json queue() {
    std::stable_sort(waiting_.begin(), waiting_.end(),
                     [](const Waiting& a, const Waiting& b) { return a.worth > b.worth; });
    nlohmann::json list = nlohmann::json::array();
    for (Waiting& one : waiting_) list.push_back(std::move(one.json));
    return list;
  }

  std::set<std::string> places;
  std::size_t captures = 0, photos = 0, photos_unusable = 0, again = 0, fresh = 0, sure = 0;
  nlohmann::json settled = nlohmann::json::array(), closed = nlohmann::json::array();
  std::vector<CaptureState> unusable;  // copies: reading their notes may take in what others wrote

 private:
  struct Waiting {
    double worth;
    nlohmann::json json;
  };

  static nlohmann::json shown(const CaptureState& capture) {
    const auto strip = best_photo(capture);
    return {{"capture", capture.id.value},
            {"name", display_name(capture.facts)},
            {"strip", strip ? nlohmann::json(strip->value) : nlohmann::json()}};
  }

  void add_settled(const CaptureState& capture) {
    const Individual& individual = *who_.individual(*capture.individual);
    const bool first = individual.captures.front() == capture.id;
    ++(first ? fresh : again);
    nlohmann::json json = shown(capture);
    json["outcome"] = in_words(first ? messages::kTileNew : messages::kTileAgain);
    json["individual"] = individual.name;
    json["individual_id"] = individual.id.value;
    json["by"] = settled_by(capture, heard_.readers);
    settled.push_back(std::move(json));
  }

  void add_closed(const CaptureState& capture) {
    nlohmann::json json = shown(capture);
    json["as"] = words(capture.closed->as);
    json["by"] = capture.closed->by;
    if (const CaptureState* other = who_.capture(capture.closed->other))
      json["other"] = display_name(other->facts);
    closed.push_back(std::move(json));
  }

  // The likeliest individual, to be seen beside the capture; null where there is none.
  nlohmann::json match_of(const RankedCapture& known) const {
    const auto at = ranked_->evidence.find(known.capture);
    if (at == ranked_->evidence.end() || at->second.shown.empty()) return nullptr;
    const Shown& best = at->second.shown.front();
    const CaptureState* other = who_.capture(best.capture);
    if (other == nullptr || !other->individual) return nullptr;  // split since
    return {{"individual", who_.individual(*other->individual)->name},
            {"strip", best.photo.value},
            {"probability", best.probability}};
  }

  void add_waiting(const CaptureState& capture) {
    nlohmann::json json = shown(capture);
    const bool open = heard_.open_by_reader.contains(capture.id);
    json["open"] = open;
    double worth = capture.disputed ? 100 : 50;
    const auto* const known = ranked_ == nullptr ? nullptr : ranked_of(capture.id);
    if (known != nullptr) {
      if (!capture.disputed) worth = known->gain;
      json["why"] = why(*ranked_, *known, capture, who_);
      json["advice"] = name(known->advice);
      json["match"] = match_of(*known);
      json["new_probability"] = known->new_probability;
      sure += known->advice != Advice::look && !capture.disputed ? 1 : 0;
    } else {
      json["why"] = {in_words(capture.disputed ? messages::kReadersContradict : messages::kNotRankedYet)};
      json["advice"] = nullptr;
    }
    if (open) worth -= 1000;  // last, but not lost
    waiting_.push_back({worth, std::move(json)});
  }

  const RankedCapture* ranked_of(const CaptureId& id) const {
    const auto at = ranked_->captures.find(id);
    return at == ranked_->captures.end() ? nullptr : &at->second;
  }

  const Identities& who_;
  const Heard& heard_;
  const RankedNight* ranked_;  // null while there is none
  std::vector<Waiting> waiting_;
};

// The first night after this one that has something open, else the first of all; null when none has.
nlohmann::json next_open(const Identities& who, const std::string& night) {
  std::string first, after;
  for (const CaptureState& capture : who.captures) {
    const bool open = (!capture.individual && !capture.closed) || capture.disputed;
    if (!open || capture.facts.night == night) continue;
    if (first.empty() || capture.facts.night < first) first = capture.facts.night;
    if (capture.facts.night > night && (after.empty() || capture.facts.night < after))
      after = capture.facts.night;
  }
  const std::string& next = after.empty() ? first : after;
  return next.empty() ? nlohmann::json() : nlohmann::json(next);
}

nlohmann::json unusable_json(Catalogue& catalogue, const std::vector<CaptureState>& captures) {
  nlohmann::json list = nlohmann::json::array();
  for (const CaptureState& capture : captures)
    list.push_back({{"capture", capture.id.value},
                    {"name", display_name(capture.facts)},
                    {"photos", photos_json(catalogue, capture, true)}});
  return list;
}

}  // namespace

nlohmann::json night_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const nlohmann::json steps = steps_back(catalogue, call.reader);
  const std::int64_t position = newest_position(catalogue);
  const std::string settings = settings_of(catalogue);
  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  const std::string night = night_asked_for(call, who);
  call.desk.ranked.want(night, knowledge_of(said, who) + settings);
  const auto ranked = call.desk.ranked.of(night);
  const RankingProgress progress = call.desk.ranked.progress(night);

  const Heard heard = heard_of(night, call.reader, said, who);
  NightLists lists(who, heard, ranked.get());
  for (const CaptureState& capture : who.captures)
    if (capture.facts.night == night) lists.add(capture);
  const nlohmann::json queue = lists.queue(), next = next_open(who, night);
  const nlohmann::json unusable = unusable_json(catalogue, lists.unusable);  // `who` ends here

  return {{"night", night},
          {"places", lists.places},
          {"glance",
           {{"captures", lists.captures},
            {"photos", lists.photos},
            {"photos_unusable", lists.photos_unusable},
            {"caught_again", lists.again},
            {"new", lists.fresh},
            {"to_look", queue.size()},
            {"of_these_sure", lists.sure},
            {"unusable", unusable.size()},
            {"closed", lists.closed.size()}}},
          {"queue", queue},
          {"settled", lists.settled},
          {"closed", lists.closed},
          {"next_open", next},
          {"unusable", unusable},
          {"generation", ranked ? ranked->generation : 0},
          {"costs", ranked ? nlohmann::json(in_words(costs_of(ranked->search))) : nlohmann::json()},
          {"ranking",
           {{"running", progress.running},
            {"done", progress.done},
            {"all", progress.all},
            {"failed", progress.failed}}},
          {"undo", steps["undo"]},
          {"redo", steps["redo"]},
          {"position", position}};
}

}  // namespace evet::review
