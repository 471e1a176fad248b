#include "tools/report/fill_strips.h"

#include <opencv2/imgproc.hpp>

#include "matcher/catalogue/photo_work.h"
#include "matcher/photo/decode.h"
#include "matcher/search/compare.h"
#include "tools/report/messages.h"
#include "tools/words/in_words.h"

namespace evet {

const Pattern* ReportStrips::pattern(const CaptureState& capture, const PhotoId& photo) {
  const auto [at, fresh] = patterns_.try_emplace(photo);
  if (fresh) at->second = patterns_of(catalogue_, {{photo, capture.id}}, 1).front();
  return at->second ? &*at->second : nullptr;
}

ReportStrip ReportStrips::strip(const CaptureState& capture, const PhotoId& photo) {
  ReportStrip out;
  out.night = capture.facts.night;
  for (const PhotoState& state : capture.photos)
    if (state.photo == photo) out.photo = state.name;
  const Bytes jpeg = strip_jpeg_of(catalogue_, {photo, capture.id});
  if (jpeg.empty()) return out;
  out.bgr = decode_photo(jpeg, in_words(messages::kStripOf, {{"photo", out.photo}})).bgr;
  if (const Pattern* found = pattern(capture, photo))
    cv::resize(found->map.valid, out.valid, out.bgr.size(), 0, 0, cv::INTER_NEAREST);
  return out;
}

std::vector<SpotTie> ReportStrips::ties(const CaptureState& now, const PhotoId& photo_now,
                                        const CaptureState& before, const PhotoId& photo_before) {
  const Pattern *query = pattern(now, photo_now), *known = pattern(before, photo_before);
  if (query == nullptr || known == nullptr) return {};
  const auto [prepared, hits] = prepare_for(*query, *known);
  if (hits.empty()) return {};
  const Comparison laid = compare(prepared, *known, hits, order_of(before.facts.night, now.facts.night));
  std::vector<SpotTie> out;
  for (const SpotPair& pair : spot_pairs(known->spots, prepared.spots[laid.turned], laid.alignment)) {
    const Spot &then = known->spots[pair.fixed], &here = query->spots[pair.moving];
    out.push_back({here.u, here.v, then.u, then.v});
  }
  return out;
}

}  // namespace evet
