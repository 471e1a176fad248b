#include "tools/numbers/numbers_in_doubt.h"

#include <optional>
#include <random>

#include "matcher/base/error.h"
#include "matcher/catalogue/search_catalogue.h"

namespace evet {
namespace {

std::optional<models::CaptureHistories> settled(const Statements& said, const Identities& who,
                                                const HistoriesOptions& where) {
  try {
    return capture_histories(said, who, where).histories;
  } catch (const Error& error) {
    if (error.kind() != ErrorKind::bad_input) throw;
    return std::nullopt;  // nothing is settled there
  }
}

}  // namespace

models::EstimateInDoubt numbers_of(const Statements& said, const Identities& who,
                                   const std::vector<Doubt>& doubts, const HistoriesOptions& where,
                                   const models::EstimateRequest& request) {
  models::DoubtfulHistories histories;
  histories.captures_in_doubt = static_cast<int>(doubts.size());
  if (doubts.empty()) {
    histories.certain = capture_histories(said, who, where).histories;
    return models::estimate_in_doubt(histories, request);
  }
  histories.certain = settled(said, who, where);
  // One engine for all draws, so that a draw is the same whichever was asked for before it.
  histories.drawn = [&](int draw) {
    std::mt19937_64 random(request.seed + 1000003 * static_cast<std::uint64_t>(draw));
    const Statements one = drawn(said, doubts, random);
    return capture_histories(one, fold(one), where).histories;
  };
  return models::estimate_in_doubt(histories, request);
}

std::string first_open_night(const Identities& who, const HistoriesOptions& where) {
  std::string first;
  for (const CaptureState& capture : who.captures) {
    const CaptureFacts& facts = capture.facts;
    const bool here = (where.site.empty() || facts.site == where.site) &&
                      (where.pond.empty() || facts.pond == where.pond) &&
                      (where.from.empty() || facts.night >= where.from) &&
                      (where.to.empty() || facts.night <= where.to);
    if (here && !capture.individual && capture.usable() && (first.empty() || facts.night < first))
      first = facts.night;
  }
  return first;
}

std::vector<Doubt> doubts_of(Catalogue& catalogue, const Statements& said, const Identities& who,
                             const HistoriesOptions& where, int threads) {
  std::vector<Doubt> doubts = placed_by_program(said, who);
  read_evidence(catalogue, doubts);
  if (const std::string night = first_open_night(who, where); !night.empty()) {
    RankRequest request;
    request.night = night, request.threads = threads;
    const Ranking ranking = rank_unsettled(catalogue, request);
    for (const RankedCapture& ranked : ranking.captures)
      doubts.push_back({.capture = ranked.capture,
                        .evidence = evidence_of(ranked, ranking.gallery),
                        .night_matches = ranked.night_matches});
  }
  bind_to(doubts, said, who);
  std::erase_if(doubts, [](const Doubt& doubt) { return !doubt.evidence.new_probability; });
  return doubts;
}

}  // namespace evet
