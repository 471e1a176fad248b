#include "tools/words/names.h"

#include <algorithm>
#include <tuple>
#include <vector>

#include "matcher/base/error.h"
#include "matcher/base/natural_order.h"
#include "tools/words/items.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

std::string with_night(const CaptureState& capture) {
  return capture.facts.night + "/" + capture.facts.name;
}

bool has_photo_named(const CaptureState& capture, const std::string& name) {
  return std::any_of(capture.photos.begin(), capture.photos.end(),
                     [&](const PhotoState& photo) { return photo.name == name; });
}

}  // namespace

bool listed_before(const CaptureState& a, const CaptureState& b) {
  const auto key = [](const CaptureState& c) {
    return std::tuple(c.facts.night, c.facts.site, c.facts.pond, natural_key(c.facts.name), c.id);
  };
  return key(a) < key(b);
}

Names::Names(const Identities& identities) : identities_(identities) {
  for (const CaptureState& capture : identities.captures) {
    ++captures_named_[capture.facts.name];
    ++captures_named_[with_night(capture)];
  }
  for (const Individual& individual : identities.individuals) {
    ++individuals_named_[individual.name];
    for (const std::string& alias : individual.aliases) ++individuals_named_[alias];
  }
}

std::string Names::of(const CaptureState& capture) const {
  if (captures_named_.at(capture.facts.name) == 1) return capture.facts.name;
  const std::string longer = with_night(capture);
  return captures_named_.at(longer) == 1 ? longer : capture.id.value;
}

std::string Names::of(const Individual& individual) const {
  return individuals_named_.at(individual.name) == 1 ? individual.name : individual.id.value;
}

std::string Names::of(const IndividualId& id) const {
  const Individual* individual = identities_.individual(id);
  return individual != nullptr ? of(*individual) : id.value;
}

const CaptureState& Names::capture(const std::string& text) const {
  if (const CaptureState* by_id = identities_.capture(CaptureId(text))) return *by_id;
  std::vector<const CaptureState*> found;
  for (const CaptureState& capture : identities_.captures)
    if (capture.facts.name == text || with_night(capture) == text) found.push_back(&capture);
  if (found.empty())
    for (const CaptureState& capture : identities_.captures)
      if (has_photo_named(capture, text)) found.push_back(&capture);
  if (found.size() == 1) return *found.front();
  if (found.size() > 1) {
    std::string which;
    for (size_t i = 0; i < found.size() && i < 5; ++i) which += (i > 0 ? ", " : "") + of(*found[i]);
    throw Error(ErrorKind::conflict, capture_item(in_quotes(text)),
                Message(messages::kSeveralOfThatName, {{"n", found.size()}}),
                Message(messages::kSayWhich, {{"captures", which}}));
  }
  std::vector<std::string> known;
  for (const CaptureState& capture : identities_.captures) known.push_back(of(capture));
  const auto near = near_miss(text, known);
  throw Error(ErrorKind::not_found, capture_item(in_quotes(text)), messages::kNoneOfThatName,
              near ? Message(messages::kDidYouMeanCapture, {{"capture", in_quotes(*near)}})
                   : Message(messages::kHowToNameCapture));
}

}  // namespace evet
