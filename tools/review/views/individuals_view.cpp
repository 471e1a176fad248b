#include <algorithm>
#include <charconv>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/messages.h"
#include "tools/review/capture_words.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/verdicts/verdict_reason.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kIndividualsOnScreen = 60;

// What is asked for; an empty field asks for nothing.
struct Wanted {
  std::string find, sex, site, pond, season;
  std::optional<double> svl_from, svl_to;  // of the newest length
  std::size_t from = 0;
};

double number_asked(const std::string& name, const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !(value >= 0 && value < 1e9))
    throw Error(ErrorKind::bad_input, name + " " + in_quotes(text), messages::kIsNotNumber);
  return value;
}

Wanted wanted_in(const Call& call) {
  Wanted wanted{lower_ascii(call.query("find")),
                call.query("sex"),
                call.query("site"),
                call.query("pond"),
                call.query("season"),
                {},
                {},
                0};
  if (!wanted.sex.empty() && !sex_named(wanted.sex))
    throw Error(ErrorKind::bad_input, "sex " + in_quotes(wanted.sex), messages::kIsNotKnown,
                messages::kAskForFemaleMaleOr);
  if (const std::string text = call.query("svl_from"); !text.empty())
    wanted.svl_from = number_asked("svl_from", text);
  if (const std::string text = call.query("svl_to"); !text.empty())
    wanted.svl_to = number_asked("svl_to", text);
  if (const std::string text = call.query("from"); !text.empty()) {
    if (text.find_first_not_of("0123456789") != std::string::npos)
      throw Error(ErrorKind::bad_input, "from " + in_quotes(text), messages::kIsNotNumber);
    wanted.from = static_cast<std::size_t>(number_asked("from", text));
  }
  return wanted;
}

bool bears(const Individual& individual, const std::string& lower) {
  const auto has = [&](const std::string& text) {
    return lower_ascii(text).find(lower) != std::string::npos;
  };
  return has(individual.name) || std::any_of(individual.aliases.begin(), individual.aliases.end(), has);
}

std::optional<double> newest_svl(const Individual& individual, const Identities& who) {
  for (auto at = individual.captures.rbegin(); at != individual.captures.rend(); ++at)
    if (const auto& svl = who.capture(*at)->facts.svl_mm) return svl;
  return std::nullopt;
}

// One capture has to fit both place and season: an animal met there, then.
bool fits(const Individual& individual, const Wanted& wanted, const Identities& who) {
  if (!wanted.find.empty() && !bears(individual, wanted.find)) return false;
  if (!wanted.sex.empty() && name(individual.sex) != wanted.sex) return false;
  if (wanted.svl_from || wanted.svl_to) {
    const std::optional<double> svl = newest_svl(individual, who);
    if (!svl || *svl < wanted.svl_from.value_or(0) || *svl > wanted.svl_to.value_or(1e9)) return false;
  }
  return std::any_of(individual.captures.begin(), individual.captures.end(), [&](const CaptureId& id) {
    const CaptureFacts& facts = who.capture(id)->facts;
    return (wanted.site.empty() || facts.site == wanted.site) &&
           (wanted.pond.empty() || facts.pond == wanted.pond) &&
           (wanted.season.empty() || facts.night.starts_with(wanted.season + "-"));
  });
}

// What can be asked for: every place and year that an individual was met in.
nlohmann::json choices(const Identities& who) {
  std::set<std::pair<std::string, std::string>> places;
  std::set<std::string> seasons;
  for (const CaptureState& capture : who.captures) {
    if (!capture.individual) continue;
    places.insert({capture.facts.site, capture.facts.pond});
    seasons.insert(capture.facts.night.substr(0, 4));
  }
  nlohmann::json out = {{"places", nlohmann::json::array()}, {"seasons", seasons}};
  for (const auto& [site, pond] : places) out["places"].push_back({{"site", site}, {"pond", pond}});
  return out;
}

}  // namespace

