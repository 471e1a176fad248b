#include "matcher/catalogue/search_catalogue.h"

#include <algorithm>
#include <map>
#include <mutex>

#include "matcher/base/error.h"
#include "matcher/base/parallel.h"
#include "matcher/base/place.h"
#include "matcher/catalogue/calibration.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/search/one_night.h"

namespace evet {
namespace {

// The version of the code that ranks, for the ledger.
constexpr const char* kRanker = "ranker 2";

struct Wanted {  // a photo whose pattern is wanted, and whose it is
  PhotoRef ref;
  const CaptureState* capture;
};

std::vector<Wanted> usable_photos(const CaptureState& capture) {
  std::vector<Wanted> out;
  for (const PhotoState& photo : capture.photos)
    if (photo.usable) out.push_back({{photo.photo, capture.id}, &capture});
  return out;
}

std::vector<std::optional<Pattern>> patterns_of(Catalogue& catalogue, const std::vector<Wanted>& wanted,
                                                int threads, PatternCache* kept, LeftOut* left_out) {
  std::vector<PhotoRef> refs;
  refs.reserve(wanted.size());
  for (const Wanted& one : wanted) refs.push_back(one.ref);
  return kept != nullptr ? kept->of(catalogue, refs, threads, left_out)
                         : patterns_of(catalogue, refs, threads, left_out);
}

std::vector<std::optional<QueryCapture>> queries_of(Catalogue& catalogue,
                                                    const std::vector<const CaptureState*>& captures,
                                                    int threads, PatternCache* kept, LeftOut* left_out) {
  std::vector<Wanted> wanted;
  std::vector<size_t> first;
  for (const CaptureState* capture : captures) {
    first.push_back(wanted.size());
    for (Wanted& one : usable_photos(*capture)) wanted.push_back(std::move(one));
  }
  first.push_back(wanted.size());
  std::vector<std::optional<Pattern>> patterns = patterns_of(catalogue, wanted, threads, kept, left_out);
  std::vector<std::optional<QueryCapture>> out(captures.size());
  for (size_t i = 0; i < captures.size(); ++i) {
    QueryCapture query{captures[i]->id, {}, sheet_facts(captures[i]->facts)};
    for (size_t k = first[i]; k < first[i + 1]; ++k)
      if (patterns[k]) query.photos.push_back({wanted[k].ref.photo, std::move(*patterns[k])});
    if (!query.photos.empty()) out[i] = std::move(query);
  }
  return out;
}

using NightAndPlace = std::pair<std::string, std::string>;
NightAndPlace night_and_place(const CaptureState& capture) {
  const SheetFacts facts = sheet_facts(capture.facts);
  return {facts.night, facts.site};
}

// Those captures of a night that nobody in the catalogue explains, against each other.
std::vector<NightPair> pairs_of(const std::vector<RankedCapture>& night,
                                const std::vector<const QueryCapture*>& queries,
                                const std::map<CaptureId, PeopleSaid>& people, SearchOptions search,
                                int threads) {
  constexpr double kPerhapsNew = 0.02;
  std::vector<size_t> perhaps_new;
  std::vector<GalleryEntry> entries;
  std::map<IndividualId, size_t> place;
  for (size_t i = 0; i < night.size(); ++i) {
    if (night[i].new_probability < kPerhapsNew) continue;
    perhaps_new.push_back(i);
    const IndividualId own(queries[i]->capture.value);
    place[own] = i;
    for (const QueryPhoto& photo : queries[i]->photos)
      entries.push_back({own, queries[i]->capture, photo.photo, photo.pattern, queries[i]->facts});
  }
  if (perhaps_new.size() < 2) return {};
  search.keep = static_cast<int>(perhaps_new.size());
  const Gallery gallery(std::move(entries), search);
  std::vector<std::vector<NightPair>> found(perhaps_new.size());
  for_each_item(perhaps_new.size(), threads, [&](size_t k) {
    const size_t i = perhaps_new[k];
    const RankedCapture ranked = gallery.rank(*queries[i], {{}, IndividualId(queries[i]->capture.value)});
    for (const Candidate& candidate : ranked.candidates)
      if (const size_t other = place.at(candidate.individual);
          other < i && !people.at(night[i].capture).has_ruled_out(night[other].capture))
        found[k].push_back({other, i, candidate.score});
  });
  std::vector<NightPair> pairs;
  for (const std::vector<NightPair>& some : found) pairs.insert(pairs.end(), some.begin(), some.end());
  return pairs;
}

}  // namespace

SheetFacts sheet_facts(const CaptureFacts& facts) {
  return {place_of(facts.site, facts.pond), facts.night, facts.sex, facts.stage, facts.svl_mm};
}

CatalogueGallery gallery_of(Catalogue& catalogue, const GalleryOptions& options) {
  // A copy: reading photos may refresh the catalogue's own.
  const Identities who = options.who != nullptr ? *options.who : catalogue.identities();
  std::vector<Wanted> wanted;
  for (const CaptureState& capture : who.captures)
    if (capture.individual && !options.leave_out.contains(capture.id))
      for (Wanted& one : usable_photos(capture)) wanted.push_back(std::move(one));
  std::vector<std::optional<Pattern>> patterns =
      patterns_of(catalogue, wanted, options.threads, options.kept, options.left_out);
  std::vector<GalleryEntry> entries;
  std::unordered_map<PhotoId, CaptureId> capture_of;
  std::set<IndividualId> individuals;
  for (size_t i = 0; i < wanted.size(); ++i) {
    if (!patterns[i]) continue;
    const CaptureState& capture = *wanted[i].capture;
    entries.push_back({*capture.individual, capture.id, wanted[i].ref.photo, std::move(*patterns[i]),
                       sheet_facts(capture.facts)});
    capture_of.emplace(wanted[i].ref.photo, capture.id);
    individuals.insert(*capture.individual);
  }
  const size_t photos = entries.size();
  return {Gallery(std::move(entries), options.search ? *options.search : search_options_of(catalogue)),
          std::move(capture_of), individuals.size(), photos};
}

std::optional<QueryCapture> query_of(Catalogue& catalogue, const CaptureId& capture, int threads) {
  const CaptureState* found = catalogue.identities().capture(capture);
  if (found == nullptr)
    throw Error(ErrorKind::not_found, "capture " + capture.value, messages::kIsNotInCatalogue);
  const CaptureState state = *found;
  return queries_of(catalogue, {&state}, threads, nullptr, nullptr).front();
}

const RankedCapture* Ranking::of(const CaptureId& capture) const {
  for (const RankedCapture& ranked : captures)
    if (ranked.capture == capture) return &ranked;
  return nullptr;
}

Ranking rank_unsettled(Catalogue& catalogue, const RankRequest& request) {
  const bool supposed = request.supposed != nullptr;
  const Statements& statements = supposed ? request.supposed->statements : catalogue.statements();
  const Identities who = supposed ? request.supposed->who : catalogue.identities();
  std::vector<const CaptureState*> unsettled;
  std::set<CaptureId> ids;
  for (const CaptureState& capture : who.captures)
    if (!capture.individual && !capture.closed &&
        (request.night.empty() || capture.facts.night == request.night))
      unsettled.push_back(&capture), ids.insert(capture.id);
  std::map<CaptureId, PeopleSaid> people = people_said(statements, who, ids);
  const SearchOptions search = request.search ? *request.search : search_options_of(catalogue);
  LeftOut left_out;
  Ranking out{{},     {},
              {},     gallery_of(catalogue, {search, {}, request.threads, request.kept, &left_out, &who}),
              search, std::move(people)};
  const auto queries = queries_of(catalogue, unsettled, request.threads, request.kept, &left_out);
  out.left_out = std::move(left_out);

  std::vector<RankedCapture> ranked(unsettled.size());
  std::mutex mutex;
  size_t done = 0;
  for_each_item(unsettled.size(), request.threads, [&](size_t i) {
    if (queries[i])
      ranked[i] =
          out.gallery.gallery.rank(*queries[i], {.ruled_out = out.people.at(unsettled[i]->id).ruled_out()});
    if (!request.progress) return;
    const std::lock_guard lock(mutex);
    request.progress(++done, unsettled.size());
  });

  std::map<NightAndPlace, std::vector<size_t>> nights;
  for (size_t i = 0; i < unsettled.size(); ++i) {
    if (queries[i])
      nights[night_and_place(*unsettled[i])].push_back(i);
    else
      out.unusable.push_back(unsettled[i]->id);
  }
  std::map<NightAndPlace, std::set<IndividualId>> taken;
  for (const CaptureState& capture : who.captures)
    if (capture.individual) taken[night_and_place(capture)].insert(*capture.individual);
  for (const auto& [night, members] : nights) {
    std::vector<RankedCapture> together;
    std::vector<const QueryCapture*> of_night;
    for (const size_t i : members) together.push_back(std::move(ranked[i])), of_night.push_back(&*queries[i]);
    OneNightOptions options;
    options.taken = taken[night];
    // As many again as the prior of a recapture leaves for animals that the catalogue does not know.
    options.unseen =
        static_cast<double>(out.gallery.individuals) * (1 - search.prior_recapture) / search.prior_recapture;
    rank_together(together, search, options,
                  pairs_of(together, of_night, out.people, search, request.threads));
    for (size_t k = 0; k < members.size(); ++k) ranked[members[k]] = std::move(together[k]);
  }
  for (size_t i = 0; i < unsettled.size(); ++i)
    if (queries[i]) out.captures.push_back(std::move(ranked[i]));
  bind_to(out.people, out.captures);
  return out;
}

Evidence evidence_of(const RankedCapture& ranked, const CatalogueGallery& gallery) {
  Evidence evidence;
  evidence.maker = std::string(kRanker) + ", weights " + matching_model_id();
  for (const Candidate& candidate : ranked.candidates) {
    const auto capture = gallery.capture_of.find(candidate.best_photo);
    evidence.shown.push_back({candidate.individual,
                              capture == gallery.capture_of.end() ? CaptureId() : capture->second,
                              candidate.best_photo, candidate.query_photo, candidate.probability,
                              candidate.score, candidate.matched_spots});
  }
  evidence.new_probability = ranked.new_probability;
  return evidence;
}

}  // namespace evet
