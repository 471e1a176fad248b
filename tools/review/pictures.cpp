#include "tools/review/pictures.h"

#include <opencv2/imgproc.hpp>

#include "matcher/base/error.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/photo_work.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/encode.h"
#include "tools/review/messages.h"
#include "tools/review/spot_ties.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"

namespace evet::review {
namespace {

constexpr std::size_t kKeptBytes = 48U << 20;
constexpr std::size_t kKeptPairs = 256;
constexpr int kPhotoLongSide = 1600;

std::string text(BytesView bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

Error no_belly(const PhotoId& photo) {
  return Error(ErrorKind::not_found, photo_item(photo.value), messages::kNoBellyWasFoundIn,
               messages::kDrawMidlineOnPhoto);
}

// The candidate's picture in the capture's frame.
template <class Mat>
Mat drawn(const Mat& moving, const Comparison& laid) {
  const cv::Mat2f from = candidate_from_capture(laid, moving.rows, moving.cols);
  cv::Mat1f x(from.size()), y(from.size());
  for (int r = 0; r < from.rows; ++r)
    for (int c = 0; c < from.cols; ++c) {
      y(r, c) = from(r, c)[0] * static_cast<float>(from.rows) - 0.5F;
      x(r, c) = (from(r, c)[1] + 1) / 2 * static_cast<float>(from.cols) - 0.5F;
    }
  Mat out;
  cv::remap(moving, out, x, y, cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  return out;
}

}  // namespace

Pictures::Pictures(const std::filesystem::path& folder, Env& env)
    : catalogue_(Catalogue::open(folder, env)), kept_(kKeptBytes), reading_([this] {
        const std::lock_guard lock(mutex_);
        try {
          catalogue_.statements();
        } catch (const std::exception&) {  // whoever asks for a picture is told of it
        }
      }) {}

PhotoId Pictures::known(const PhotoId& photo) {
  if (catalogue_.captures_with_photo(photo).empty())
    throw Error(ErrorKind::not_found, photo_item(photo.value), messages::kIsNotInCatalogue);
  return photo;
}

Pattern Pictures::pattern(const PhotoId& photo) {
  const std::vector<CaptureId> captures = catalogue_.captures_with_photo(known(photo));
  auto patterns = patterns_of(catalogue_, {{photo, captures.front()}}, 1);
  if (!patterns.front()) throw no_belly(photo);
  return std::move(*patterns.front());
}

cv::Mat3b Pictures::strip_pixels(const PhotoId& photo) {
  const std::vector<CaptureId> captures = catalogue_.captures_with_photo(known(photo));
  const Bytes jpeg = strip_jpeg_of(catalogue_, {photo, captures.front()});
  if (jpeg.empty()) throw no_belly(photo);
  return decode_photo(jpeg, in_words(messages::kStripOfPhoto, {{"photo", photo.value}})).bgr;
}

const Comparison& Pictures::laid(const PhotoId& fixed, const PhotoId& moving) {
  const std::pair pair(fixed, moving);
  if (const auto known = laid_.find(pair); known != laid_.end()) return known->second;
  if (laid_.size() >= kKeptPairs) laid_.clear();
  return laid_.emplace(pair, lay(pattern(fixed), pattern(moving))).first->second;
}

std::string Pictures::strip(const PhotoId& photo, const PhotoId& onto) {
  const std::lock_guard lock(mutex_);
  if (onto.empty()) {
    const std::vector<CaptureId> captures = catalogue_.captures_with_photo(known(photo));
    const Bytes jpeg = strip_jpeg_of(catalogue_, {photo, captures.front()});
    if (jpeg.empty()) throw no_belly(photo);
    return text(jpeg);
  }
  const std::string name = "strip " + photo.value + " onto " + onto.value;
  if (const std::string* kept = kept_.find(name)) return *kept;
  return kept_.keep(name, text(encode_jpeg(drawn(strip_pixels(photo), laid(onto, photo)), 90)));
}

std::string Pictures::mask(const PhotoId& photo, const PhotoId& onto) {
  const std::lock_guard lock(mutex_);
  const std::string name = "mask " + photo.value + " onto " + onto.value;
  if (const std::string* kept = kept_.find(name)) return *kept;
  cv::Mat1b valid = pattern(photo).map.valid;
  if (!onto.empty()) valid = drawn(valid, laid(onto, photo));
  return kept_.keep(name, text(encode_png(valid)));
}

std::string Pictures::photo(const PhotoId& photo) {
  const std::lock_guard lock(mutex_);
  const std::string name = photo_item(photo.value);
  if (const std::string* kept = kept_.find(name)) return *kept;
  const Photo decoded =
      decode_photo(catalogue_.read_photo(known(photo)), name, {.enough_long_side_px = kPhotoLongSide});
  cv::Mat3b small = decoded.bgr;
  const double factor = static_cast<double>(kPhotoLongSide) / std::max(small.rows, small.cols);
  if (factor < 1) cv::resize(decoded.bgr, small, {}, factor, factor, cv::INTER_AREA);
  return kept_.keep(name, text(encode_jpeg(small)));
}

std::string Pictures::evidence(const PhotoId& capture, const PhotoId& candidate) {
  const std::lock_guard lock(mutex_);
  const std::string name = "evidence " + capture.value + " " + candidate.value;
  if (const std::string* kept = kept_.find(name)) return *kept;
  return kept_.keep(name, ties_json(pattern(capture), pattern(candidate), laid(capture, candidate)).dump());
}

void Pictures::forget(const PhotoId& photo) {
  const std::lock_guard lock(mutex_);
  kept_.forget(photo.value);
  std::erase_if(laid_,
                [&](const auto& one) { return one.first.first == photo || one.first.second == photo; });
}

void Pictures::forget_all() {
  const std::lock_guard lock(mutex_);
  kept_.forget({});
  laid_.clear();
}

}  // namespace evet::review
