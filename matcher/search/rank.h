// Which known individual does a capture show, with what probability, and what should a person do about it?
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/ids.h"
#include "matcher/pattern/pattern.h"

namespace evet {

enum class Sex { unknown, female, male };

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
  double score = 0;     // natural-log likelihood ratio, same against different, before the prior
  PhotoId best_photo;   // the individual's photo that carries the evidence
  PhotoId query_photo;  // the capture's photo it was compared with
  int matched_spots = 0;
};

enum class Advice { same, new_individual, look };  // written "same", "new", "look"
const char* name(Advice advice);

struct RankedCapture {
  CaptureId capture;
  std::vector<Candidate> candidates;  // best first; with new_probability their probabilities sum to 1
  double new_probability = 1;
  Advice advice = Advice::look;
};

struct MatchingModel;  // likelihood.h

struct SearchOptions {
  int shortlist = 20;  // individuals that reach the alignment
  // Candidates returned at least; more are returned until those left out hold less than a thousandth
  // together.
  int keep = 10;
  double prior_recapture = 0.5;        // that a capture here and now is of an individual in the gallery
  double wrong_join_over_missed = 10;  // a wrong join is this many times worse than a missed one
  double look_over_missed = 0.05;      // cost of a person's look, in missed joins
  std::shared_ptr<const MatchingModel> model = nullptr;  // null: the one that the program ships with
  void check() const;
};

// Immutable once built: rank() may be called from many threads.
class Gallery {
 public:
  explicit Gallery(std::vector<GalleryEntry> entries, const SearchOptions& options = {});
  ~Gallery();
  Gallery(Gallery&&) noexcept;
  Gallery& operator=(Gallery&&) noexcept;

  // Every individual is compared, or the shortlist of them when the gallery is larger than that.
  RankedCapture rank(const QueryCapture& query) const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace evet
