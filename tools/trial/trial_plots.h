// The pictures of a trial, as SVG that takes the page's ink.
#pragma once
#include <string>
#include <vector>

#include "tools/trial/trial_score.h"

namespace evet::trial {

struct Picture {
  std::string name;  // of the file, without ending: "rank-k"
  std::string title, svg;
};
// Rank-k identification rate; FNIR against FPIR with intervals; the same as a DET curve on normal-deviate
// axes (Martin et al. 1997, Eurospeech 4:1895); reliability. Those for which there are no
// searches are left out.
std::vector<Picture> pictures(const Scores& scores);

}  // namespace evet::trial
