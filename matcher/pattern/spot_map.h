// Which skin is dark and which is orange, whatever the light; and which of it is plainly seen.
//
// The spot network (strip_net.h) says both for each pixel, so that covers and glare that the belly finder let
// pass are left out. `make_spot_map_by_mixture` is the same without a network, blind to covers, for
// comparison: each pixel's log colour is taken as lighting + class mean + noise; the lighting is a smooth
// field over the belly, the classes are ground and spot; field, means, spreads and class shares are found
// together by expectation-maximisation, from several starts, and the likeliest wins. Method: bias-field
// correction with a two-class mixture, Wells et al. 1996, IEEE Trans. Med. Imaging 15:429.
#pragma once
#include "matcher/belly/strip.h"
#include "matcher/pattern/pattern.h"

namespace evet {

struct SpotMapOptions {
  double min_p_seen = 0.5;       // skin less likely plainly seen than this is unknown
  double min_valid_share = 0.5;  // of the strip pixels under a map pixel, for it to be known
  // Of the mixture alone:
  int iterations = 12;        // of expectation-maximisation, per start
  double min_contrast = 0.6;  // natural log of ground over spot brightness below which nothing is a spot
  void check() const;
};

// A strip with nothing valid gives a map with nothing valid. Throws bad_input for a strip of another size.
SpotMap make_spot_map(const Strip& strip, const SpotMapOptions& options = {});
SpotMap make_spot_map_by_mixture(const Strip& strip, const SpotMapOptions& options = {});

// The same belly taken to lie the other way: head where the vent was.
SpotMap turned(const SpotMap& map);

}  // namespace evet
