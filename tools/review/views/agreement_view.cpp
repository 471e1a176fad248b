#include "matcher/catalogue/agreement.h"

#include <algorithm>
#include <set>

#include "tools/review/views/views.h"

namespace evet::review {
namespace {

nlohmann::json kappa_json(const Kappa& kappa) {
  return {{"kappa", kappa.kappa},
          {"observed", kappa.observed},
          {"chance", kappa.chance},
          {"observed_low", kappa.observed_interval.low},
          {"observed_high", kappa.observed_interval.high},
          {"low", kappa.interval.low},
          {"high", kappa.interval.high}};
}

nlohmann::json rate_json(const ErrorRate& rate) {
  return {{"errors", rate.errors},
          {"trials", rate.trials},
          {"rate", rate.rate ? nlohmann::json(*rate.rate) : nlohmann::json()},
          {"low", rate.interval.low},
          {"high", rate.interval.high}};
}

}  // namespace

nlohmann::json agreement_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  const Agreement found = agreement(said, who);
  std::size_t readings = 0, agreed = 0, blind = 0, planted = 0, taken_back = 0;
  // What was read was read: a verdict that an adjudication settled is still a reading, and one that its reader took
  // back is named beside the others.
  std::set<EntryId> withdrawn;
  for (const auto& one : said.withdrawals)
    if (who.in_force(one.stamp.id)) withdrawn.insert(one.what.target);
  for (const auto& verdict : said.verdicts) {
    blind += verdict.what.blind ? 1 : 0, planted += verdict.what.planted ? 1 : 0;
    taken_back += verdict.what.blind && withdrawn.contains(verdict.stamp.id) ? 1 : 0;
  }
  for (const JudgedCase& one : found.cases) readings += one.answers.size(), agreed += one.agreed() ? 1 : 0;
  nlohmann::json pairs = nlohmann::json::array(), errors = nlohmann::json::array();
  for (const ReaderPair& pair : found.pairs)
    pairs.push_back({{"first", pair.first},
                     {"second", pair.second},
                     {"cases", pair.cases},
                     {"cohen", pair.kappa ? kappa_json(*pair.kappa) : nlohmann::json()}});
  for (const ReaderErrors& one : found.errors)
    errors.push_back({{"reader", one.reader},
                      {"false_match", rate_json(one.false_match)},
                      {"false_non_match", rate_json(one.false_non_match)},
                      {"cannot_tell", one.cannot_tell},
                      {"unknown_truth", one.unknown_truth}});
  return {{"cases", found.cases.size()},
          {"agreed", agreed},
          {"readings", readings},
          {"share", call.desk.second_share},
          {"blind", blind},
          {"planted", planted},
          {"taken_back", taken_back},
          {"not_independent", found.not_independent},
          {"fleiss", found.all ? kappa_json(*found.all) : nlohmann::json()},
          {"pairs", pairs},
          {"errors", errors}};
}

}  // namespace evet::review
