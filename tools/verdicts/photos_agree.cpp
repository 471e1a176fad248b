#include "tools/verdicts/photos_agree.h"

#include <algorithm>

#include "matcher/catalogue/photo_work.h"
#include "matcher/search/compare.h"
#include "matcher/search/laying_doubt.h"
#include "matcher/search/likelihood.h"

namespace evet {
namespace {

std::vector<Pattern> patterns_of(Catalogue& catalogue, const CaptureState& capture) {
  std::vector<PhotoRef> refs;
  for (const PhotoState& photo : capture.photos)
    if (photo.usable) refs.push_back({photo.photo, capture.id});
  std::vector<Pattern> out;
  for (auto& pattern : evet::patterns_of(catalogue, refs, 1))
    if (pattern) out.push_back(std::move(*pattern));
  return out;
}

}  // namespace

double agreement_of(const Pattern& one, const Pattern& other) {
  const PreparedPair pair = prepare_for(one, other);
  const Comparison found = compare(pair.query, other, pair.hits, Order::unknown);
  return doubted_llr(shipped_matching_model().llr(found.measures), one, other, found.turned);
}

std::optional<double> least_agreement(Catalogue& catalogue, const CaptureState& capture) {
  if (std::count_if(capture.photos.begin(), capture.photos.end(),
                    [](const PhotoState& photo) { return photo.usable; }) < 2)
    return std::nullopt;
  const std::vector<Pattern> patterns = patterns_of(catalogue, capture);
  std::optional<double> least;
  for (size_t i = 0; i < patterns.size(); ++i)
    for (size_t j = i + 1; j < patterns.size(); ++j) {
      const double llr = agreement_of(patterns[i], patterns[j]);
      least = std::min(least.value_or(llr), llr);
    }
  return least;
}

std::optional<double> best_agreement(Catalogue& catalogue, const CaptureState& capture,
                                     const CaptureState& other) {
  std::optional<double> best;
  for (const Pattern& one : patterns_of(catalogue, capture))
    for (const Pattern& two : patterns_of(catalogue, other)) {
      const double llr = agreement_of(one, two);
      best = std::max(best.value_or(llr), llr);
    }
  return best;
}

}  // namespace evet
