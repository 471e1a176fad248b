#include "tools/report/fill_decided.h"

#include <algorithm>

namespace evet {
namespace {

struct Placing {
  Entry entry;
  Verdict verdict;
};

bool counts(const Identities& who, const EntryId& id) {
  if (!who.in_force(id)) return false;
  return std::none_of(who.overridden.begin(), who.overridden.end(),
                      [&](const Overridden& gone) { return gone.verdict == id; });
}

// The newest verdict that says where the capture belongs; a person's before the program's.
std::optional<Placing> placing(Catalogue& catalogue, const Identities& who, const CaptureState& capture) {
  std::optional<Placing> best;
  LedgerQuery query;
  query.kind = Verdict::kKind, query.capture = capture.id;
  for (ListedEntry& listed : catalogue.ledger(query)) {
    if (!counts(who, listed.entry.id)) continue;
    Verdict verdict = std::get<Verdict>(body_of(listed.entry));
    if (verdict.planted || (verdict.answer != Answer::same && verdict.answer != Answer::new_individual))
      continue;
    const bool about_this = verdict.capture == capture.id;
    if (verdict.answer == Answer::new_individual && !about_this) continue;
    // Its own verdict says more than that of a capture that was joined to it later.
    const auto weight = [&](const Entry& entry, bool own) {
      return std::tuple(own, entry.actor.kind == ActorKind::person, entry.id);
    };
    if (!best || weight(best->entry, best->verdict.capture == capture.id) < weight(listed.entry, about_this))
      best = Placing{std::move(listed.entry), std::move(verdict)};
  }
  return best;
}

}  // namespace

std::string placed_by(Catalogue& catalogue, const Identities& who, const CaptureState& capture) {
  if (!capture.individual) return {};
  const auto found = placing(catalogue, who, capture);
  if (!found) return capture.facts.individual.empty() ? "" : "the sheet";
  return found->entry.actor.kind == ActorKind::program ? "the program" : found->entry.actor.name;
}

Decided decided(Catalogue& catalogue, const Identities& who, const CaptureState& capture) {
  if (!capture.individual) return {};
  const auto found = placing(catalogue, who, capture);
  if (!found) {
    if (!capture.facts.individual.empty())
      return {"Known by other means: the sheet names it " + capture.facts.individual + ".", {}, {}};
    return {};
  }
  const auto& [entry, verdict] = *found;
  std::string sentence = verdict.answer == Answer::same ? "Same, by " : "New, by ";
  const bool program = entry.actor.kind == ActorKind::program;
  sentence += program ? "the program" : entry.actor.name;
  sentence += " on " + entry.time.substr(0, 10);
  sentence += program ? "; not yet read by a person." : ".";
  Decided out{sentence, program ? std::string() : verdict.reason, {}};
  if (verdict.capture == capture.id && verdict.evidence.new_probability) out.evidence = verdict.evidence;
  return out;
}

}  // namespace evet
