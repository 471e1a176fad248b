#include "matcher/catalogue/drawn_identities.h"

#include <algorithm>
#include <cstdio>
#include <map>
#include <unordered_map>

#include "matcher/catalogue/people_said.h"

namespace evet {
namespace {

// The candidate's capture, or nothing for "new".
CaptureId draw_one(const Evidence& evidence, std::mt19937_64& random) {
  double all = evidence.new_probability.value_or(0);
  for (const Shown& shown : evidence.shown) all += shown.probability;
  // In [0, all): the engine is the same everywhere, the distributions of the standard library are not.
  double left = static_cast<double>(random() >> 11) * 0x1.0p-53 * all;
  for (const Shown& shown : evidence.shown)
    if ((left -= shown.probability) < 0) return shown.capture;
  return {};
}

// An earlier capture of the night that was drawn as new and is drawn here as the same animal. Given that both are
// new, they are one with the chance of being one over the chance of both being new.
CaptureId draw_twin(const Doubt& doubt, const std::map<CaptureId, double>& drawn_new,
                    std::mt19937_64& random) {
  for (const NightMatch& match : doubt.night_matches) {
    const auto other = drawn_new.find(match.capture);
    if (other == drawn_new.end()) continue;
    const double both_new = other->second * doubt.evidence.new_probability.value_or(1);
    if (static_cast<double>(random() >> 11) * 0x1.0p-53 * both_new < match.probability) return match.capture;
  }
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

std::vector<Doubt> placed_by_program(const Statements& said, const Identities& who) {
  std::map<CaptureId, Doubt> newest;
  for (const Said<Verdict>& one : said.verdicts) {
    if (one.stamp.actor.kind != ActorKind::program) continue;
    if (!who.in_force(one.stamp.id)) continue;
    const CaptureState* capture = who.capture(one.what.capture);
    if (capture == nullptr || !capture->by_program) continue;
    Doubt& doubt = newest[capture->id];
    if (doubt.verdict < one.stamp.id) doubt = {capture->id, one.stamp.id, {}};
  }
  std::vector<Doubt> out;
  out.reserve(newest.size());
  for (auto& [capture, doubt] : newest) out.push_back(std::move(doubt));
  return out;
}

void read_evidence(const Catalogue& catalogue, std::span<Doubt> doubts) {
  for (Doubt& doubt : doubts)
    if (const auto listed = catalogue.entry(doubt.verdict))
      doubt.evidence = std::get<Verdict>(body_of(listed->entry)).evidence;
}

void bind_to(std::span<Doubt> doubts, const Statements& said, const Identities& who) {
  std::set<CaptureId> ids;
  for (const Doubt& doubt : doubts) ids.insert(doubt.capture);
  const std::map<CaptureId, PeopleSaid> people = people_said(said, who, ids);
  for (Doubt& doubt : doubts) {
    const std::set<IndividualId> ruled_out = people.at(doubt.capture).ruled_out();
    std::erase_if(doubt.evidence.shown, [&](const Shown& shown) {
      const CaptureState* capture = who.capture(shown.capture);
      return capture != nullptr && capture->individual && ruled_out.contains(*capture->individual);
    });
  }
}

Statements drawn(const Statements& said, const std::vector<Doubt>& doubts, std::mt19937_64& random) {
  Statements out = said;
  std::unordered_map<EntryId, Verdict*> verdicts;
  for (auto& one : out.verdicts) verdicts.emplace(one.stamp.id, &one.what);
  std::vector<Said<Verdict>> more;
  std::map<CaptureId, double> drawn_new;  // with the chance of it
  for (const Doubt& doubt : doubts) {
    if (!doubt.evidence.new_probability) continue;
    CaptureId other = draw_one(doubt.evidence, random);
    if (other.empty() && !doubt.night_matches.empty()) {
      other = draw_twin(doubt, drawn_new, random);
      if (other.empty()) drawn_new.emplace(doubt.capture, *doubt.evidence.new_probability);
    }
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
