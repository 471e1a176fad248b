// The catalogue's captures, ready for the search: a gallery of everyone who is somebody, and the unsettled
// captures of a night ranked against it.
#pragma once
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "matcher/catalogue/pattern_cache.h"
#include "matcher/catalogue/people_said.h"
#include "matcher/search/rank.h"

namespace evet {

SheetFacts sheet_facts(const CaptureFacts& facts);

// The ledger as it would stand with more in it than there is: for what would follow if something were said.
struct Supposed {
  Statements statements;
  Identities who;  // the fold of them
};

struct GalleryOptions {
  std::optional<SearchOptions> search;  // absent: the catalogue's own, search_options_of()
  std::set<CaptureId> leave_out;        // a settled capture that is to be looked at afresh
  int threads = 1;
  PatternCache* kept = nullptr;     // where patterns wait for the next ranking; may be null
  LeftOut* left_out = nullptr;      // photos that could not be looked at; may be null
  const Identities* who = nullptr;  // null: as the ledger has it
};

struct CatalogueGallery {
  Gallery gallery;
  std::unordered_map<PhotoId, CaptureId> capture_of;  // of the photos in the gallery
  size_t individuals = 0, photos = 0;
};

// Every usable photo of every capture that belongs to an individual.
CatalogueGallery gallery_of(Catalogue& catalogue, const GalleryOptions& options = {});

// All usable photos of the capture; nothing when it has none. Errors: not_found for an unknown capture.
std::optional<QueryCapture> query_of(Catalogue& catalogue, const CaptureId& capture, int threads = 1);

struct RankRequest {
  std::string night;                    // empty: every night
  std::optional<SearchOptions> search;  // absent: the catalogue's own, search_options_of()
  int threads = 1;
  std::function<void(size_t done, size_t all)> progress;  // may be empty; called from one thread at a time
  PatternCache* kept = nullptr;                           // as in GalleryOptions
  const Supposed* supposed = nullptr;                     // null: as the ledger stands
};

struct Ranking {
  std::vector<RankedCapture> captures;  // in the catalogue's order (night, then id)
  std::vector<CaptureId> unusable;      // unsettled, and no photo of theirs can be matched
  LeftOut left_out;                     // photos that could not be looked at, of anybody
  CatalogueGallery gallery;
  SearchOptions search;                    // what was used
  std::map<CaptureId, PeopleSaid> people;  // what the advice is bound by: of every capture, unusable ones too
  const RankedCapture* of(const CaptureId& capture) const;
};

// Every capture not yet settled, each night at each place ranked together (see search/one_night.h), those
// that may be new compared with each other as well, and bound by what people have said (people_said.h). The
// same at any number of threads.
Ranking rank_unsettled(Catalogue& catalogue, const RankRequest& request = {});

// The ranking as it lay on the table, for a verdict.
Evidence evidence_of(const RankedCapture& ranked, const CatalogueGallery& gallery);

}  // namespace evet
