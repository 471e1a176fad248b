#include "matcher/catalogue/retractions.h"

#include <algorithm>
#include <unordered_map>

namespace evet {
namespace {

struct Act {
  const Stamp* by;
  const std::vector<EntryId>* settles;  // of an adjudication
  const EntryId* target;                // of a withdrawal
};

}  // namespace

Retractions::Retractions(const Statements& statements) {
  std::vector<Act> acts;
  for (const auto& said : statements.withdrawals) acts.push_back({&said.stamp, nullptr, &said.what.target});
  for (const auto& said : statements.verdicts)
    if (!said.what.settles.empty() && !said.what.planted)
      acts.push_back({&said.stamp, &said.what.settles, nullptr});
  if (acts.empty()) return;
  std::sort(acts.begin(), acts.end(), [](const Act& a, const Act& b) { return a.by->id > b.by->id; });

  // Only the program's own acts need to know whose entry they reach for.
  std::unordered_set<EntryId> by_program, said_by_people;
  for (const Act& act : acts)
    if (act.by->actor.kind == ActorKind::program) {
      if (act.target != nullptr)
        by_program.insert(*act.target);
      else
        by_program.insert(act.settles->begin(), act.settles->end());
    }
  if (!by_program.empty()) {
    const auto note = [&](const auto& list) {
      for (const auto& said : list)
        if (said.stamp.actor.kind == ActorKind::person && by_program.contains(said.stamp.id))
          said_by_people.insert(said.stamp.id);
    };
    note(statements.captures), note(statements.photos), note(statements.verdicts),
        note(statements.corrections);
    note(statements.labels), note(statements.withdrawals), note(statements.examinations);
  }
  const auto retract = [&](const Act& act, const EntryId& target) {
    const bool may = act.by->actor.kind == ActorKind::person || !said_by_people.contains(target);
    if (target < act.by->id && may) retracted_.insert(target);
  };
  for (const Act& act : acts) {
    if (retracted_.contains(act.by->id)) continue;
    if (act.target != nullptr)
      retract(act, *act.target);
    else
      for (const EntryId& target : *act.settles) retract(act, target);
  }
}

std::vector<EntryId> Retractions::all() const {
  std::vector<EntryId> ids(retracted_.begin(), retracted_.end());
  std::sort(ids.begin(), ids.end());
  return ids;
}

}  // namespace evet
