// Captures of one night at one place, ranked together (night_joint.h): an animal is in one trap at a time, so
// two captures that both look like the same individual take probability from each other; and two captures
// that nobody knows may be one new animal.
//
// Then, in what order should a person look? By what a look is expected to save (the value of perfect
// information: Howard 1966, IEEE Trans. Systems Science and Cybernetics 2:22): the cost of taking the
// program's word for that capture, which a look takes away, and what its answer saves on the captures that
// compete with it.
#pragma once
#include <set>
#include <vector>

#include "matcher/search/rank.h"

namespace evet {

struct OneNightOptions {
  // How much less likely it is that an individual shows in two captures of a night (caught again the same
  // night, photographed twice under two labels) than that it shows in one. Common practice, no source.
  double twice_in_a_night = 0.02;
  std::set<IndividualId> taken{};  // individuals that a settled capture of the night shows already
  double unseen = 100;             // animals there that the catalogue does not know, roughly
  size_t states = 20000;           // see night_joint.h
  void check() const;
};

// Two captures of the night against each other.
struct NightPair {
  size_t a = 0, b = 0;  // into the night
  double llr = 0;       // same animal against different, natural log
};

// Changes the probabilities, the order of the candidates, the advice, and fills in night_matches
// and gain; scores stay.
void rank_together(std::vector<RankedCapture>& night, const SearchOptions& costs = {},
                   const OneNightOptions& options = {}, const std::vector<NightPair>& pairs = {});

// The order in which to look: by gain, the most first. Indices into `ranked`.
std::vector<size_t> looking_order(const std::vector<RankedCapture>& ranked);

}  // namespace evet
