#include "matcher/catalogue/identities.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/catalogue/messages.h"

namespace evet {

bool CaptureState::usable() const {
  return std::any_of(photos.begin(), photos.end(), [](const PhotoState& photo) { return photo.usable; });
}

const CaptureState* Identities::capture(const CaptureId& id) const {
  const auto at = capture_at.find(id);
  return at == capture_at.end() ? nullptr : &captures[at->second];
}

const Individual* Identities::individual(const IndividualId& id) const {
  const auto at = individual_at.find(id);
  return at == individual_at.end() ? nullptr : &individuals[at->second];
}

const Individual& Identities::individual_named(const std::string& text) const {
  const Individual* found = nullptr;
  for (const Individual& one : individuals) {
    const bool bears = one.id.value == text || one.name == text || one.label == text ||
                       std::find(one.aliases.begin(), one.aliases.end(), text) != one.aliases.end();
    if (!bears) continue;
    if (found != nullptr)
      throw Error(
          ErrorKind::conflict, "individual " + text,
          Message(messages::kSeveralIndividualsBearNameAnd, {{"found", found->name}, {"one", one.name}}),
          messages::kUseId);
    found = &one;
  }
  if (found == nullptr) throw Error(ErrorKind::not_found, "individual " + text, messages::kIsNotInCatalogue);
  return *found;
}

bool Identities::in_force(const EntryId& id) const {
  return !std::binary_search(out_of_force.begin(), out_of_force.end(), id);
}

size_t Identities::unsettled() const {
  return static_cast<size_t>(std::count_if(captures.begin(), captures.end(), [](const CaptureState& capture) {
    return !capture.individual && !capture.closed;
  }));
}

}  // namespace evet
