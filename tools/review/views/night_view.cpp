#include <algorithm>
#include <map>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "matcher/base/place.h"
#include "tools/review/capture_words.h"
#include "tools/review/views/queue_words.h"
#include "tools/review/views/views.h"
#include "tools/words/costs_words.h"
#include "tools/words/text.h"

namespace evet::review {
nlohmann::json night_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const nlohmann::json steps = steps_back(catalogue, call.reader);
  const std::int64_t position = newest_position(catalogue);
  const std::string settings = settings_of(catalogue);
  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  std::string night = call.target.path.size() > 2 ? call.part(2) : std::string();
  if (!night.empty() && !is_date(night))
    throw Error(ErrorKind::bad_input, "night " + evet::quoted(night), "it is not a date",
                "write it as 2031-05-14");
  if (night.empty() && !who.captures.empty()) night = who.captures.back().facts.night;
  call.desk.ranked.want(night, knowledge_of(said, who) + settings);
  const auto ranked = call.desk.ranked.of(night);
  const RankingProgress progress = call.desk.ranked.progress(night);

  std::set<CaptureId> tonight;
  for (const CaptureState& capture : who.captures)
    if (capture.facts.night == night) {
      tonight.insert(capture.id);
      tonight.insert(capture.twins.begin(), capture.twins.end());
    }
  std::map<CaptureId, std::string> readers;  // newest verdict last
  std::set<CaptureId> open_by_reader;        // looked at by this reader, who could not tell
  const auto is_out = [&](const EntryId& id) {
    return std::binary_search(who.out_of_force.begin(), who.out_of_force.end(), id);
  };
  for (const auto& verdict : said.verdicts) {
    if (!tonight.contains(verdict.what.capture) && !tonight.contains(verdict.what.other)) continue;
    if (verdict.stamp.actor.kind != ActorKind::person || verdict.what.planted || is_out(verdict.stamp.id))
      continue;
    if (verdict.what.answer == Answer::cannot_tell) {
      if (verdict.stamp.actor.name == call.reader) open_by_reader.insert(verdict.what.capture);
    } else if (verdict.what.answer != Answer::different) {
      readers[verdict.what.capture] = verdict.stamp.actor.name;
      if (!verdict.what.other.empty()) readers.emplace(verdict.what.other, verdict.stamp.actor.name);
    }
  }

  struct Waiting {
    double worth;
    nlohmann::json json;
  };
  std::vector<Waiting> waiting;
  std::vector<const CaptureState*> unusable_captures;
  nlohmann::json settled = nlohmann::json::array();
  std::set<std::string> places;
  std::size_t captures = 0, photos = 0, photos_unusable = 0, again = 0, fresh = 0, sure = 0;
  for (const CaptureState& capture : who.captures) {
    if (capture.facts.night != night) continue;
    ++captures, photos += capture.photos.size();
    for (const PhotoState& photo : capture.photos) photos_unusable += photo.usable ? 0 : 1;
    places.insert(place_of(capture.facts.site, capture.facts.pond));
    const auto strip = best_photo(capture);
    nlohmann::json json = {{"capture", capture.id.value},
                           {"name", display_name(capture.facts)},
                           {"strip", strip ? nlohmann::json(strip->value) : nlohmann::json()}};
    if (capture.individual && !capture.disputed) {
      const Individual& individual = *who.individual(*capture.individual);
      const bool first = individual.captures.front() == capture.id;
      ++(first ? fresh : again);
      json["outcome"] = first ? "new" : "caught again";
      json["individual"] = individual.name;
      json["individual_id"] = individual.id.value;
      json["by"] = settled_by(capture, readers);
      settled.push_back(std::move(json));
      continue;
    }
    if (!capture.usable() && !capture.disputed) {
      unusable_captures.push_back(&capture);
      continue;
    }
    json["open"] = open_by_reader.contains(capture.id);
    const auto at = ranked ? ranked->captures.find(capture.id) : decltype(ranked->captures.end()){};
    const bool known = ranked && at != ranked->captures.end();
    double worth = capture.disputed ? 100 : 50;
    if (known) {
      if (!capture.disputed) worth = at->second.gain;
      json["why"] = why(at->second, ranked->people.at(capture.id), ranked->search, capture, who);
      json["advice"] = name(at->second.advice);
      sure += at->second.advice != Advice::look && !capture.disputed ? 1 : 0;
    } else {
      json["why"] = {capture.disputed ? "readers contradict each other" : "not ranked yet"};
      json["advice"] = nullptr;
    }
    if (json["open"]) worth -= 1000;  // last, but not lost
    waiting.push_back({worth, std::move(json)});
  }
  std::stable_sort(waiting.begin(), waiting.end(),
                   [](const Waiting& a, const Waiting& b) { return a.worth > b.worth; });
  nlohmann::json queue = nlohmann::json::array();
  for (Waiting& one : waiting) queue.push_back(std::move(one.json));

  std::vector<CaptureState> copies;  // reading notes may take in what others wrote: `who` ends here
  copies.reserve(unusable_captures.size());
  for (const CaptureState* capture : unusable_captures) copies.push_back(*capture);
  nlohmann::json unusable = nlohmann::json::array();
  for (const CaptureState& capture : copies)
    unusable.push_back({{"capture", capture.id.value},
                        {"name", display_name(capture.facts)},
                        {"photos", photos_json(catalogue, capture, true)}});

  return {{"night", night},
          {"places", places},
          {"glance",
           {{"captures", captures},
            {"photos", photos},
            {"photos_unusable", photos_unusable},
            {"caught_again", again},
            {"new", fresh},
            {"to_look", queue.size()},
            {"of_these_sure", sure},
            {"unusable", unusable.size()}}},
          {"queue", queue},
          {"settled", settled},
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
