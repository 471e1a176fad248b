// Captures of one night at one place, ranked together: an animal is in one trap at a time, so two captures
// that both look like the same individual take probability from each other.
//
// Marginals of the joint posterior over who is who, by belief propagation on the assignment of captures to
// individuals: Williams & Lau 2014, IEEE Trans. Aerospace and Electronic Systems 50:2942. Captures that share
// no candidate keep their probabilities.
#pragma once
#include <vector>

#include "matcher/search/rank.h"

namespace evet {

struct OneNightOptions {
  // How much less likely it is that an individual shows in two captures of a night (caught again the same
  // night, photographed twice under two labels) than that it shows in one. Common practice, no source.
  double twice_in_a_night = 0.02;
  int rounds = 200;
  void check() const;
};

// Changes the probabilities, the order of the candidates and the advice; scores stay.
void rank_together(std::vector<RankedCapture>& night, const SearchOptions& costs = {},
                   const OneNightOptions& options = {});

}  // namespace evet
