// Which skin is dark and which is orange, whatever the light.
//
// Each pixel's log colour is taken as lighting + class mean + noise: the lighting is a smooth field over the
// belly, the classes are ground and spot. Field, means, spreads and class shares are found together by
// expectation-maximisation, from several starts; the likeliest wins. So neither a colour cast nor a fall-off
// of light moves a spot's edge, and a belly may be sparsely dotted or mostly dark.
// Method: bias-field correction with a two-class mixture, Wells et al. 1996, IEEE Trans. Med. Imaging 15:429.
//
// Not for skin with a third colour: it is given to whichever class lies nearer.
#pragma once
#include "matcher/belly/strip.h"
#include "matcher/pattern/pattern.h"

namespace evet {

struct SpotMapOptions {
  int iterations = 12;           // of expectation-maximisation, per start
  double min_contrast = 0.6;     // natural log of ground over spot brightness below which nothing is a spot
  double min_valid_share = 0.5;  // of the strip pixels under a map pixel, for it to be known
  void check() const;
};

// A strip with nothing valid gives a map with nothing valid. Throws bad_input for a strip of another size.
SpotMap make_spot_map(const Strip& strip, const SpotMapOptions& options = {});

// The same belly taken to lie the other way: head where the vent was.
SpotMap turned(const SpotMap& map);

}  // namespace evet
