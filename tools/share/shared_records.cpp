#include "tools/share/shared_records.h"

#include <algorithm>
#include <map>

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/moment.h"
#include "matcher/base/sha256.h"
#include "matcher/catalogue/histories.h"
#include "matcher/catalogue/messages.h"
#include "tools/share/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// A code for what must not be named. The salt is the id of the ledger's first entry, which is not shared.
class Codes {
 public:
  explicit Codes(const Catalogue& catalogue) {
    const auto first = catalogue.ledger({.limit = 1});
    if (!first.empty()) salt_ = first.front().entry.id.value;
  }
  std::string place(const std::string& site, const std::string& pond) const {
    return "place-" + of(site + "\n" + pond);
  }
  std::string event(const NightIntake::Visit& visit) const {
    return "event-" + of(visit.site + "\n" + visit.pond + "\n" + visit.night);
  }

 private:
  std::string of(const std::string& names) const { return sha256_hex(salt_ + "\n" + names).substr(0, 12); }
  std::string salt_;
};

std::optional<SharedPosition> position(const std::optional<double>& latitude,
                                       const std::optional<double>& longitude, bool exact) {
  if (!latitude || !longitude) return std::nullopt;
  if (exact) return SharedPosition{*latitude, *longitude, std::nullopt};
  const CoarsePlace coarse = coarse_place(*latitude, *longitude);
  return SharedPosition{coarse.latitude, coarse.longitude, coarse.uncertainty_m};
}

// What people wrote freely stays behind, but for how and how much they looked.
NightFacts shareable(const NightFacts& facts) {
  NightFacts out;
  out.effort = facts.effort, out.air_c = facts.air_c, out.water_c = facts.water_c;
  out.effort_unit = facts.effort_unit, out.method = facts.method, out.weather = facts.weather;
  return out;
}

// Free words may name the place all the same.
void blank_names(NightFacts& facts, const NightIntake::Visit& visit) {
  for (std::string* text : {&facts.effort_unit, &facts.method, &facts.weather})
    for (const std::string* name : {&visit.site, &visit.pond})
      if (!name->empty() && lower_ascii(*text).find(lower_ascii(*name)) != std::string::npos) text->clear();
}

bool wanted(const ShareRequest& request, const std::string& site, const std::string& pond,
            const std::string& night) {
  return (request.site.empty() || site == request.site) && (request.pond.empty() || pond == request.pond) &&
         (request.from.empty() || night >= request.from) && (request.to.empty() || night <= request.to);
}

models::CaptureHistories anonymous(const CatalogueHistories& made) {
  models::CaptureHistories histories = made.histories;
  for (std::size_t i = 0; i < histories.animals.size(); ++i) histories.animals[i] = made.individuals[i].value;
  for (auto at = histories.groups.begin(); at != histories.groups.end();)
    at = at->first == "sex" || at->first == "stage" ? std::next(at) : histories.groups.erase(at);
  return histories;
}

}  // namespace

void ShareRequest::check() const {
  const bool letters =
      std::any_of(species.begin(), species.end(), [](char c) { return (c >= 'a' && c <= 'z'); });
  if (!letters || species.size() > 100 || species.front() < 'A' || species.front() > 'Z')
    throw Error(ErrorKind::usage, "--species",
                Message(messages::kNoScientificName, {{"species", in_quotes(species)}}),
                messages::kWriteGenusAndSpecies);
  if (site.empty() && !pond.empty())
    throw Error(ErrorKind::usage, "--pond", messages::kPondWithoutSite, messages::kNameSiteAsWell);
  for (const auto& [option, date] : {std::pair{"--from", &from}, {"--to", &to}})
    if (!date->empty() && !is_date(*date))
      throw Error(ErrorKind::usage, option, Message(messages::kIsNoDateToShare, {{"date", in_quotes(*date)}}),
                  messages::kWriteIsoDate);
}

SharedRecords shared_records(Catalogue& catalogue, const ShareRequest& request, Env& env) {
  request.check();
  const Codes codes(catalogue);
  SharedRecords out;
  out.species = request.species, out.exact = request.exact;
  if (request.exact) out.title = catalogue.title();
  out.ledger_head = catalogue.head_hash(), out.made_at = to_text(env.now());
  const std::vector<NightIntake::Visit> visits = visits_of(catalogue);
  const Identities who = catalogue.identities();
  std::map<NightIntake::Visit, std::size_t> at;
  for (const NightIntake::Visit& visit : visits) {
    if (!wanted(request, visit.site, visit.pond, visit.night)) continue;
    const NightFacts facts = night_facts_of(catalogue, visit);
    SharedNight night;
    night.event = codes.event(visit), night.place = codes.place(visit.site, visit.pond),
    night.night = visit.night;
    night.facts = shareable(facts);
    if (!request.exact) blank_names(night.facts, visit);
    night.position = position(facts.latitude, facts.longitude, request.exact);
    at[visit] = out.nights.size();
    out.nights.push_back(std::move(night));
  }
  for (const CaptureState& capture : who.captures) {
    const CaptureFacts& facts = capture.facts;
    const auto found = at.find({facts.site, facts.pond, facts.night});
    if (found == at.end()) continue;
    // A test shot, or a second photo of an animal in hand, is no capture.
    if (capture.closed && capture.closed->as != ClosedAs::not_identifiable) continue;
    SharedNight& night = out.nights[found->second];
    ++night.captures;
    const bool settled = capture.individual && !capture.disputed;
    if (!settled && !capture.closed) ++night.open;
    SharedCapture one;
    one.id = capture.id, one.event = night.event, one.place = night.place, one.night = night.night;
    if (settled) one.individual = capture.individual;
    if (facts.sex != Sex::unknown) one.sex = name(facts.sex);
    one.stage = facts.stage, one.svl_mm = facts.svl_mm, one.total_mm = facts.total_mm,
    one.mass_g = facts.mass_g;
    one.lost = facts.lost, one.position = position(facts.latitude, facts.longitude, request.exact);
    if (!one.position) one.position = night.position;
    if (!night.position) night.position = one.position;
    out.captures.push_back(std::move(one));
  }
  if (out.nights.empty())
    throw Error(ErrorKind::not_found, catalogue.folder().string(), messages::kNoNightToShare,
                messages::kSeeWhatThereIs);
  const bool any_known = std::any_of(out.captures.begin(), out.captures.end(),
                                     [](const SharedCapture& one) { return one.individual.has_value(); });
  if (any_known) {
    HistoriesOptions options;
    options.site = request.site, options.pond = request.pond, options.from = request.from,
    options.to = request.to;
    out.histories = anonymous(capture_histories(catalogue.statements(), who, options));
  }
  return out;
}

}  // namespace evet
