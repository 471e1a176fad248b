#include <algorithm>
#include <map>

#include "matcher/base/error.h"
#include "matcher/catalogue/messages.h"
#include "tools/review/capture_words.h"
#include "tools/review/views/queue_words.h"
#include "tools/review/views/views.h"
#include "tools/words/items.h"
#include "tools/words/look_reasons.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostCandidates = 12;

struct Laid {  // a candidate on the table
  const Individual* individual = nullptr;
  CaptureId capture;
  PhotoId photo, query_photo;
  double probability = -1;  // below 0: not ranked
  int matched_spots = -1;
  nlohmann::json ruled_out = nlohmann::json::array();  // by whom and when it was said to be different
};

// The reader's own newest word on each pair, and on "new".
struct OwnWords {
  std::map<CaptureId, std::pair<std::string, EntryId>> on_pair;
  std::pair<std::string, EntryId> on_new;
  bool any() const { return !on_pair.empty() || !on_new.first.empty(); }
};

OwnWords own_words(const Statements& said, const Identities& who, const CaptureId& capture,
                   const std::string& reader) {
  OwnWords out;
  for (const auto& verdict : said.verdicts) {
    if (verdict.stamp.actor.kind != ActorKind::person || verdict.stamp.actor.name != reader) continue;
    const bool here = verdict.what.capture == capture, there = verdict.what.other == capture;
    if (!here && !there) continue;
    if (!who.in_force(verdict.stamp.id)) continue;
    const std::pair<std::string, EntryId> word{name(verdict.what.answer), verdict.stamp.id};
    if (verdict.what.other.empty())
      out.on_new = std::max(out.on_new, word, [](auto& a, auto& b) { return a.second < b.second; });
    else {
      auto& kept = out.on_pair[here ? verdict.what.other : verdict.what.capture];
      if (kept.second < word.second) kept = word;
    }
  }
  return out;
}

// They lie last, so that what was said can be looked at again.
std::vector<Laid> ruled_out_of(const PeopleSaid& people, const Identities& who) {
  std::vector<Laid> out;
  for (const SaidOfPair& one : people.different) {
    const auto photo = best_photo(*who.capture(one.other));
    if (one.individual.empty() || !photo) continue;
    auto at =
        std::find_if(out.begin(), out.end(), [&](const Laid& laid) { return laid.capture == one.other; });
    if (at == out.end()) at = out.insert(at, {who.individual(one.individual), one.other, *photo, {}, -1, -1});
    at->ruled_out.push_back({{"by", one.by}, {"on", one.on}});
  }
  return out;
}

std::vector<Laid> laid_out(const CaptureState& capture, const Statements& said, const Identities& who,
                           const RankedNight* ranked, double* new_probability, std::string* advice) {
  std::vector<Laid> out;
  if (capture.individual) {
    const Individual& own = *who.individual(*capture.individual);
    for (const CaptureId& id : own.captures) {
      if (id == capture.id) continue;
      if (const auto photo = best_photo(*who.capture(id))) out.push_back({&own, id, *photo, {}, -1, -1});
    }
    std::reverse(out.begin(), out.end());  // the latest is most alike
    return out;
  }
  if (ranked == nullptr) return out;
  const auto at = ranked->captures.find(capture.id);
  if (at == ranked->captures.end()) return out;
  *new_probability = at->second.new_probability;
  *advice = name(at->second.advice);
  const auto people = people_said(said, who, {capture.id});
  const PeopleSaid& words = people.at(capture.id);
  const std::set<IndividualId> ruled_out = words.ruled_out();
  for (const Shown& shown : ranked->evidence.at(capture.id).shown) {
    if (out.size() == kMostCandidates) break;
    const CaptureState* other = who.capture(shown.capture);
    if (other == nullptr || !other->individual) continue;  // split since
    if (ruled_out.contains(*other->individual)) continue;
    out.push_back({who.individual(*other->individual), other->id, shown.photo, shown.query_photo,
                   shown.probability, shown.matched_spots});
  }
  for (Laid& laid : ruled_out_of(words, who)) out.push_back(std::move(laid));
  return out;
}

// Other captures of the night that may show the same animal, new to the catalogue, and are as open as it is.
nlohmann::json night_matches_json(const CaptureState& capture, const Identities& who,
                                  const RankedNight* ranked) {
  nlohmann::json list = nlohmann::json::array();
  if (capture.individual || ranked == nullptr) return list;
  const auto at = ranked->captures.find(capture.id);
  if (at == ranked->captures.end()) return list;
  for (const NightMatch& match : at->second.night_matches) {
    const CaptureState* other = who.capture(match.capture);
    if (match.probability < kLeastMatchSaid || other == nullptr || other->individual) continue;
    list.push_back({{"capture", match.capture.value},
                    {"name", display_name(other->facts)},
                    {"probability", match.probability}});
  }
  return list;
}

