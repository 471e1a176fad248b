#include "matcher/catalogue/drawn_identities.h"

#include <algorithm>
#include <cstdio>
#include <map>
#include <unordered_map>

namespace evet {
namespace {

// The candidate's capture, or nothing for "new".
CaptureId draw_one(const Evidence& evidence, models::Random& random) {
  double all = evidence.new_probability.value_or(0);
  for (const Shown& shown : evidence.shown) all += shown.probability;
  double left = random.uniform() * all;
  for (const Shown& shown : evidence.shown)
    if ((left -= shown.probability) < 0) return shown.capture;
  return {};
}

// Later than every entry, so that nothing said before outweighs it.
Stamp stamp_of_draw(std::size_t i) {
  char id[37];
  std::snprintf(id, sizeof id, "ffffffff-ffff-7fff-bfff-%012zx", i);
  Stamp stamp;
  stamp.id = EntryId(id), stamp.device = DeviceId("draw"), stamp.seq = static_cast<std::int64_t>(i) + 1;
  stamp.actor = {ActorKind::program, "draw"};
  return stamp;
}

}  // namespace

std::vector<Doubt> doubts_of(Catalogue& catalogue) {
  const Identities& who = catalogue.identities();
  std::map<CaptureId, Doubt> newest;
  for (const ListedEntry& one : catalogue.ledger({.kind = Verdict::kKind})) {
    if (one.entry.actor.kind != ActorKind::program) continue;
    if (std::binary_search(who.out_of_force.begin(), who.out_of_force.end(), one.entry.id)) continue;
    auto verdict = std::get<Verdict>(body_of(one.entry));
    const CaptureState* capture = who.capture(verdict.capture);
    if (capture == nullptr || !capture->by_program || !verdict.evidence.new_probability) continue;
    Doubt& doubt = newest[capture->id];
    if (doubt.verdict.empty() || doubt.verdict < one.entry.id)
      doubt = {capture->id, one.entry.id, std::move(verdict.evidence)};
  }
  std::vector<Doubt> out;
  for (auto& [capture, doubt] : newest) out.push_back(std::move(doubt));
  return out;
}

Statements drawn(const Statements& said, const std::vector<Doubt>& doubts, models::Random& random) {
  Statements out = said;
  std::unordered_map<EntryId, Verdict*> verdicts;
  for (auto& one : out.verdicts) verdicts.emplace(one.stamp.id, &one.what);
  std::vector<Said<Verdict>> more;
  for (const Doubt& doubt : doubts) {
    const CaptureId other = draw_one(doubt.evidence, random);
    const Answer answer = other.empty() ? Answer::new_individual : Answer::same;
    if (const auto at = verdicts.find(doubt.verdict); at != verdicts.end())
      at->second->answer = answer, at->second->other = other;
    else
      more.push_back(
          {stamp_of_draw(more.size()), {.capture = doubt.capture, .other = other, .answer = answer}});
  }
  out.verdicts.insert(out.verdicts.end(), more.begin(), more.end());
  return out;
}

}  // namespace evet
