// Which skin is dark and which is orange, whatever the light; and which of it is plainly seen.
//
// The spot network (spot_net.h) says both for each pixel, so that covers and glare that the belly finder let
// pass are left out.
#pragma once
#include "matcher/belly/strip.h"
#include "matcher/pattern/pattern.h"

namespace evet {

struct SpotMapOptions {
  double min_p_seen = 0.5;       // skin less likely plainly seen than this is unknown
  double min_valid_share = 0.5;  // of the strip pixels under a map pixel, for it to be known
  void check() const;
};

// A strip with nothing valid gives a map with nothing valid. Throws bad_input for a strip of another size.
SpotMap make_spot_map(const Strip& strip, const SpotMapOptions& options = {});

// The same belly taken to lie the other way: head where the vent was.
SpotMap turned(const SpotMap& map);

}  // namespace evet
