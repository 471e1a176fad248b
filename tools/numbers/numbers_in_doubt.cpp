#include "tools/numbers/numbers_in_doubt.h"

#include <optional>
#include <random>

#include "matcher/base/error.h"
#include "tools/numbers/open_nights.h"

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
  const std::vector<std::string> nights = open_nights(who, where);
  return nights.empty() ? std::string() : nights.front();
}

std::vector<Doubt> doubts_of(Catalogue& catalogue, const Statements& said, const Identities& who,
                             const HistoriesOptions& where, int threads) {
  std::vector<Doubt> doubts = placed_by_program(said, who);
  read_evidence(catalogue, doubts);
  for (Doubt& doubt : doubts_of_open_nights(catalogue, said, who, open_nights(who, where), threads))
    doubts.push_back(std::move(doubt));
  bind_to(doubts, said, who);
  std::erase_if(doubts, [](const Doubt& doubt) { return !doubt.evidence.new_probability; });
  return doubts;
}

}  // namespace evet
