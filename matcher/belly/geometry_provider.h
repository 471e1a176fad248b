// Finding the belly by colour and shape alone: the fallback where the network is unsure,
// and its plain oracle.
//
// The belly is an elongated warm-coloured region with dark spots. Several colour thresholds and closings give
// candidate regions; each is reduced to a medial line (longest geodesic path through its distance transform)
// with a width profile, and scored by proportion, spots, contrast to the surroundings and smoothness. It
// cannot tell head from tail reliably and says so (p_head_right near one half); it gives up where no
// candidate is convincing.
#pragma once
#include "matcher/belly/body_coordinates.h"
#include "matcher/photo/photo.h"

namespace evet {

// confidence 0 and empty maps: no belly found.
BodyCoordinates coordinates_from_geometry(const Photo& photo);

}  // namespace evet
