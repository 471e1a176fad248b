#include "matcher/catalogue/gather.h"

#include <algorithm>
#include <tuple>

#include "matcher/catalogue/chains.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

bool agree(const CaptureFacts& a, const CaptureFacts& b) {
  return a.site == b.site && a.pond == b.pond && a.night == b.night &&
         (b.individual.empty() || a.individual == b.individual);
}

template <class What>
std::vector<const Said<What>*> in_force_by_id(const std::vector<Said<What>>& list,
                                              const Retractions& retractions) {
  std::vector<const Said<What>*> kept;
  for (const auto& said : list)
    if (!retractions.retracts(said.stamp.id)) kept.push_back(&said);
  std::sort(kept.begin(), kept.end(), [](const auto* a, const auto* b) { return a->stamp.id < b->stamp.id; });
  return kept;
}

using Taken = std::vector<const Said<Capture>*>;     // the captures, by id
using PlaceOf = std::unordered_map<CaptureId, int>;  // in that list

// A capture is taken in once; of several entries that claim to, the one with the smallest id has.
Taken taken_in_once(const Statements& statements, const Retractions& retractions, Gathered& gathered) {
  Taken said = in_force_by_id(statements.captures, retractions);
  std::stable_sort(said.begin(), said.end(),
                   [](const auto* a, const auto* b) { return a->what.id < b->what.id; });
  const auto again = [&](const Said<Capture>* one, const Said<Capture>* other) {
    if (one->what.id != other->what.id) return false;
    gathered.set_aside.push_back({other->stamp.id, Message(messages::kCaptureTakenInBefore).words()});
    return true;
  };
  said.erase(std::unique(said.begin(), said.end(), again), said.end());
  return said;
}

std::vector<CaptureFacts> corrected_facts(const Taken& said, const PlaceOf& place,
                                          const Statements& statements, const Retractions& retractions) {
  std::vector<CaptureFacts> facts;
  facts.reserve(said.size());
  for (const auto* capture : said) facts.push_back(capture->what.facts);
  for (const auto* correction : in_force_by_id(statements.corrections, retractions))
    if (const auto at = place.find(correction->what.capture); at != place.end()) {
      CaptureFacts& of = facts[static_cast<size_t>(at->second)];
      of = corrected(of, correction->what);
    }
  return facts;
}

// Captures that share a photo. What one of them knows of the animal holds for all.
Joins join_twins(const std::vector<const Said<PhotoSaid>*>& photos, const PlaceOf& place,
                 std::vector<CaptureFacts>& facts) {
  const int count = static_cast<int>(facts.size());
  std::unordered_map<PhotoId, int> capture_with;
  Joins twins(count);
  for (const auto* photo : photos)
    if (const auto at = place.find(photo->what.capture); at != place.end()) {
      const auto [first, is_first] = capture_with.emplace(photo->what.photo, at->second);
      if (!is_first) twins.join(first->second, at->second);
    }
  for (int i = 0; i < count; ++i) {  // in order of id
    if (twins.root(i) == i) continue;
    CaptureFacts& of = facts[static_cast<size_t>(twins.root(i))];
    if (of.individual.empty()) of.individual = facts[static_cast<size_t>(i)].individual;
    of.lost = of.lost || facts[static_cast<size_t>(i)].lost;
  }
  return twins;
}

// Those that stand for themselves and their twins, in order of night.
void add_captures(const Taken& said, const std::vector<CaptureFacts>& facts, Joins& twins,
                  Gathered& gathered) {
  const int count = static_cast<int>(said.size());
  std::vector<int> order;
  for (int i = 0; i < count; ++i)
    if (twins.root(i) == i) order.push_back(i);
  std::sort(order.begin(), order.end(), [&](int a, int b) {
    const std::string &x = facts[static_cast<size_t>(a)].night, &y = facts[static_cast<size_t>(b)].night;
    return x != y ? x < y : a < b;
  });
  std::vector<int> place(said.size());
  for (const int i : order) {
    place[static_cast<size_t>(i)] = static_cast<int>(gathered.captures.size());
    GatheredCapture capture;
    capture.state.id = said[static_cast<size_t>(i)]->what.id;
    capture.state.facts = facts[static_cast<size_t>(i)];
    capture.stamp = said[static_cast<size_t>(i)]->stamp;
    gathered.captures.push_back(std::move(capture));
  }
  for (int i = 0; i < count; ++i) {
    const int at = place[static_cast<size_t>(twins.root(i))];
    gathered.index_of[said[static_cast<size_t>(i)]->what.id] = at;
    if (twins.root(i) == i) continue;
    CaptureState& state = gathered.captures[static_cast<size_t>(at)].state;
    const CaptureId& twin = said[static_cast<size_t>(i)]->what.id;
    state.twins.push_back(twin);
    if (const CaptureFacts& other = facts[static_cast<size_t>(i)]; !agree(state.facts, other))
      state.said_otherwise.push_back({twin, other.site, other.pond, other.night, other.individual});
  }
}

void add_closings(const Statements& statements, const Retractions& retractions, Gathered& gathered) {
  for (const auto* closing : in_force_by_id(statements.closings, retractions))  // the newest counts
    if (const auto at = gathered.index_of.find(closing->what.capture); at != gathered.index_of.end())
      gathered.captures[static_cast<size_t>(at->second)].state.closed =
          ClosedState{closing->what.as, closing->what.other, closing->stamp.id, closing->stamp.actor.name,
                      closing->stamp.time.substr(0, 10)};
}

// Each picture once a capture, by name; usable as the newest examination has it.
void add_photos(const std::vector<const Said<PhotoSaid>*>& photos, const Statements& statements,
                const Retractions& retractions, Gathered& gathered) {
  std::unordered_map<PhotoId, bool> usable;
  for (const auto* examined : in_force_by_id(statements.examinations, retractions))
    usable[examined->what.photo] = examined->what.usable;
  for (const auto* photo : photos) {
    const auto at = gathered.index_of.find(photo->what.capture);
    if (at == gathered.index_of.end()) continue;
    auto& list = gathered.captures[static_cast<size_t>(at->second)].state.photos;
    const auto same_bytes = [&](const PhotoState& other) { return other.photo == photo->what.photo; };
    if (std::any_of(list.begin(), list.end(), same_bytes)) continue;
    const auto newer = usable.find(photo->what.photo);
    list.push_back(
        {photo->what.photo, photo->what.name, newer == usable.end() ? photo->what.usable : newer->second});
  }
  for (GatheredCapture& capture : gathered.captures)
    std::sort(capture.state.photos.begin(), capture.state.photos.end(),
              [](const PhotoState& a, const PhotoState& b) {
                return std::tie(a.name, a.photo) < std::tie(b.name, b.photo);
              });
}

}  // namespace

Gathered gather(const Statements& statements, const Retractions& retractions) {
  Gathered gathered;
  const Taken said = taken_in_once(statements, retractions, gathered);
  PlaceOf place;
  for (size_t i = 0; i < said.size(); ++i) place.emplace(said[i]->what.id, static_cast<int>(i));
  std::vector<CaptureFacts> facts = corrected_facts(said, place, statements, retractions);
  const auto photos = in_force_by_id(statements.photos, retractions);
  Joins twins = join_twins(photos, place, facts);
  add_captures(said, facts, twins, gathered);
  add_closings(statements, retractions, gathered);
  add_photos(photos, statements, retractions, gathered);
  return gathered;
}

}  // namespace evet
