#include "tools/words/label_given.h"

#include <algorithm>
#include <map>

#include "matcher/base/error.h"
#include "tools/words/text.h"

namespace evet {
namespace {

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

LabelGiven label_for(const Individual& individual, const std::string& label, const Statements& statements,
                     const Identities& who) {
  if (label.empty() || label.find_first_not_of(' ') == std::string::npos)
    throw Error(ErrorKind::bad_input, "label", "it is empty", "give a name, or leave the one that it has");
  const std::string lower = lower_ascii(label);
  for (const Individual& other : who.individuals) {
    if (other.id == individual.id) continue;
    const auto same = [&](const std::string& name) { return lower_ascii(name) == lower; };
    if (same(other.name) || same(other.label) ||
        std::any_of(other.aliases.begin(), other.aliases.end(), same))
      throw Error(ErrorKind::conflict, "label " + evet::quoted(label),
                  "another individual, first caught on " + who.capture(other.captures.front())->facts.night +
                      ", bears that name",
                  "choose another, or say that the two are the same animal");
  }
  const std::map<CaptureId, EntryId> named = first_names(statements, who);
  CaptureId to = individual.captures.front();
  EntryId oldest;
  for (const CaptureId& id : individual.captures)
    if (const auto at = named.find(id); at != named.end() && (oldest.empty() || at->second < oldest))
      to = id, oldest = at->second;
  return {to, label};
}

}  // namespace evet
