#include "tools/verdicts/labels.h"

#include <algorithm>
#include <map>

#include "matcher/base/error.h"
#include "tools/verdicts/messages.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet {
namespace {

bool bears(const Individual& individual, const std::string& lower) {
  const auto same = [&](const std::string& name) { return lower_ascii(name) == lower; };
  return same(individual.label) || same(individual.name) || same(individual.id.value) ||
         std::any_of(individual.aliases.begin(), individual.aliases.end(), same);
}

// Of each capture the entry that first named it: a label, or its own entry where the sheet knew the animal.
std::map<CaptureId, EntryId> first_names(const Statements& statements, const Identities& who) {
  std::map<CaptureId, EntryId> first;
  const auto note = [&](const CaptureId& id, const EntryId& entry) {
    const CaptureState* capture = who.capture(id);
    if (capture == nullptr) return;
    const auto [at, fresh] = first.try_emplace(capture->id, entry);
    if (!fresh) at->second = std::min(at->second, entry);
  };
  for (const auto& said : statements.labels)
    if (who.in_force(said.stamp.id)) note(said.what.capture, said.stamp.id);
  for (const auto& said : statements.captures) {
    const CaptureState* capture = who.capture(said.what.id);
    if (capture != nullptr && !capture->facts.individual.empty()) note(said.what.id, said.stamp.id);
  }
  return first;
}

}  // namespace

void refuse_shared_label(const Identities& who, const std::string& label, const std::set<IndividualId>& own) {
  if (label.find_first_not_of(' ') == std::string::npos)
    throw Error(ErrorKind::bad_input, "label", messages::kLabelIsEmpty, messages::kGiveNameOrLeaveIt);
  const std::string lower = lower_ascii(label);
  for (const Individual& individual : who.individuals) {
    if (own.contains(individual.id) || !bears(individual, lower)) continue;
    const CaptureFacts& first = who.capture(individual.captures.front())->facts;
    throw Error(ErrorKind::conflict, label_item(in_quotes(label)),
                Message(messages::kAnotherBearsLabel, {{"night", first.night}}), messages::kGiveAnotherLabel);
  }
}

LabelGiven label_for(const Individual& individual, const std::string& label, const Statements& statements,
                     const Identities& who) {
  refuse_shared_label(who, label, {individual.id});
  const std::map<CaptureId, EntryId> named = first_names(statements, who);
  CaptureId to = individual.captures.front();
  EntryId oldest;
  for (const CaptureId& id : individual.captures)
    if (const auto at = named.find(id); at != named.end() && (oldest.empty() || at->second < oldest))
      to = id, oldest = at->second;
  return {to, label};
}

std::vector<std::string> shared_labels(const Identities& who) {
  std::map<std::string, std::vector<std::string>> bearers;
  for (const Individual& individual : who.individuals)
    if (!individual.label.empty()) bearers[individual.label].push_back(individual.name);
  std::vector<std::string> out;
  for (const auto& [label, names] : bearers)
    if (names.size() > 1)
      out.push_back(Message(messages::kLabelOfSeveral,
                            {{"n", names.size()}, {"label", in_quotes(label)}, {"names", listed(names)}})
                        .words());
  return out;
}

}  // namespace evet
