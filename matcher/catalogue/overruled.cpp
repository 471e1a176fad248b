#include <algorithm>

#include "matcher/catalogue/catalogue.h"
#include "matcher/catalogue/objection.h"

namespace evet {
namespace {

const std::vector<Objection>& in_spite_of(const Body& body) {
  static const std::vector<Objection> none;
  if (const auto* verdict = std::get_if<Verdict>(&body)) return verdict->in_spite_of;
  if (const auto* closing = std::get_if<Closing>(&body)) return closing->in_spite_of;
  if (const auto* examined = std::get_if<Reexamined>(&body)) return examined->in_spite_of;
  if (const auto* merge = std::get_if<Merge>(&body)) return merge->in_spite_of;
  if (const auto* intake = std::get_if<NightIntake>(&body)) return intake->in_spite_of;
  return none;
}

}  // namespace

std::vector<Overruled> overruled(Catalogue& catalogue) {
  struct Found {
    std::int64_t position;
    Overruled one;
  };
  std::vector<Found> found;
  for (const char* kind :
       {Verdict::kKind, Closing::kKind, Reexamined::kKind, Merge::kKind, NightIntake::kKind})
    for (const ListedEntry& listed : catalogue.ledger({.kind = kind})) {
      const Entry& entry = listed.entry;
      if (entry.body.find("\"in_spite_of\"") == std::string::npos) continue;  // most have none
      const auto body = readable(entry);
      if (!body) continue;
      for (const Objection& objection : in_spite_of(*body)) {
        Overruled one;
        one.entry = entry.id, one.kind = kind, one.by = entry.actor.name, one.on = entry.time.substr(0, 10);
        if (const auto* verdict = std::get_if<Verdict>(&*body))
          one.capture = verdict->capture, one.other = verdict->other;
        if (const auto* closing = std::get_if<Closing>(&*body))
          one.capture = closing->capture, one.other = closing->other;
        if (const auto* examined = std::get_if<Reexamined>(&*body))
          if (const auto captures = catalogue.captures_with_photo(examined->photo); !captures.empty())
            one.capture = captures.front();
        one.code = objection.code, one.sentence = objection.sentence, one.reason = objection.reason;
        found.push_back({listed.position, std::move(one)});
      }
    }
  const Identities& who = catalogue.identities();
  std::stable_sort(found.begin(), found.end(), [](const Found& a, const Found& b) {
    return std::pair(a.one.on, a.position) < std::pair(b.one.on, b.position);
  });
  std::vector<Overruled> out;
  for (Found& one : found) {
    one.one.stands = who.in_force(one.one.entry);
    out.push_back(std::move(one.one));
  }
  return out;
}

}  // namespace evet
