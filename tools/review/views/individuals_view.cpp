#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/uuid.h"
#include "tools/review/capture_words.h"
#include "tools/review/views/views.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kOneScreen = 60;

bool bears(const Individual& individual, const std::string& lower) {
  const auto has = [&](const std::string& text) {
    return lower_ascii(text).find(lower) != std::string::npos;
  };
  return has(individual.name) || std::any_of(individual.aliases.begin(), individual.aliases.end(), has);
}

}  // namespace

nlohmann::json individuals_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const Identities& who = catalogue.identities();
  const std::string find = lower_ascii(call.query("find"));
  const std::string from_text = call.query("from");
  std::size_t from = 0;
  if (!from_text.empty()) {
    if (from_text.size() > 9 || from_text.find_first_not_of("0123456789") != std::string::npos)
      throw Error(ErrorKind::bad_input, "from " + evet::quoted(from_text), "it is not a number");
    from = std::stoul(from_text);
  }
  nlohmann::json list = nlohmann::json::array();
  std::size_t found = 0;
  for (const Individual& individual : who.individuals) {
    if (!find.empty() && !bears(individual, find)) continue;
    if (found++ < from || list.size() == kOneScreen) continue;
    nlohmann::json strip;
    for (auto at = individual.captures.rbegin(); at != individual.captures.rend() && strip.is_null(); ++at)
      if (const auto photo = best_photo(*who.capture(*at))) strip = photo->value;
    list.push_back({{"id", individual.id.value},
                    {"name", individual.name},
                    {"aliases", individual.aliases},
                    {"sex", name(individual.sex)},
                    {"captures", individual.captures.size()},
                    {"first", who.capture(individual.captures.front())->facts.night},
                    {"last", who.capture(individual.captures.back())->facts.night},
                    {"disputed", individual.disputed},
                    {"strip", strip}});
  }
  return {{"individuals", list}, {"found", found}, {"from", from}, {"screen", kOneScreen}};
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
                        {"reason", verdict.what.reason},
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
    throw Error(ErrorKind::not_found, "individual " + id.value, "it is not in the catalogue",
                "look for it by name among the individuals");
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
