// Which known individual does a capture show, with what probability, and what should a person do about it?
#pragma once
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "matcher/base/ids.h"
#include "matcher/base/sex.h"
#include "matcher/pattern/pattern.h"
#include "matcher/search/llr_map.h"

namespace evet {

// Facts from the night sheet that weigh in softly; none of them ever rules a candidate out.
struct SheetFacts {
  std::string site;   // site, and pond where given
  std::string night;  // "2031-05-14"
  Sex sex = Sex::unknown;
  std::string stage;  // "adult", "subadult", "juvenile", "metamorph" or empty
  std::optional<double> svl_mm;
};

struct GalleryEntry {
  IndividualId individual;
  CaptureId capture;
  PhotoId photo;
  Pattern pattern;
  SheetFacts facts;
};

struct QueryPhoto {
  PhotoId photo;
  Pattern pattern;
};
struct QueryCapture {
  CaptureId capture;
  std::vector<QueryPhoto> photos;  // usable ones only; may not be empty
  SheetFacts facts;
};

struct Candidate {
  IndividualId individual;
  double probability = 0;
  double score = 0;        // natural-log likelihood ratio, same against different, before the prior
  double pattern_llr = 0;  // the pattern's part of it, before the catalogue's own calibration
  PhotoId best_photo;      // the individual's photo that carries the evidence
  PhotoId query_photo;     // the capture's photo it was compared with
  int matched_spots = 0;
};

enum class Advice { same, new_individual, look };  // written "same", "new", "look"
const char* name(Advice advice);

// Another capture of the same night that may show the same animal, one that is new to the catalogue.
struct NightMatch {
  CaptureId capture;
  double probability = 0;
};

struct RankedCapture {
  CaptureId capture;
  std::vector<Candidate> candidates;  // best first; with new_probability their probabilities sum to 1
  double new_probability = 1;         // that it is none of the known ones
  Advice advice = Advice::look;
  // Filled in where a night is ranked together (one_night.h), else empty and 0.
  std::vector<NightMatch> night_matches;  // likeliest first
  double gain = 0;                        // what a person's look at it is expected to save, in missed joins
};

struct MatchingModel;  // likelihood.h

struct SearchOptions {
  int shortlist = 20;  // individuals that reach the alignment
  // Candidates returned at least; more are returned until those left out hold less
  // than a thousandth together.
  int keep = 10;
  double prior_recapture = 0.5;        // that a capture here and now is of an individual in the gallery
  double wrong_join_over_missed = 10;  // a wrong join is this many times worse than a missed one
  double look_over_missed = 0.05;      // cost of a person's look, in missed joins
  std::shared_ptr<const MatchingModel> model = nullptr;  // null: the one that the program ships with
  LlrMap calibration{};                                  // of the catalogue; as shipped, changes nothing
  void check() const;
};

// What one search must not see: captures of the night it belongs to, or an animal altogether; and who is
// known not to be it.
struct LeaveOut {
  std::set<CaptureId> captures{};
  IndividualId individual{};  // empty: none
  // No candidates, and yet known of: what they would have held falls to all others and
  // to "new" in proportion.
  std::set<IndividualId> ruled_out{};
};

// Immutable once built: rank() may be called from many threads.
class Gallery {
 public:
  explicit Gallery(std::vector<GalleryEntry> entries, const SearchOptions& options = {});
  ~Gallery();
  Gallery(Gallery&&) noexcept;
  Gallery& operator=(Gallery&&) noexcept;

  // Every individual is compared, or the shortlist of them when the gallery is larger than that.
  RankedCapture rank(const QueryCapture& query) const { return rank(query, {}); }
  // The same as if the gallery had been built without what is left out (but for the shortlist of a large one,
  // which it may have filled in part).
  RankedCapture rank(const QueryCapture& query, const LeaveOut& without) const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace evet
