#include "matcher/photo/exif.h"

#include <array>
#include <chrono>
#include <cstdint>
#include <exception>
#include <exiv2/exiv2.hpp>
#include <limits>
#include <regex>

#include "fmt/format.h"
#include "matcher/photo/printable.h"

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

// "2031:05:14 22:41:07"; cameras whose clock was never set write zeros or blanks.
std::optional<std::string> iso_time(const std::string& text) {
  static const std::regex shape(R"((\d{4})[:-](\d\d)[:-](\d\d)[ T]([01]\d|2[0-3]):([0-5]\d):([0-5]\d))");
  std::smatch part;
  if (!std::regex_match(text, part, shape)) return std::nullopt;
  const auto number = [&](std::size_t i) { return static_cast<unsigned>(std::stoul(part[i])); };
  const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(number(1))),
                                        std::chrono::month(number(2)), std::chrono::day(number(3))};
  if (!day.ok() || number(1) == 0) return std::nullopt;
  return fmt::format("{}-{}-{}T{}:{}:{}", part[1].str(), part[2].str(), part[3].str(), part[4].str(),
                     part[5].str(), part[6].str());
}

std::optional<std::string> offset(const std::string& text) {
  static const std::regex shape(R"([+-](0\d|1[0-4]):[0-5]\d)");
  return std::regex_match(text, shape) ? std::optional(text) : std::nullopt;
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
