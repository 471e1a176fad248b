#include "tools/evet/accept_nights.h"

#include <algorithm>
#include <map>
#include <set>

#include "tools/words/names.h"

namespace evet {
namespace {

std::set<std::string> open_nights(Catalogue& catalogue, const std::string& only) {
  std::set<std::string> nights;
  for (const CaptureState& capture : catalogue.identities().captures)
    if (!capture.individual && (only.empty() || capture.facts.night == only))
      nights.insert(capture.facts.night);
  return nights;
}

// The night of the capture that the program last judged; empty when it never has.
std::string last_judged(Catalogue& catalogue) {
  const Said<Verdict>* newest = nullptr;
  for (const auto& said : catalogue.statements().verdicts)
    if (said.stamp.actor.kind == ActorKind::program &&
        (newest == nullptr || newest->stamp.id < said.stamp.id))
      newest = &said;
  if (newest == nullptr) return {};
  const CaptureId id = newest->what.capture;
  const CaptureState* capture = catalogue.identities().capture(id);
  return capture == nullptr ? std::string() : capture->facts.night;
}

// The first open night after `at`, or else the first of all, that has not been looked at since the ledger
// last changed.
std::string next_night(const std::set<std::string>& open, const std::string& at,
                       const std::set<std::string>& quiet) {
  const auto waiting = [&](const std::string& night) { return !quiet.contains(night); };
  const auto after = std::find_if(open.upper_bound(at), open.end(), waiting);
  if (after != open.end()) return *after;
  const auto any = std::find_if(open.begin(), open.end(), waiting);
  return any == open.end() ? std::string() : *any;
}

}  // namespace

AcceptedNights accept_nights(Catalogue& catalogue, RankRequest request) {
  const std::string only = request.night;
  KeptPatterns kept;
  if (request.kept == nullptr) request.kept = &kept;
  std::map<CaptureId, RankedLine> lines;
  Accepted accepted;
  std::set<std::string> quiet;
  std::string at = last_judged(catalogue);
  for (;;) {
    request.night = next_night(open_nights(catalogue, only), at, quiet);
    if (request.night.empty()) break;
    at = request.night;
    const Ranking ranking = rank_unsettled(catalogue, request);
    for (RankedLine& line : ranked_lines(catalogue, ranking)) lines[line.id] = std::move(line);
    const Accepted more = accept_advice(catalogue, ranking);
    accepted.same += more.same, accepted.fresh += more.fresh;
    if (more.same + more.fresh > 0)
      quiet.clear();  // every night, this one too, is looked at again with what it taught
    else
      quiet.insert(at);
  }
  AcceptedNights out{{}, accepted};
  for (auto& [id, line] : lines) out.lines.push_back(std::move(line));
  const Identities& who = catalogue.identities();
  std::sort(out.lines.begin(), out.lines.end(), [&](const RankedLine& a, const RankedLine& b) {
    return listed_before(*who.capture(a.id), *who.capture(b.id));
  });
  return out;
}

}  // namespace evet
