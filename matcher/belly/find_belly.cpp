#include "matcher/belly/find_belly.h"

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/belly/belly_net.h"
#include "matcher/belly/belly_shape.h"
#include "matcher/belly/fit_strip.h"
#include "matcher/belly/geometry_provider.h"
#include "matcher/belly/measure_quality.h"
#include "matcher/belly/midline_provider.h"
#include "matcher/belly/network_provider.h"
#include "matcher/belly/sample_strip.h"

namespace evet {
namespace {

constexpr double kMostFolded = 0.05;  // a map that turns more of the skin inside out is no map
constexpr double kNetworkSure = 0.6, kNetworkRefuses = 0.2;
constexpr double kFewestAgree = 0.35;  // of the belly's weight must agree with it

QualityNote no_belly() {
  return {"no_belly",
          "no belly found: photograph the animal belly-up or through the floor of a clear tray, whole and "
          "filling "
          "most of the picture, or mark the midline by hand",
          true};
}

BodyCoordinates locate(const Photo& photo, const BellyOptions& options) {
  if (!options.midline.empty()) {
    std::vector<cv::Point2d> midline = options.midline;
    for (cv::Point2d& p : midline) p /= photo.full_per_px;
    return coordinates_from_midline(photo, midline);
  }
  BodyCoordinates network = coordinates_from_network(photo);
  // The network's plain yes and plain no stand; between them the two must not contradict each other.
  if (network.confidence > kNetworkSure || (network.confidence < kNetworkRefuses && !belly_weights().empty()))
    return network;
  BodyCoordinates geometry = coordinates_from_geometry(photo);
  geometry.p_animal = std::max(geometry.p_animal, network.p_animal);
  return geometry.confidence > network.confidence ? geometry : network;
}

}  // namespace

void BellyOptions::check() const {
  if (midline.size() == 1)
    throw Error(ErrorKind::usage, "midline", "has one point only",
                "give the throat fold first and the vent last");
  for (const cv::Point2d& p : midline)
    if (!std::isfinite(p.x) || !std::isfinite(p.y))
      throw Error(ErrorKind::usage, "midline", "has a point that is not a number", "give pixels as x,y");
}

bool BellyFinding::usable() const {
  return strip.has_value() &&
         std::none_of(notes.begin(), notes.end(), [](const QualityNote& note) { return note.blocks; });
}

BellyFinding strip_from_coordinates(const Photo& photo, BodyCoordinates coordinates) {
  BellyFinding finding;
  finding.coordinates = std::move(coordinates);
  const auto fit = fit_strip(finding.coordinates);
  if (!fit || fit->folded_share > kMostFolded || fit->inlier_share < kFewestAgree) {
    finding.notes = {no_belly()};
    return finding;
  }
  finding.shape = measure_shape(finding.coordinates, *fit, photo.full_per_px);
  finding.strip = sample_strip(photo, fit->photo_from_strip, finding.coordinates);
  finding.quality = measure_quality(finding.coordinates, *fit, finding.shape, *finding.strip);
  finding.notes = advise(finding.quality);
  return finding;
}

BellyFinding find_belly(const Photo& photo, const BellyOptions& options) {
  options.check();
  if (photo.bgr.empty()) throw Error(ErrorKind::bad_input, "photo", "has no pixels");
  return strip_from_coordinates(photo, locate(photo, options));
}

}  // namespace evet
