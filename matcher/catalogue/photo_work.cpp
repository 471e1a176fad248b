#include "matcher/catalogue/photo_work.h"

#include <spdlog/spdlog.h>

#include <mutex>

#include "matcher/base/error.h"
#include "matcher/base/parallel.h"
#include "matcher/base/printable.h"
#include "matcher/base/sha256.h"
#include "matcher/belly/belly_net.h"
#include "matcher/catalogue/messages.h"
#include "matcher/pattern/embedding_net.h"
#include "matcher/pattern/spot_net.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/encode.h"

namespace evet {
namespace {

// Raise it whenever the same photo and midline would give another strip, pattern or judgement.
constexpr const char* kExaminer = "examiner 2";

constexpr int kStripJpegQuality = 92;

std::vector<cv::Point2d> midline_of(Catalogue& catalogue, const PhotoRef& photo) {
  return catalogue.photo(photo.photo, photo.capture).examination.midline;
}

// Whether kept bytes are a picture such as keep_in_cache() writes: they go on into pages and reports.
bool is_strip(const Bytes& bytes) {
  try {
    const PhotoHeader header = read_photo_header(bytes, "a kept strip");
    return header.format == PhotoFormat::jpeg && header.width_px == kStripCols &&
           header.height_px == kStripRows;
  } catch (const Error&) {
    return false;
  }
}

std::string item_of(const PhotoRef& photo) {
  return "photo " + photo.photo.value;
}

void tell_left_out(const PhotoRef& photo, const std::exception& why) {
  const std::string item = item_of(photo);
  const auto* error = dynamic_cast<const Error*>(&why);
  const bool names_it = error != nullptr && error->item().starts_with(item);
  const std::string said = printable(names_it ? why.what() : item + ": " + why.what());
  spdlog::warn(Message(messages::kCataloguePhotoLeftOut, {{"why", said}}).words());
}

}  // namespace

std::string maker_of(const std::vector<cv::Point2d>& midline) {
  static const std::string weights = sha256_hex(sha256_hex(packed_belly_weights()) +
                                                sha256_hex(spot_weights()) + sha256_hex(embedding_weights()))
                                         .substr(0, 8);
  std::string maker = std::string(kExaminer) + ", weights " + weights;
  if (midline.empty()) return maker;
  std::string points;
  for (const cv::Point2d& p : midline) points += std::to_string(p.x) + "," + std::to_string(p.y) + ";";
  return maker + ", midline " + sha256_hex(points).substr(0, 8);
}

ExamineOptions examine_options(const std::vector<cv::Point2d>& midline) {
  ExamineOptions options;
  options.belly.midline = midline;
  return options;
}

Examination examination_of(const Examined& examined, const std::vector<cv::Point2d>& midline) {
  return {examined.belly.usable(), examined.belly.quality, examined.belly.notes, maker_of(midline), midline};
}

void keep_in_cache(Catalogue& catalogue, const PhotoId& photo, const std::vector<cv::Point2d>& midline,
                   const Examined& examined) {
  const std::string maker = maker_of(midline);
  if (examined.pattern) catalogue.cache().keep_pattern(photo, maker, *examined.pattern);
  if (examined.belly.strip)
    catalogue.cache().keep_strip(photo, maker, encode_jpeg(examined.belly.strip->bgr, kStripJpegQuality));
}

std::vector<std::optional<Pattern>> patterns_of(Catalogue& catalogue, const std::vector<PhotoRef>& photos,
                                                int threads, LeftOut* left_out) {
  std::vector<std::optional<Pattern>> patterns(photos.size());
  std::vector<size_t> missing;
  std::vector<std::vector<cv::Point2d>> midlines(photos.size());
  for (size_t i = 0; i < photos.size(); ++i) {
    midlines[i] = midline_of(catalogue, photos[i]);
    patterns[i] = catalogue.cache().pattern(photos[i].photo, maker_of(midlines[i]));
    if (!patterns[i]) missing.push_back(i);
  }
  std::mutex mutex;  // a catalogue serves one thread at a time
  for_each_item(missing.size(), threads, [&](size_t k) {
    const size_t i = missing[k];
    try {
      Bytes bytes;
      {
        const std::lock_guard lock(mutex);
        bytes = catalogue.read_photo(photos[i].photo);
      }
      const Examined examined = examine_photo(bytes, item_of(photos[i]), examine_options(midlines[i]));
      const std::lock_guard lock(mutex);
      keep_in_cache(catalogue, photos[i].photo, midlines[i], examined);
      patterns[i] = examined.pattern;
    } catch (const std::exception& error) {
      const std::lock_guard lock(mutex);
      tell_left_out(photos[i], error);
      if (left_out != nullptr) left_out->emplace(photos[i].photo, error.what());
    }
  });
  return patterns;
}

Bytes strip_jpeg_of(Catalogue& catalogue, const PhotoRef& photo) {
  const std::vector<cv::Point2d> midline = midline_of(catalogue, photo);
  if (auto kept = catalogue.cache().strip(photo.photo, maker_of(midline)); kept && is_strip(*kept))
    return *kept;
  try {
    const Examined examined =
        examine_photo(catalogue.read_photo(photo.photo), item_of(photo), examine_options(midline));
    keep_in_cache(catalogue, photo.photo, midline, examined);
    if (!examined.belly.strip) return {};
    return encode_jpeg(examined.belly.strip->bgr, kStripJpegQuality);
  } catch (const std::exception& error) {
    tell_left_out(photo, error);
    return {};
  }
}

}  // namespace evet
