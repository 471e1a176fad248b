#include "tools/report/fill_decided.h"

#include <algorithm>

namespace evet {
namespace {

SettledBy settled_by(const Actor& actor) {
  if (actor.kind == ActorKind::program) return {SettledBy::Kind::program, {}};
  return {SettledBy::Kind::person, actor.name};
}

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

SettledBy placed_by(Catalogue& catalogue, const Identities& who, const CaptureState& capture) {
  if (!capture.individual) return {};
  const auto found = placing(catalogue, who, capture);
  if (found) return settled_by(found->entry.actor);
  return {capture.facts.individual.empty() ? SettledBy::Kind::nobody : SettledBy::Kind::sheet, {}};
}

Decided decided(Catalogue& catalogue, const Identities& who, const CaptureState& capture) {
  if (!capture.individual) return {};
  const auto found = placing(catalogue, who, capture);
  if (!found) {
    if (!capture.facts.individual.empty())
      return {{ReportDecided::How::known_by_other_means, {}, {}, capture.facts.individual}, {}, {}};
    return {};
  }
  const auto& [entry, verdict] = *found;
  const auto how =
      verdict.answer == Answer::same ? ReportDecided::How::same : ReportDecided::How::new_individual;
  const SettledBy by = settled_by(entry.actor);
  Decided out{{how, by, entry.time.substr(0, 10), {}},
              by.kind == SettledBy::Kind::program ? std::string() : verdict.reason,
              {}};
  if (verdict.capture == capture.id && verdict.evidence.new_probability) out.evidence = verdict.evidence;
  return out;
}

}  // namespace evet
