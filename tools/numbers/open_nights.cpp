#include "tools/numbers/open_nights.h"

#include <cstdio>
#include <set>

#include "matcher/catalogue/search_catalogue.h"

namespace evet {
namespace {

// After every entry of the ledger, and in the order in which they are supposed.
EntryId supposed_id(std::size_t count) {
  char id[37];
  std::snprintf(id, sizeof id, "fffffff0-0000-7000-8000-%012zx", count);
  return EntryId(id);
}

// Sure joins as they are advised, all others as new: then a later capture may be held to be this one, whoever it is.
Verdict supposed_of(const RankedCapture& ranked, const Evidence& evidence) {
  if (ranked.advice == Advice::same && !evidence.shown.empty() && !evidence.shown.front().capture.empty())
    return {.capture = ranked.capture, .other = evidence.shown.front().capture, .answer = Answer::same};
  return {.capture = ranked.capture, .answer = Answer::new_individual};
}

}  // namespace

std::vector<std::string> open_nights(const Identities& who, const HistoriesOptions& where) {
  std::set<std::string> nights;
  for (const CaptureState& capture : who.captures) {
    const CaptureFacts& facts = capture.facts;
    const bool here = (where.site.empty() || facts.site == where.site) &&
                      (where.pond.empty() || facts.pond == where.pond) &&
                      (where.from.empty() || facts.night >= where.from) &&
                      (where.to.empty() || facts.night <= where.to);
    if (here && !capture.individual && !capture.closed && capture.usable()) nights.insert(facts.night);
  }
  return {nights.begin(), nights.end()};
}

std::vector<Doubt> doubts_of_open_nights(Catalogue& catalogue, const Statements& said, const Identities& who,
                                         const std::vector<std::string>& nights, int threads) {
  std::vector<Doubt> doubts;
  Supposed then{said, who};
  PatternCache kept;
  for (std::size_t n = 0; n < nights.size(); ++n) {
    RankRequest request;
    request.night = nights[n], request.threads = threads, request.kept = &kept;
    if (n > 0) request.supposed = &then;
    const Ranking ranking = rank_unsettled(catalogue, request);
    for (const RankedCapture& ranked : ranking.captures) {
      const Evidence evidence = evidence_of(ranked, ranking.gallery);
      Stamp stamp;
      stamp.id = supposed_id(doubts.size() + 1), stamp.actor = {ActorKind::program, "draw"};
      then.statements.verdicts.push_back({stamp, supposed_of(ranked, evidence)});
      doubts.push_back(
          {.capture = ranked.capture, .evidence = evidence, .night_matches = ranked.night_matches});
    }
    if (n + 1 < nights.size()) then.who = fold(then.statements);
  }
  return doubts;
}

}  // namespace evet
