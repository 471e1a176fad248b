#include <algorithm>

#include "tools/review/capture_words.h"
#include "tools/review/views/views.h"
#include "tools/words/names.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostFound = 24;

}  // namespace

nlohmann::json captures_view(Call& call) {
  const Identities& who = call.desk.catalogue.identities();
  const std::string find = lower_ascii(call.query("find"));
  const auto has = [&](const std::string& text) { return lower_ascii(text).find(find) != std::string::npos; };
  std::vector<const CaptureState*> found;
  for (const CaptureState& capture : who.captures) {
    const Individual* individual = capture.individual ? who.individual(*capture.individual) : nullptr;
    const bool named = has(capture.facts.name) || has(capture.facts.night) ||
                       has(capture.facts.night + "/" + capture.facts.name) ||
                       (individual != nullptr && has(individual->name)) ||
                       std::any_of(capture.photos.begin(), capture.photos.end(),
                                   [&](const PhotoState& photo) { return has(photo.name); });
    if (named && capture.usable()) found.push_back(&capture);
  }
  // The latest nights are what is mostly meant.
  std::stable_sort(found.begin(), found.end(), [](const CaptureState* a, const CaptureState* b) {
    return a->facts.night != b->facts.night ? a->facts.night > b->facts.night : listed_before(*a, *b);
  });
  nlohmann::json list = nlohmann::json::array();
  for (std::size_t i = 0; i < found.size() && i < kMostFound; ++i) {
    const CaptureState& capture = *found[i];
    list.push_back(
        {{"capture", capture.id.value},
         {"name", display_name(capture.facts)},
         {"night", capture.facts.night},
         {"individual",
          capture.individual ? nlohmann::json(who.individual(*capture.individual)->name) : nlohmann::json()},
         {"strip", best_photo(capture)->value}});
  }
  return {{"captures", list}, {"found", found.size()}};
}

}  // namespace evet::review
