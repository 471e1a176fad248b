// What a network's looks gave on rendered photos, beside the truth: from this the odds are fitted that a
// strip lies right, that its head end is right, and that there is a belly at all. Always with a network that
// never saw the world it is asked about: on its own world it is surer than it may be.
#pragma once
#include <cstdint>
#include <iosfwd>
#include <string>
#include <vector>

#include "matcher/belly/network_provider.h"
#include "matcher/belly/strip_hypotheses.h"
#include "tools/render/scene.h"

namespace evet::train {

struct LaidFacts {
  StripHypothesis laid;
  double landing =
      1;  // median over plainly seen skin: how far off the strip lies, belly lengths, either end up
  bool head_right = false;
};

struct LayingFacts {
  render::CaptureSpec spec;
  LookFacts looks;
  double p_head_right = 0;
  double belly_share = 0;       // of the picture, that shows belly
  std::vector<LaidFacts> laid;  // best first; empty where none was laid
};

LayingFacts laying_facts(const render::CaptureSpec& spec, const Looker& looker);

// One row a hypothesis; a photo without any has one row with `along` -1.
void write_header(std::ostream& out);
void write_rows(std::ostream& out, const LayingFacts& facts);

}  // namespace evet::train
