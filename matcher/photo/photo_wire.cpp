#include "matcher/photo/photo_wire.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "matcher/base/printable.h"
#include "matcher/photo/messages.h"

namespace evet {
namespace {

constexpr std::size_t kMostWords = 2000, kMostText = 1000;

void require(bool holds) {
  if (!holds) throw LineBroken("it says what no decoder says");
}

void put_optional(Line& line, const std::optional<std::string>& text) {
  line.put_value<std::uint8_t>(text.has_value());
  if (text) line.put_text(*text);
}
// Digits and what stands between them in a time.
std::optional<std::string> get_time(Line& line) {
  if (line.get_value<std::uint8_t>() == 0) return std::nullopt;
  std::string text = line.get_text(kMostText);
  require(text.find_first_not_of("0123456789-:+TZ.") == std::string::npos);
  return text;
}

// What a decoder may say, and nothing else.
constexpr std::array kSayable{messages::kNotPictureProgramReadsSeems, messages::kNotPictureProgramReads,
                              messages::kGiveJpegPngTiffOr,           messages::kPictureIsXPixelsBy,
                              messages::kPictureIsXPixelsMegapixels,  messages::kAtMostMegapixelsAndPixels,
                              messages::kDataIsDamagedOrCut,          messages::kCopyFromCamerasCardAgain,
                              messages::kDecodingTakesMuchMemory,     messages::kExportItSmaller};

const MessageText* sayable(std::string_view code) {
  const auto* at = std::find_if(kSayable.begin(), kSayable.end(),
                                [&](const MessageText& text) { return text.code == code; });
  return at == kSayable.end() ? nullptr : at;
}

// Its arguments in the order in which the text names them.
std::vector<std::string> names_in(std::string_view text) {
  std::vector<std::string> names;
  for (std::size_t open = text.find('{'); open != std::string_view::npos; open = text.find('{', open + 1))
    names.emplace_back(text.substr(open + 1, text.find('}', open) - open - 1));
  return names;
}

void put_message(Line& line, const Message& message) {
  line.put_text(std::string(message.code()));
  const MessageText* text = sayable(message.code());
  if (text == nullptr) return;  // the asker hangs up
  for (const std::string& name : names_in(text->english))
    line.put_text(message.argument(name).substr(0, kMostWords));
}
Message get_message(Line& line) {
  const MessageText* text = sayable(line.get_text(kMostText));
  require(text != nullptr);
  std::vector<Message::Argument> arguments;
  for (const std::string& name : names_in(text->english))
    arguments.push_back({name, printable(line.get_text(kMostWords))});
  return {*text, std::move(arguments)};
}

}  // namespace

void put_header(Line& line, const PhotoHeader& header) {
  line.put_value(static_cast<std::uint8_t>(header.format));
  line.put_value<std::int32_t>(header.width_px);
  line.put_value<std::int32_t>(header.height_px);
  line.put_value<std::int32_t>(header.orientation);
  put_optional(line, header.taken_at);
  put_optional(line, header.taken_at_offset);
  line.put_value<std::uint8_t>(header.has_position);
  line.put_text(header.camera.substr(0, kMostText));
}

PhotoHeader get_header(Line& line, const DecodeOptions& options) {
  PhotoHeader header;
  const auto format = line.get_value<std::uint8_t>();
  require(format <= static_cast<std::uint8_t>(PhotoFormat::heic));
  header.format = static_cast<PhotoFormat>(format);
  header.width_px = line.get_value<std::int32_t>();
  header.height_px = line.get_value<std::int32_t>();
  header.orientation = line.get_value<std::int32_t>();
  require(header.width_px > 0 && header.width_px <= kLongestSide && header.height_px > 0 &&
          header.height_px <= kLongestSide && header.orientation >= 1 && header.orientation <= 8);
  require(static_cast<double>(header.width_px) * header.height_px <= options.max_megapixels * 1e6);
  header.taken_at = get_time(line);
  header.taken_at_offset = get_time(line);
  header.has_position = line.get_value<std::uint8_t>() != 0;
  header.camera = printable(line.get_text(kMostText));
  return header;
}

void put_photo(Line& line, const Photo& photo) {
  put_header(line, photo.header);
  line.put_value<double>(photo.full_per_px);
  line.put_value<std::int32_t>(photo.bgr.rows);
  line.put_value<std::int32_t>(photo.bgr.cols);
  const cv::Mat3b whole = photo.bgr.isContinuous() ? photo.bgr : cv::Mat3b(photo.bgr.clone());
  line.put(whole.data, whole.total() * whole.elemSize());
}

Photo get_photo(Line& line, const DecodeOptions& options) {
  Photo photo;
  photo.header = get_header(line, options);
  photo.full_per_px = line.get_value<double>();
  const auto rows = line.get_value<std::int32_t>(), cols = line.get_value<std::int32_t>();
  const int longest = std::max(photo.header.width_px, photo.header.height_px);
  require(photo.full_per_px >= 1 && photo.full_per_px <= longest);
  // No larger than the header said, and of no other shape than it, upright or turned.
  const auto reduced = [&](int side) {
    return static_cast<int>((side + photo.full_per_px - 1) / photo.full_per_px);
  };
  const int width = reduced(photo.header.width_px), height = reduced(photo.header.height_px);
  require((cols == width && rows == height) || (cols == height && rows == width));
  photo.bgr.create(rows, cols);
  line.get(photo.bgr.data, photo.bgr.total() * photo.bgr.elemSize());
  return photo;
}

void put_error(Line& line, ErrorKind kind, const Reason& reason) {
  line.put_value(static_cast<std::uint8_t>(kind));
  line.put_value<std::uint8_t>(reason.right.has_value());
  put_message(line, reason.wrong);
  if (reason.right) put_message(line, *reason.right);
}
Error get_error(Line& line, const std::string& item) {
  const auto kind = static_cast<ErrorKind>(line.get_value<std::uint8_t>());
  require(kind == ErrorKind::bad_input || kind == ErrorKind::unsupported || kind == ErrorKind::too_large);
  const bool says_right = line.get_value<std::uint8_t>() != 0;
  Reason reason{get_message(line)};
  if (says_right) reason.right = get_message(line);
  return {kind, item, std::move(reason)};
}

}  // namespace evet
