// Pictures of the light table: strips, masks, photos, and how one strip lies on another.
//
// With a catalogue object and a lock of its own, so that examining a photo never holds up a verdict. What was
// made is kept up to a bound, so that memory stays flat however long a night is.
#pragma once
#include <cstdint>
#include <map>
#include <mutex>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>

#include "matcher/base/env.h"
#include "matcher/catalogue/catalogue.h"
#include "matcher/search/compare.h"
#include "tools/review/lru_cache.h"

namespace evet::review {

class Pictures {
 public:
  Pictures(const std::filesystem::path& folder, Env& env);

  // All throw not_found for a photo that is not in the catalogue, or has no belly where one is needed.
  // JPEG, kStripRows x kStripCols; laid onto another strip where `onto` is not empty.
  std::string strip(const PhotoId& photo, const PhotoId& onto);
  // PNG, grey: 255 where skin was seen plainly. Spot-map size.
  std::string mask(const PhotoId& photo, const PhotoId& onto);
  // JPEG of the whole photo, upright, at most 1600 pixels long, without metadata.
  std::string photo(const PhotoId& photo);
  // {"matched": [{"capture": SPOT, "candidate": SPOT}], "only_capture": [SPOT], "only_candidate": [SPOT],
  // "overlap"}; a SPOT is {"u", "v", "area"} on its own strip, and of the candidate also "u_laid", "v_laid":
  // where it comes to lie on the capture's.
  std::string evidence(const PhotoId& capture, const PhotoId& candidate);
  // The photo was examined afresh: what was kept of it is stale.
  void forget(const PhotoId& photo);
  void forget_all();

 private:
  PhotoId known(const PhotoId& photo);
  Pattern pattern(const PhotoId& photo);
  const Comparison& laid(const PhotoId& fixed, const PhotoId& moving);
  cv::Mat3b strip_pixels(const PhotoId& photo);

  std::mutex mutex_;
  Catalogue catalogue_;
  LruCache kept_;
  std::map<std::pair<PhotoId, PhotoId>, Comparison>
      laid_;              // strip, mask and ties of a pair ask for it in turn
  std::jthread reading_;  // the ledger, beside the start: or the first strip would wait for it
};

}  // namespace evet::review
