#include "matcher/photo/exif.h"

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <exception>
#include <exiv2/exiv2.hpp>
#include <limits>
#include <string_view>

#include "matcher/base/printable.h"

namespace evet {
namespace {

std::string text_of(const Exiv2::ExifData& exif, const char* tag) {
  const auto found = exif.findKey(Exiv2::ExifKey(tag));
  if (found == exif.end()) return {};
  std::string text = found->toString();
  text = text.substr(0, text.find('\0'));
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

bool has(const Exiv2::ExifData& exif, const char* tag) {
  return exif.findKey(Exiv2::ExifKey(tag)) != exif.end();
}

// Whether `text` is written as `shape`: a 0 there stands for any digit, ~ for a separator of dates, _ for one
// between date and time, every other character for itself. (Not <regex>: three shapes, and
// g++ 12 warns inside.)
bool written_as(std::string_view shape, std::string_view text) {
  return std::equal(shape.begin(), shape.end(), text.begin(), text.end(), [](char wanted, char c) {
    switch (wanted) {
      case '0':
        return c >= '0' && c <= '9';
      case '~':
        return c == ':' || c == '-';
      case '_':
        return c == ' ' || c == 'T';
      default:
        return c == wanted;
    }
  });
}

// Of digits alone.
unsigned number_in(const std::string& text, std::size_t at, std::size_t digits) {
  return static_cast<unsigned>(std::stoul(text.substr(at, digits)));
}

// "2031:05:14 22:41:07"; cameras whose clock was never set write zeros or blanks.
std::optional<std::string> iso_time(const std::string& text) {
  if (!written_as("0000~00~00_00:00:00", text)) return std::nullopt;
  const unsigned year = number_in(text, 0, 4);
  const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(year)),
                                        std::chrono::month(number_in(text, 5, 2)),
                                        std::chrono::day(number_in(text, 8, 2))};
  if (!day.ok() || year == 0 || number_in(text, 11, 2) > 23 || number_in(text, 14, 2) > 59 ||
      number_in(text, 17, 2) > 59)
    return std::nullopt;
  std::string iso = text;
  iso[4] = iso[7] = '-';
  iso[10] = 'T';
  return iso;
}

std::optional<std::string> offset(const std::string& text) {
  if (!written_as("+00:00", text) && !written_as("-00:00", text)) return std::nullopt;
  if (number_in(text, 1, 2) > 14 || number_in(text, 4, 2) > 59) return std::nullopt;
  return text;
}

std::string camera_of(const Exiv2::ExifData& exif) {
  const std::string make = text_of(exif, "Exif.Image.Make");
  const std::string model = text_of(exif, "Exif.Image.Model");
  // Many makers repeat their name in the model.
  std::string name = model.starts_with(make) || make.empty() ? model
                     : model.empty()                         ? make
                                                             : make + " " + model;
  if (name.size() > 100) name.resize(100);
  return printable(name);
}

void mute_its_log() {
  static const bool muted = [] {
    Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);
    return true;
  }();
  static_cast<void>(muted);
}

}  // namespace

ExifFacts read_exif(std::span<const std::byte> block) {
  if (block.size() < 8 || block.size() > std::numeric_limits<std::uint32_t>::max() / 2) return {};
  mute_its_log();
  ExifFacts facts;
  try {
    Exiv2::ExifData exif;
    Exiv2::ExifParser::decode(exif, reinterpret_cast<const Exiv2::byte*>(block.data()),
                              static_cast<std::uint32_t>(block.size()));
    if (const auto found = exif.findKey(Exiv2::ExifKey("Exif.Image.Orientation"));
        found != exif.end() && found->count() > 0) {
      const long value = found->toLong();
      if (value >= 1 && value <= 8) facts.orientation = static_cast<int>(value);
    }
    facts.has_position = has(exif, "Exif.GPSInfo.GPSLatitude") || has(exif, "Exif.GPSInfo.GPSLongitude");
    facts.taken_at = iso_time(text_of(exif, "Exif.Photo.DateTimeOriginal"));
    if (facts.taken_at) facts.taken_at_offset = offset(text_of(exif, "Exif.Photo.OffsetTimeOriginal"));
    facts.camera = camera_of(exif);
  } catch (const std::exception&) {  // Exiv2::Error is one; keep what was read before it
  }
  return facts;
}

}  // namespace evet
