#include "matcher/belly/find_belly.h"

#include <algorithm>
#include <cmath>

#include "matcher/base/error.h"
#include "matcher/belly/belly_net.h"
#include "matcher/belly/belly_shape.h"
#include "matcher/belly/find_scale_card.h"
#include "matcher/belly/geometry_provider.h"
#include "matcher/belly/measure_quality.h"
#include "matcher/belly/messages.h"
#include "matcher/belly/midline_provider.h"
#include "matcher/belly/network_provider.h"
#include "matcher/belly/note_words.h"
#include "matcher/belly/overlap.h"
#include "matcher/belly/sample_strip.h"
#include "matcher/belly/strip_hypotheses.h"

namespace evet {
namespace {

constexpr double kNetworkSure = 0.75, kNetworkRefuses = 0.2;  // of confidence
constexpr double kSamePatch = 0.5;     // overlap from which both providers speak of one belly
constexpr double kLaidTooBadly = 0.3;  // probability that a strip lies right, below which none is cut
// Of a belly's length, one standard deviation of where its ends are placed: middle photos of world seeds 110
// to 149.
constexpr double kMidlineLengthError = 0.02;
constexpr double kAnimalFrom = 0.6, kSmallKindFrom = 0.4;

QualityNote noted(const char* measure, bool blocks) {
  return {measure, words_of_note(measure, blocks, {}).value().words(), blocks};
}

// Why there is no strip, as far as it can be told, and what to do about it. Never a verdict on species.
QualityNote no_belly(const BodyCoordinates& k) {
  if (k.p_animal < kAnimalFrom) return noted("no_animal", true);
  return noted(k.p_small_kind > kSmallKindFrom ? "small_species" : "no_belly", true);
}

BodyCoordinates locate(const Photo& photo, const BellyOptions& options) {
  if (!options.midline.empty()) {
    std::vector<cv::Point2d> midline = options.midline;
    for (cv::Point2d& p : midline) p /= photo.full_per_px;
    return coordinates_from_midline(photo, midline);
  }
  if (packed_belly_weights().empty()) return coordinates_from_geometry(photo);
  return with_second_opinion(photo, coordinates_from_network(photo));
}

}  // namespace

void BellyOptions::check() const {
  if (midline.size() == 1)
    throw Error(ErrorKind::usage, "midline", messages::kHasOnePointOnly, messages::kGiveThroatFoldFirstAnd);
  for (const cv::Point2d& p : midline)
    if (!std::isfinite(p.x) || !std::isfinite(p.y))
      throw Error(ErrorKind::usage, "midline", messages::kHasPointIsNotNumber, messages::kGivePixelsAsXY);
}

bool BellyFinding::usable() const {
  return strip.has_value() &&
         std::none_of(notes.begin(), notes.end(), [](const QualityNote& note) { return note.blocks; });
}

BodyCoordinates with_second_opinion(const Photo& photo, BodyCoordinates network) {
  if (network.confidence > kNetworkSure || network.confidence < kNetworkRefuses) return network;
  const BodyCoordinates geometry = coordinates_from_geometry(photo);
  if (belly_overlap(network, geometry, photo.bgr.size()) > kSamePatch)
    network.confidence = 1 - (1 - network.confidence) * (1 - geometry.confidence);
  return network;
}

BellyFinding strip_from_coordinates(const Photo& photo, BodyCoordinates coordinates) {
  BellyFinding finding;
  finding.coordinates = std::move(coordinates);
  if (finding.coordinates.confidence < kNetworkRefuses) {
    finding.notes = {no_belly(finding.coordinates)};
    return finding;
  }
  // Of a midline drawn by hand, and of coordinates by colour alone, nothing of the kind was learned.
  const bool by_network = finding.coordinates.source == "network";
  std::vector<StripHypothesis> laid = strip_hypotheses(finding.coordinates, photo.bgr.size());
  if (laid.empty() || (by_network && p_laid_right(laid[0]) < kLaidTooBadly)) {
    finding.notes = {noted("no_map", true)};
    return finding;
  }
  finding.coordinates = std::move(laid[0].coordinates);
  finding.fit = laid[0].fit;
  const StripFit& fit = *finding.fit;
  finding.shape = measure_shape(finding.coordinates, fit, photo.full_per_px);
  if (by_network) finding.shape.p_laid_right = p_laid_right(laid[0]);
  finding.strip = sample_strip(photo, fit.photo_from_strip, finding.coordinates);
  finding.quality = measure_quality(finding.coordinates, fit, finding.shape, *finding.strip);
  finding.card = find_scale_card(photo.bgr);
  if (finding.card) {
    const LengthMm length = measure_mm(*finding.card, finding.shape.midline);
    finding.quality.belly_length_mm = length.mm;
    finding.quality.belly_length_error_mm = std::hypot(length.error_mm, kMidlineLengthError * length.mm);
  }
  finding.notes = advise(finding.quality, unseen_shares(photo.bgr.size(), fit.photo_from_strip,
                                                        finding.coordinates, *finding.strip));
  // A strip was found, but the animal may be none that can be matched: said, not acted upon.
  if (finding.coordinates.p_small_kind > kSmallKindFrom)
    finding.notes.push_back(noted("small_species", false));
  return finding;
}

BellyFinding find_belly(const Photo& photo, const BellyOptions& options) {
  options.check();
  if (photo.bgr.empty()) throw Error(ErrorKind::bad_input, "photo", messages::kHasNoPixels);
  return strip_from_coordinates(photo, locate(photo, options));
}

}  // namespace evet
