#include "tools/trial/trial_catalogue.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>

#include "matcher/base/error.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/catalogue/search_catalogue.h"
#include "tools/trial/messages.h"
#include "tools/words/names.h"

namespace evet::trial {
namespace {

constexpr size_t kPhotosAtATime = 32;

Identities as_people_have_it(const Statements& statements) {
  Statements people = statements;
  std::erase_if(people.verdicts,
                [](const Said<Verdict>& said) { return said.stamp.actor.kind == ActorKind::program; });
  return fold(people);
}

std::string or_unknown(const std::string& text) {
  return text.empty() ? "not given" : text;
}

std::string quality_of(Catalogue& catalogue, const CaptureState& capture) {
  for (const PhotoState& photo : capture.photos)
    if (photo.usable && catalogue.photo(photo.photo, capture.id).examination.notes.empty())
      return "a photo without remarks";
  return capture.usable() ? "remarks on every photo" : "no usable photo";
}

int year_of(const std::string& night) {
  return std::atoi(night.substr(0, 4).c_str());
}

// To the nearest season in which another capture of the animal could have been found.
void tell_years_apart(std::vector<KnownCapture>& captures) {
  std::map<std::string, std::vector<const KnownCapture*>> of_individual;
  for (const KnownCapture& c : captures)
    if (!c.capture.photos.empty()) of_individual[c.individual].push_back(&c);
  for (KnownCapture& c : captures) {
    int nearest = 1000;
    for (const KnownCapture* other : of_individual[c.individual])
      if (other->evening != c.evening)
        nearest =
            std::min(nearest, std::abs(year_of(other->capture.facts.night) - year_of(c.capture.facts.night)));
    if (nearest == 1000) continue;  // no mate, no search with one
    c.groups["years apart"] = nearest == 0   ? "same year"
                              : nearest == 1 ? "1 year"
                              : nearest == 2 ? "2 years"
                                             : "3 years or more";
  }
}

// Without its photos' patterns.
KnownCapture known_capture(Catalogue& catalogue, const CaptureState& capture, const std::string& individual) {
  KnownCapture known;
  known.individual = individual;
  known.capture = {capture.id, {}, sheet_facts(capture.facts)};
  known.evening = capture.facts.night + "\n" + known.capture.facts.site;
  known.groups = {{"site", or_unknown(known.capture.facts.site)},
                  {"season", capture.facts.night.substr(0, 4)},
                  {"observer", or_unknown(capture.facts.observer)},
                  {"sex", name(capture.facts.sex)},
                  {"quality", quality_of(catalogue, capture)}};
  return known;
}

// `capture_of`: of each photo, into the set's captures.
void read_patterns(Catalogue& catalogue, const std::vector<PhotoRef>& photos,
                   const std::vector<size_t>& capture_of, int threads,
                   const std::function<void(size_t done, size_t all)>& progress, KnownSet& out) {
  for (size_t from = 0; from < photos.size(); from += kPhotosAtATime) {
    const size_t to = std::min(photos.size(), from + kPhotosAtATime);
    const std::vector<PhotoRef> some(photos.begin() + static_cast<std::ptrdiff_t>(from),
                                     photos.begin() + static_cast<std::ptrdiff_t>(to));
    std::vector<std::optional<Pattern>> patterns = patterns_of(catalogue, some, threads);
    for (size_t k = 0; k < some.size(); ++k)
      if (patterns[k])
        out.captures[capture_of[from + k]].capture.photos.push_back({some[k].photo, std::move(*patterns[k])});
    if (progress) progress(to, photos.size());
  }
}

}  // namespace

KnownSet known_captures(Catalogue& catalogue, int threads,
                        const std::function<void(size_t done, size_t all)>& progress) {
  const Identities now = catalogue.identities();
  const Identities who = as_people_have_it(catalogue.statements());
  const Names names(who);
  KnownSet out;
  std::vector<PhotoRef> photos;
  std::vector<size_t> capture_of;
  for (const CaptureState& capture : who.captures) {
    ++out.captures_in_catalogue;
    out.without_usable_photo += !capture.usable();
    const CaptureState* as_it_stands = now.capture(capture.id);
    if (capture.disputed || (as_it_stands != nullptr && as_it_stands->disputed)) {
      ++out.disputed;
      continue;
    }
    if (!capture.individual) {
      ++(as_it_stands != nullptr && as_it_stands->individual ? out.by_program : out.unsettled);
      continue;
    }
    out.capture_names[capture.id.value] = capture.facts.night + "/" + capture.facts.name;
    for (const PhotoState& photo : capture.photos)
      if (photo.usable)
        photos.push_back({photo.photo, capture.id}), capture_of.push_back(out.captures.size());
    out.captures.push_back(known_capture(catalogue, capture, names.of(*capture.individual)));
  }
  if (out.captures.empty())
    throw Error(ErrorKind::not_found, catalogue.folder().string(), messages::kHasNoIdentityPersonConfirmed,
                messages::kSettleCapturesWithEvetReview);
  read_patterns(catalogue, photos, capture_of, threads, progress, out);
  tell_years_apart(out.captures);
  std::map<std::string, std::set<std::string>> evenings;
  for (const KnownCapture& c : out.captures) {
    auto& of_individual = evenings[c.individual];
    if (!c.capture.photos.empty()) of_individual.insert(c.evening);
  }
  out.individuals = evenings.size();
  for (const auto& [individual, of_individual] : evenings) out.caught_twice += of_individual.size() > 1;
  if (out.individuals < 2)
    throw Error(ErrorKind::bad_input, catalogue.folder().string(), messages::kAllIsConfirmedIsOne,
                messages::kConfirmAtLeastTwoOne);
  return out;
}

}  // namespace evet::trial
