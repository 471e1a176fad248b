#include "matcher/photo/decode_here.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <string_view>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/base/printable.h"
#include "matcher/photo/codecs.h"
#include "matcher/photo/exif.h"
#include "matcher/photo/messages.h"
#include "matcher/photo/sniff.h"
#include "matcher/photo/upright.h"

namespace evet {
namespace {

PhotoFormat format_of(FileBytes file, const std::string& item) {
  const auto format = sniff(file);
  if (!format)
    throw Error(ErrorKind::unsupported, item,
                Message(messages::kNotPictureProgramReadsSeems, {{"file", what_it_seems(file)}}),
                messages::kGiveJpegPngTiffOr);
  return *format;
}

Peek peek(PhotoFormat format, FileBytes file, const std::string& item) {
  switch (format) {
    case PhotoFormat::jpeg:
      return peek_jpeg(file, item);
    case PhotoFormat::png:
      return peek_png(file, item);
    case PhotoFormat::tiff:
      return peek_tiff(file, item);
    case PhotoFormat::heic:
      return peek_heic(file, item);
  }
  return {};
}

void judge_size(const Peek& peek, const std::string& item, const DecodeOptions& options) {
  if (peek.width == 0 || peek.height == 0)
    throw Error(ErrorKind::bad_input, item,
                Message(messages::kPictureIsXPixelsBy, {{"width", fmt::format("{}", peek.width)},
                                                        {"height", fmt::format("{}", peek.height)}}),
                messages::kCopyFromCamerasCardAgain);
  const double megapixels = static_cast<double>(peek.width) * static_cast<double>(peek.height) / 1e6;
  constexpr std::uint64_t kSide = kLongestSide;
  if (megapixels > options.max_megapixels || peek.width > kSide || peek.height > kSide)
    throw Error(
        ErrorKind::too_large, item,
        Message(messages::kPictureIsXPixelsMegapixels, {{"width", fmt::format("{}", peek.width)},
                                                        {"height", fmt::format("{}", peek.height)},
                                                        {"megapixels", fmt::format("{:.0f}", megapixels)}}),
        Message(messages::kAtMostMegapixelsAndPixels,
                {{"max_megapixels", fmt::format("{:.0f}", options.max_megapixels)},
                 {"longest_side", fmt::format("{}", kLongestSide)}}));
}

// A position may also stand in an XMP packet, which is plain text in all four formats.
bool names_a_position(FileBytes file) {
  const std::string_view text(reinterpret_cast<const char*>(file.data()), file.size());
  return text.find("GPSLatitude") != std::string_view::npos;
}

// The mean of k x k pixels; a last part-row or part-column is filled by repeating the edge,
// as JPEG's scaling does.
cv::Mat3b averaged(const cv::Mat3b& full, int k) {
  constexpr int kRowsAtATime = 64;  // of the small picture: the padded copy stays small
  cv::Mat3b small((full.rows + k - 1) / k, (full.cols + k - 1) / k), padded;
  for (int row = 0; row < small.rows; row += kRowsAtATime) {
    const int rows = std::min(kRowsAtATime, small.rows - row);
    const int from = row * k, to = std::min((row + rows) * k, full.rows);
    cv::copyMakeBorder(full.rowRange(from, to), padded, 0, rows * k - (to - from), 0,
                       small.cols * k - full.cols, cv::BORDER_REPLICATE | cv::BORDER_ISOLATED);
    cv::Mat3b part = small.rowRange(row, row + rows);
    cv::resize(padded, part, part.size(), 0, 0, cv::INTER_AREA);
  }
  return small;
}

// What decoding it takes at most, by the size in its header: pixels in the decoder's own form (JPEG: the
// coefficients of a progressive file; TIFF and HEIC: planes beside the picture) and the picture itself.
std::uint64_t decoding_bytes(const PhotoHeader& header) {
  const std::uint64_t pixels =
      static_cast<std::uint64_t>(header.width_px) * static_cast<std::uint64_t>(header.height_px);
  switch (header.format) {
    case PhotoFormat::jpeg:
      return 6 * pixels;
    case PhotoFormat::png:
      return 4 * pixels;
    case PhotoFormat::tiff:
      return 8 * pixels;
    case PhotoFormat::heic:
      break;
  }
  return 9 * pixels;
}

}  // namespace

PhotoHeader read_header_here(std::span<const std::byte> file, const std::string& item,
                             const DecodeOptions& options) {
  const PhotoFormat format = format_of(file, item);
  const Peek peeked = peek(format, file, item);
  judge_size(peeked, item, options);
  const ExifFacts exif = read_exif(peeked.exif);
  PhotoHeader header;
  header.format = format;
  header.width_px = static_cast<int>(peeked.width);
  header.height_px = static_cast<int>(peeked.height);
  header.orientation = format == PhotoFormat::heic ? 1 : exif.orientation;
  header.taken_at = exif.taken_at;
  header.taken_at_offset = exif.taken_at_offset;
  header.has_position = exif.has_position || names_a_position(file);
  header.camera = exif.camera;
  return header;
}

Photo decode_here(std::span<const std::byte> file, const std::string& item, const DecodeOptions& options,
                  const std::function<void(std::uint64_t bytes)>& grant) {
  Photo photo;
  photo.header = read_header_here(file, item, options);
  const int long_side = std::max(photo.header.width_px, photo.header.height_px);
  int reduction = options.enough_long_side_px > 0 ? std::max(1, long_side / options.enough_long_side_px) : 1;
  grant(decoding_bytes(photo.header));
  cv::Mat3b stored;
  switch (photo.header.format) {
    case PhotoFormat::jpeg:
      reduction = reduction >= 8 ? 8 : reduction >= 4 ? 4 : reduction >= 2 ? 2 : 1;
      stored = decode_jpeg(file, item, 8 / reduction);
      break;
    case PhotoFormat::png:
      stored = decode_png(file, item);
      break;
    case PhotoFormat::tiff:
      stored = decode_tiff(file, item);
      break;
    case PhotoFormat::heic:
      stored = decode_heic(file, item);
      break;
  }
  if (reduction > 1 && photo.header.format != PhotoFormat::jpeg) stored = averaged(stored, reduction);
  photo.full_per_px = reduction;
  photo.bgr = upright(stored, photo.header.orientation);
  return photo;
}

void refuse_damaged(const std::string& item, const std::string& format, const std::string& detail) {
  throw Error(ErrorKind::bad_input, item,
              Message(messages::kDataIsDamagedOrCut, {{"format", fmt::format("{}", format)},
                                                      {"detail", fmt::format("{}", printable(detail))}}),
              messages::kCopyFromCamerasCardAgain);
}

void refuse_flavour(const std::string& item, const std::string& what) {
  throw Error(ErrorKind::unsupported, item, Message(messages::kNotPictureProgramReads, {{"what", what}}),
              messages::kGiveJpegPngTiffOr);
}

}  // namespace evet
