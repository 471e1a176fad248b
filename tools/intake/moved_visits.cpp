#include "tools/intake/moved_visits.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/place.h"
#include "matcher/catalogue/known_nights.h"
#include "tools/intake/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"

namespace evet {
namespace {

// Takes those visits out of an intake; whether it spoke of any. An intake that does not say where it was
// speaks of a date, and stands for it as long as anything was caught on that date anywhere.
bool take_out(const std::set<NightIntake::Visit>& visits, const std::set<std::string>& dates,
              NightIntake& night) {
  if (night.visits.empty())
    return std::erase_if(night.nights, [&](const std::string& date) { return dates.contains(date); }) > 0;
  if (std::erase_if(night.visits, [&](const auto& visit) { return visits.contains(visit); }) == 0)
    return false;
  std::erase_if(night.nights, [&](const std::string& date) {
    return std::none_of(night.visits.begin(), night.visits.end(),
                        [&](const NightIntake::Visit& visit) { return visit.night == date; });
  });
  // Without a visit it would read as one that does not say where it was.
  if (night.visits.empty()) night.nights.clear();
  return true;
}

}  // namespace

std::vector<Body> without_visits(Catalogue& catalogue, const std::set<NightIntake::Visit>& left,
                                 const std::set<CaptureId>& moving) {
  std::set<NightIntake::Visit> bare = left;
  std::set<std::string> bare_dates;
  for (const NightIntake::Visit& visit : left) bare_dates.insert(visit.night);
  const Identities who = catalogue.identities();  // a copy: reading the ledger comes after
  for (const CaptureState& capture : who.captures) {
    if (moving.contains(capture.id)) continue;
    bare.erase({capture.facts.site, capture.facts.pond, capture.facts.night});
    bare_dates.erase(capture.facts.night);
  }
  std::vector<Body> bodies;
  LedgerQuery nights_only;
  nights_only.kind = NightIntake::kKind;
  for (const ListedEntry& listed : catalogue.ledger(nights_only)) {
    if (!who.in_force(listed.entry.id)) continue;
    NightIntake night = std::get<NightIntake>(body_of(listed.entry));
    if (!take_out(bare, bare_dates, night)) continue;
    bodies.push_back(Withdrawal{listed.entry.id, in_words(messages::kCapturesWereMoved)});
    if (!night.nights.empty()) bodies.push_back(std::move(night));
  }
  return bodies;
}

std::vector<Body> facts_that_follow(Catalogue& catalogue,
                                    const std::map<NightIntake::Visit, std::set<NightIntake::Visit>>& went,
                                    const std::set<CaptureId>& moving) {
  const std::string why = in_words(messages::kCapturesWereMoved);
  const Identities who = catalogue.identities();
  std::vector<Body> bodies;
  for (const auto& [from, to] : went) {
    const auto stays_there = [&moving, &from = from](const CaptureState& one) {
      return !moving.contains(one.id) &&
             NightIntake::Visit{one.facts.site, one.facts.pond, one.facts.night} == from;
    };
    const bool stays = std::any_of(who.captures.begin(), who.captures.end(), stays_there);
    const NightFacts facts = night_facts_of(catalogue, from);
    if (stays || to.size() != 1 || facts == NightFacts{}) continue;
    const NightFacts there = night_facts_of(catalogue, *to.begin());
    nlohmann::json both = facts;
    if (from.site != to.begin()->site || from.pond != to.begin()->pond)
      for (const char* of_the_place : {"place", "latitude", "longitude"}) both.erase(of_the_place);
    both.update(nlohmann::json(there));
    const NightFactsSaid arrives = facts_between(*to.begin(), there, both.get<NightFacts>(), why);
    if (!arrives.changes.empty()) bodies.push_back(arrives);
    bodies.push_back(facts_between(from, facts, {}, why));
  }
  return bodies;
}

std::vector<Body> moved_visit(Catalogue& catalogue, const NightIntake::Visit& from,
                              const NightIntake::Visit& to, const std::string& reason) {
  const std::vector<NightIntake::Visit> known = visits_of(catalogue);
  const std::string item = night_item(from.night + " at " + place_of(from.site, from.pond));
  if (std::find(known.begin(), known.end(), from) == known.end())
    throw Error(ErrorKind::not_found, item, messages::kNothingWorkedThen);
  if (from == to) throw Error(ErrorKind::bad_input, item, messages::kStandsThereAlready);
  const bool elsewhere = from.site != to.site || from.pond != to.pond;
  std::vector<Body> bodies;
  std::set<CaptureId> moving;
  const Identities who = catalogue.identities();  // a copy: reading the ledger comes after
  for (const CaptureState& capture : who.captures) {
    const CaptureFacts& was = capture.facts;
    if (NightIntake::Visit{was.site, was.pond, was.night} != from) continue;
    CaptureFacts is = was;
    is.site = to.site, is.pond = to.pond, is.night = to.night;
    if (elsewhere) is.latitude.reset(), is.longitude.reset();
    bodies.push_back(correction_between(capture.id, was, is, reason));
    moving.insert(capture.id);
  }
  for (Body& body : without_visits(catalogue, {from}, moving)) bodies.push_back(std::move(body));
  if (moving.empty()) bodies.push_back(NightIntake{.sheet = reason, .nights = {to.night}, .visits = {to}});
  for (Body& body : facts_that_follow(catalogue, {{from, {to}}}, moving)) bodies.push_back(std::move(body));
  return bodies;
}

}  // namespace evet