nlohmann::json reasons_of(const RankedNight& night, const CaptureState& capture, const Identities& who) {
  const auto at = night.captures.find(capture.id);
  return at == night.captures.end() ? nlohmann::json::array()
                                    : nlohmann::json(why(night, at->second, capture, who));
}

nlohmann::json captures_json(const Individual& individual, const CaptureId& but, const Identities& who) {
  nlohmann::json list = nlohmann::json::array();
  for (const CaptureId& id : individual.captures) {
    if (id == but) continue;
    const CaptureState& state = *who.capture(id);
    nlohmann::json photos = nlohmann::json::array();
    for (const PhotoState& photo : state.photos)
      if (photo.usable) photos.push_back(photo.photo.value);
    if (!photos.empty()) list.push_back({{"capture", id.value}, {"photos", photos}});
  }
  return list;
}

// One individual beside the capture; what the sheets say only to who has judged, or where nobody needs to.
nlohmann::json candidate_json(const Laid& laid, const CaptureState& capture, const Identities& who,
                              const OwnWords& mine, bool judged) {
  nlohmann::json json = {
      {"individual", laid.individual->name},   {"individual_id", laid.individual->id.value},
      {"capture", laid.capture.value},         {"photo", laid.photo.value},
      {"query_photo", laid.query_photo.value}, {"captures", captures_json(*laid.individual, capture.id, who)},
      {"ruled_out", laid.ruled_out},           {"mine", nullptr}};
  if (laid.probability >= 0)
    json["probability"] = laid.probability, json["matched_spots"] = laid.matched_spots;
  if (const auto word = mine.on_pair.find(laid.capture); word != mine.on_pair.end())
    json["mine"] = word->second.first;
  if (judged) {
    const CaptureFacts& other = who.capture(laid.capture)->facts;
    const bool before = other.night <= capture.facts.night;
    json["facts"] = facts_json(other);
    json["misfits"] = before ? misfits(other, capture.facts) : misfits(capture.facts, other);
  }
  return json;
}

}  // namespace

nlohmann::json capture_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const CaptureId id = call.capture_at(2);
  const std::int64_t position = newest_position(catalogue);
  const std::string settings = settings_of(catalogue);
  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  const CaptureState* found = who.capture(id);
  if (found == nullptr)
    throw Error(ErrorKind::not_found, capture_item(id.value), messages::kIsNotInCatalogue);
  const CaptureState capture = *found;
  call.desk.ranked.want(capture.facts.night, knowledge_of(said, who) + settings);
  const auto ranked = call.desk.ranked.of(capture.facts.night);
  const OwnWords mine = own_words(said, who, capture.id, call.reader);
  const bool judged = mine.any() || (capture.individual && !capture.disputed);

  double new_probability = -1;
  std::string advice;
  nlohmann::json candidates = nlohmann::json::array();
  for (const Laid& laid : laid_out(capture, said, who, ranked.get(), &new_probability, &advice)) {
    candidates.push_back(candidate_json(laid, capture, who, mine, judged));
  }
  nlohmann::json out = {
      {"capture", capture.id.value},
      {"name", display_name(capture.facts)},
      {"night", capture.facts.night},
      {"candidates", candidates},
      {"twins", night_matches_json(capture, who, ranked.get())},
      {"new_probability", new_probability >= 0 ? nlohmann::json(new_probability) : nlohmann::json()},
      {"advice", advice},
      {"why", ranked && !capture.individual ? reasons_of(*ranked, capture, who) : nlohmann::json::array()},
      {"closed", capture.closed ? nlohmann::json(words(capture.closed->as)) : nlohmann::json()},
      {"ranked", capture.individual || capture.closed || !advice.empty()},
      {"generation", ranked ? ranked->generation : 0},
      {"settled", capture.individual && !capture.disputed
                      ? nlohmann::json(who.individual(*capture.individual)->name)
                      : nlohmann::json()},
      {"disputed", capture.disputed},
      {"mine_new", mine.on_new.first.empty() ? nlohmann::json() : nlohmann::json(mine.on_new.first)},
      {"facts", judged ? facts_json(capture.facts) : nlohmann::json()},
      {"position", position}};
  out["photos"] = photos_json(catalogue, capture, true);  // last: it may take in what others wrote
  return out;
}

}  // namespace evet::review
