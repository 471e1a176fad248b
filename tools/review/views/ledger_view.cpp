#include <algorithm>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "matcher/base/uuid.h"
#include "tools/review/capture_words.h"
#include "tools/review/dispute_parties.h"
#include "tools/review/messages.h"
#include "tools/review/views/ledger_asked.h"
#include "tools/review/views/views.h"
#include "tools/verdicts/verdict_reason.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::int64_t kEntriesOnScreen = 100;
constexpr std::size_t kMostCandidatesOfVerdict = 12;  // candidates of one verdict

std::string name_of(const Identities& who, const std::string& capture) {
  const CaptureState* found = who.capture(CaptureId(capture));
  return found == nullptr ? std::string() : display_name(found->facts);
}

// What lay on the table when the verdict was given.
nlohmann::json shown_on_table(const nlohmann::json& body, const Identities& who) {
  const auto evidence = body.find("evidence");
  if (evidence == body.end()) return nullptr;
  nlohmann::json shown = nlohmann::json::array();
  const auto list = evidence->find("shown");
  for (std::size_t i = 0; list != evidence->end() && i < list->size() && i < kMostCandidatesOfVerdict; ++i) {
    const nlohmann::json& one = (*list)[i];
    const std::string capture = one.value("capture", "");
    const CaptureState* state = who.capture(CaptureId(capture));
    const Individual* individual =
        state != nullptr && state->individual ? who.individual(*state->individual) : nullptr;
    shown.push_back(
        {{"individual", individual == nullptr ? in_words(messages::kIndividualOfThen) : individual->name},
         {"individual_id", individual == nullptr ? "" : individual->id.value},
         {"capture", capture},
         {"capture_name", name_of(who, capture)},
         {"probability", one.value("probability", 0.0)},
         {"score", one.value("score", 0.0)},
         {"matched_spots", one.value("matched_spots", 0)},
         {"photo", one.value("photo", "")},
         {"query_photo", one.value("query_photo", "")}});
  }
  return {{"shown", shown},
          {"of", list == evidence->end() ? 0 : list->size()},
          {"new_probability", evidence->value("new_probability", nlohmann::json())},
          {"maker", evidence->value("maker", "")}};
}

// The verdicts that an adjudication settled, each in words.
nlohmann::json settled_verdicts(const nlohmann::json& body, const Statements& said, const Identities& who) {
  nlohmann::json list = nlohmann::json::array();
  const auto settles = body.find("settles");
  if (settles == body.end()) return list;
  for (const auto& id : *settles) {
    if (!id.is_string()) continue;
    const auto* verdict = find_verdict(said, EntryId(id.get<std::string>()));
    std::string words = in_words(messages::kEntryIsNoVerdict);
    if (verdict != nullptr)
      words = in_words(verdict->what.other.empty() ? messages::kVerdictOfOne : messages::kVerdictOfTwo,
                       {{"who", verdict->stamp.actor.name},
                        {"date", verdict->stamp.time.substr(0, 10)},
                        {"capture", name_of(who, verdict->what.capture.value)},
                        {"other", name_of(who, verdict->what.other.value)},
                        {"answer", answer_in_words(verdict->what.answer)}});
    list.push_back({{"entry", id}, {"words", words}});
  }
  return list;
}

// What a correction changed, or an entry on a night said; exact places on the machine alone.
nlohmann::json changes_in(const nlohmann::json& body, bool local) {
  nlohmann::json out = body["changes"];
  if (!local && out.is_object()) out.erase("latitude"), out.erase("longitude");
  return out;
}

nlohmann::json sentence_parts(const Entry& entry, const Statements& said, const Identities& who, bool local) {
  const nlohmann::json body = nlohmann::json::parse(entry.body);
  nlohmann::json out = nlohmann::json::object();
  for (const char* field : {"capture", "other"}) {
    const std::string named = std::string(field) + "_name";
    out[named] = nullptr;
    if (!body.contains(field) || !body[field].is_string()) continue;
    const CaptureState* capture = who.capture(CaptureId(body[field].get<std::string>()));
    if (capture == nullptr) continue;
    out[named] = display_name(capture->facts);
    out[std::string(field) + "_night"] = capture->facts.night;
    if (!capture->individual) continue;
    out[std::string(field) + "_individual"] = who.individual(*capture->individual)->name;
  }
  for (const char* field : {"answer", "as", "reason", "label", "title", "sheet", "target", "usable", "blind",
                            "capture", "other", "name", "entries", "photos", "in_spite_of"})
    if (body.contains(field)) out[field] = body[field];
  if (body.contains("changes")) out["changes"] = changes_in(body, local);
  for (const char* field : {"site", "pond", "night"})
    if (entry.kind == NightFactsSaid::kKind && body.contains(field)) out[field] = body[field];
  if (entry.kind == Verdict::kKind) {
    out["table"] = shown_on_table(body, who), out["settles"] = settled_verdicts(body, said, who);
    if (const std::string why = reason_shown(entry.actor, body.get<Verdict>()); !why.empty())
      out["reason"] = why;
  }
  return out;
}

nlohmann::json stood_of(const Identities& then, const std::string& as_of) {
  if (as_of.empty()) return nullptr;
  std::size_t settled = 0;
  for (const CaptureState& capture : then.captures) settled += capture.individual ? 1 : 0;
  return {{"as_of", as_of},
          {"captures", then.captures.size()},
          {"settled", settled},
          {"individuals", then.individuals.size()},
          {"disputes", then.disputes.size()}};
}

// Everyone who ever signed an entry that says something of a capture.
std::set<std::string> people_of(const Statements& said) {
  std::set<std::string> out;
  const auto add = [&](const auto& list) {
    for (const auto& one : list) out.insert(one.stamp.actor.name);
  };
  add(said.captures), add(said.verdicts), add(said.closings), add(said.intakes), add(said.corrections);
  add(said.labels), add(said.withdrawals), add(said.merges), add(said.examinations);
  return out;
}

}  // namespace

nlohmann::json ledger_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const LedgerAsked asked = ledger_asked(call);
  const std::int64_t newest = newest_position(catalogue);
  const std::string head = catalogue.head_hash();
  // As of a day, all is shown as it was known then: what was taken back later still counts.
  const Statements& said = catalogue.statements();
  const Identities& now = catalogue.identities();
  const Identities then = asked.as_of.empty() ? Identities() : catalogue.identities_as_of(asked.as_of);
  const Identities& stood = asked.as_of.empty() ? now : then;
  nlohmann::json list = nlohmann::json::array();
  for (const ListedEntry& one : entries_asked(catalogue, asked, kEntriesOnScreen)) {
    list.push_back({{"position", one.position},
                    {"entry", one.entry.id.value},
                    {"time", one.entry.time},
                    {"actor", one.entry.actor.name},
                    {"program", one.entry.actor.kind == ActorKind::program},
                    {"kind", one.entry.kind},
                    {"what", sentence_parts(one.entry, said, now, call.local)},
                    {"stands", stood.in_force(one.entry.id)},
                    {"hash", one.entry.hash}});
  }
  const CaptureState* capture = now.capture(asked.capture);
  const Individual* individual = now.individual(asked.individual);
  return {
      {"entries", list},
      {"newest", newest},
      {"head_hash", head},
      {"people", people_of(said)},
      {"capture_name", capture == nullptr ? nlohmann::json() : nlohmann::json(display_name(capture->facts))},
      {"individual_name", individual == nullptr ? nlohmann::json() : nlohmann::json(individual->name)},
      {"stood", stood_of(then, asked.as_of)},
      {"screen", kEntriesOnScreen}};
}

}  // namespace evet::review