nlohmann::json individuals_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const Identities& who = catalogue.identities();
  const Wanted wanted = wanted_in(call);
  nlohmann::json list = nlohmann::json::array();
  std::size_t found = 0;
  for (const Individual& individual : who.individuals) {
    if (!fits(individual, wanted, who)) continue;
    if (found++ < wanted.from || list.size() == kIndividualsOnScreen) continue;
    nlohmann::json strip;
    for (auto at = individual.captures.rbegin(); at != individual.captures.rend() && strip.is_null(); ++at)
      if (const auto photo = best_photo(*who.capture(*at))) strip = photo->value;
    const std::optional<double> svl = newest_svl(individual, who);
    list.push_back({{"id", individual.id.value},
                    {"name", individual.name},
                    {"aliases", individual.aliases},
                    {"sex", name(individual.sex)},
                    {"captures", individual.captures.size()},
                    {"first", who.capture(individual.captures.front())->facts.night},
                    {"last", who.capture(individual.captures.back())->facts.night},
                    {"svl_mm", svl ? nlohmann::json(*svl) : nlohmann::json(nullptr)},
                    {"disputed", individual.disputed},
                    {"strip", strip}});
  }
  return {{"individuals", list},
          {"found", found},
          {"of", who.individuals.size()},
          {"from", wanted.from},
          {"screen", kIndividualsOnScreen},
          {"choices", choices(who)}};
}

namespace {

nlohmann::json verdicts_on(const Individual& individual, const Statements& said, const Identities& who) {
  nlohmann::json verdicts = nlohmann::json::array();
  const auto mine = [&](const CaptureId& capture) {
    return std::find(individual.captures.begin(), individual.captures.end(), capture) !=
           individual.captures.end();
  };
  // Of another individual's capture the night too, for its name may recur.
  const auto called = [&](const CaptureId& other) {
    const CaptureState* capture = who.capture(other);
    if (capture == nullptr) return std::string();
    return display_name(capture->facts) + (mine(other) ? "" : ", " + capture->facts.night);
  };
  for (const auto& verdict : said.verdicts) {
    if (verdict.what.planted || !(mine(verdict.what.capture) || mine(verdict.what.other))) continue;
    const bool out = !who.in_force(verdict.stamp.id);
    verdicts.push_back({{"entry", verdict.stamp.id.value},
                        {"reader", verdict.stamp.actor.name},
                        {"time", verdict.stamp.time},
                        {"answer", name(verdict.what.answer)},
                        {"capture", verdict.what.capture.value},
                        {"capture_name", called(verdict.what.capture)},
                        {"other_name", called(verdict.what.other)},
                        {"other", verdict.what.other.value},
                        {"reason", reason_shown(verdict.stamp.actor, verdict.what)},
                        {"stands", !out}});
  }
  return verdicts;
}

}  // namespace

nlohmann::json individual_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const CaptureId id = call.capture_at(2);
  const std::int64_t position = newest_position(catalogue);
  const Statements& said = catalogue.statements();
  const Identities& who = catalogue.identities();
  const Individual* found = who.individual(IndividualId(id.value));
  if (found == nullptr) {  // joined to an older one since, or the page of a capture
    const CaptureState* capture = who.capture(id);
    if (capture != nullptr && capture->individual) found = who.individual(*capture->individual);
  }
  if (found == nullptr)
    throw Error(ErrorKind::not_found, individual_item(id.value), messages::kIsNotInCatalogue,
                messages::kLookForByNameAmong);
  const Individual individual = *found;
  nlohmann::json captures = nlohmann::json::array(), misfit_list = nlohmann::json::array();
  const CaptureState* before = nullptr;
  for (const CaptureId& one : individual.captures) {
    const CaptureState& capture = *who.capture(one);
    captures.push_back({{"capture", capture.id.value},
                        {"facts", facts_json(capture.facts)},
                        {"photos", photos_json(catalogue, capture, false)},
                        {"by_program", capture.by_program},
                        {"disputed", capture.disputed}});
    if (before != nullptr)
      for (const std::string& sentence : misfits(before->facts, capture.facts))
        misfit_list.push_back(sentence);
    before = &capture;
  }
  return {{"id", individual.id.value},
          {"name", individual.name},
          {"label", individual.label},
          {"aliases", individual.aliases},
          {"sex", name(individual.sex)},
          {"disputed", individual.disputed},
          {"captures", captures},
          {"misfits", misfit_list},
          {"verdicts", verdicts_on(individual, said, who)},
          {"position", position}};
}

}  // namespace evet::review
