#include "tools/review/second_reading.h"

#include <algorithm>
#include <map>
#include <set>

#include "matcher/base/sha256.h"
#include "matcher/catalogue/retractions.h"

namespace evet::review {
namespace {

using Pair = std::pair<CaptureId, CaptureId>;  // the smaller id first

Pair pair_of(const CaptureId& a, const CaptureId& b) {
  return a < b ? Pair{a, b} : Pair{b, a};
}

// In [0, 1), the same for the same words on every machine.
double draw(const std::string& words) {
  return static_cast<double>(std::stoul(sha256_hex(words).substr(0, 8), nullptr, 16)) / 4294967296.0;
}
std::string words(const Pair& pair) {
  return pair.first.value + " " + pair.second.value;
}

// Pairs of captures whose identities the sheet knows: each with the one before it of the same individual, or
// with one of another.
void add_planted(const Identities& who, double share, std::set<Pair>& pairs) {
  std::map<std::string, const CaptureState*> newest_of;
  const CaptureState* last = nullptr;
  for (const CaptureState& capture : who.captures) {
    const std::string& individual = capture.facts.individual;
    if (individual.empty() || !capture.usable()) continue;
    const auto before = newest_of.find(individual);
    const bool pick = draw("planted " + capture.id.value) < share;
    const bool want_same = draw("which " + capture.id.value) < 0.5;
    if (pick && want_same && before != newest_of.end())
      pairs.insert(pair_of(capture.id, before->second->id));
    else if (pick && last != nullptr && last->facts.individual != individual)
      pairs.insert(pair_of(capture.id, last->id));
    newest_of[individual] = &capture;
    last = &capture;
  }
}

}  // namespace

std::vector<PairToRead> pairs_to_read(Catalogue& catalogue, const std::string& reader, double share) {
  std::set<CaptureId> refused;  // the reader has judged these photos not usable
  for (const ListedEntry& one : catalogue.ledger({.kind = Reading::kKind, .actor = reader})) {
    const auto reading = std::get<Reading>(body_of(one.entry));
    if (reading.blind && !reading.usable) refused.insert(reading.capture);
  }
  const Statements& said = catalogue.statements();
  const Retractions retractions(said);
  const Identities& who = catalogue.identities();

  std::set<Pair> pairs, done;
  std::map<EntryId, Pair> pair_of_verdict;
  for (const auto& verdict : said.verdicts) {
    if (verdict.what.other.empty()) continue;
    const Pair pair = pair_of(verdict.what.capture, verdict.what.other);
    pair_of_verdict[verdict.stamp.id] = pair;
    if (retractions.retracts(verdict.stamp.id)) continue;
    if (verdict.stamp.actor.kind == ActorKind::person && verdict.stamp.actor.name == reader)
      done.insert(pair);
    if (!verdict.what.planted && verdict.what.answer != Answer::cannot_tell && draw(words(pair)) < share)
      pairs.insert(pair);
  }
  for (const Dispute& dispute : who.disputes) {
    pairs.insert(pair_of(dispute.a, dispute.b));
    for (const EntryId& contested : dispute.contested)
      if (const auto at = pair_of_verdict.find(contested); at != pair_of_verdict.end())
        pairs.insert(at->second);
  }
  add_planted(who, share, pairs);

  const auto readable = [&](const CaptureId& id) {
    const CaptureState* capture = who.capture(id);
    return capture != nullptr && capture->usable() && !refused.contains(id);
  };
  std::vector<std::pair<double, Pair>> order;
  for (const Pair& pair : pairs)
    if (!done.contains(pair) && readable(pair.first) && readable(pair.second))
      order.emplace_back(draw(reader + " reads " + words(pair)), pair);
  std::sort(order.begin(), order.end());
  std::vector<PairToRead> out;
  // The younger capture is looked at first, as on the night.
  for (const auto& [key, pair] : order) out.push_back({pair.second, pair.first});
  return out;
}

bool is_planted(Call& call, const CaptureId& capture, const CaptureId& other) {
  if (other.empty()) return false;
  const Identities& who = call.desk.catalogue.identities();
  const CaptureState *a = who.capture(capture), *b = who.capture(other);
  return a != nullptr && b != nullptr && !a->facts.individual.empty() && !b->facts.individual.empty();
}

}  // namespace evet::review
