#include "matcher/photo/sniff.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string_view>

namespace evet {
namespace {

using namespace std::string_view_literals;

std::string_view text(std::span<const std::byte> file) {
  return {reinterpret_cast<const char*>(file.data()), file.size()};
}

bool at(std::string_view bytes, std::size_t offset, std::string_view wanted) {
  return bytes.size() >= offset + wanted.size() && bytes.substr(offset, wanted.size()) == wanted;
}

// ISO/IEC 14496-12: the file-type box comes first: size, "ftyp", major brand, version, compatible brands.
// ISO/IEC 23008-12 names the brands of HEVC still pictures.
bool is_heic(std::string_view bytes) {
  if (!at(bytes, 4, "ftyp") || bytes.size() < 16) return false;
  std::uint32_t box = 0;
  for (const char c : bytes.substr(0, 4)) box = box << 8 | static_cast<unsigned char>(c);
  const std::string_view brands = bytes.substr(0, std::min<std::size_t>({box, bytes.size(), 256}));
  constexpr std::array hevc = {"heic"sv, "heix"sv, "heim"sv, "heis"sv};
  if (at(bytes, 8, "avif")) return false;
  for (std::size_t i = 8; i + 4 <= brands.size(); i += i == 8 ? 8 : 4)
    if (std::find(hevc.begin(), hevc.end(), brands.substr(i, 4)) != hevc.end()) return true;
  return false;
}

bool is_text(std::string_view bytes) {
  const std::string_view start = bytes.substr(0, 512);
  return std::none_of(start.begin(), start.end(), [](char c) {
    const auto b = static_cast<unsigned char>(c);
    return (b < 0x20 && b != '\n' && b != '\r' && b != '\t' && b != '\f') || b == 0x7f;
  });
}

}  // namespace

std::optional<PhotoFormat> sniff(std::span<const std::byte> file) {
  const std::string_view bytes = text(file);
  if (at(bytes, 0, "\xff\xd8\xff"sv)) return PhotoFormat::jpeg;
  if (at(bytes, 0, "\x89PNG\r\n\x1a\n"sv)) return PhotoFormat::png;
  const bool raw =
      at(bytes, 8, "CR\x02"sv);  // a camera raw file in TIFF's clothes: its first page is a thumbnail
  if (!raw && (at(bytes, 0, "II*\0"sv) || at(bytes, 0, "MM\0*"sv) || at(bytes, 0, "II+\0"sv) ||
               at(bytes, 0, "MM\0+"sv)))
    return PhotoFormat::tiff;
  if (is_heic(bytes)) return PhotoFormat::heic;
  return std::nullopt;
}

std::string what_it_seems(std::span<const std::byte> file) {
  const std::string_view bytes = text(file);
  struct Known {
    std::size_t offset;
    std::string_view bytes;
    const char* what;
  };
  static constexpr std::array known = {
      Known{0, "%PDF"sv, "a PDF document"},
      Known{0, "GIF8"sv, "a GIF picture"},
      Known{8, "WEBP"sv, "a WebP picture"},
      Known{8, "avif"sv, "an AVIF picture"},
      Known{0, "BM"sv, "a BMP picture"},
      Known{8, "CR\x02"sv, "a camera raw file"},
      Known{4, "ftypcrx"sv, "a camera raw file"},
      Known{0, "IIRO"sv, "a camera raw file"},
      Known{0, "IIU\0"sv, "a camera raw file"},
      Known{0, "FUJIFILM"sv, "a camera raw file"},
      Known{4, "ftyp"sv, "a video"},
      Known{8, "AVI "sv, "a video"},
      Known{0, "PK\x03\x04"sv, "a ZIP archive"},
      Known{0, "\x00\x00\x00\x0cjP"sv, "a JPEG 2000 picture"},
  };
  if (bytes.empty()) return "an empty file";
  for (const Known& k : known)
    if (at(bytes, k.offset, k.bytes)) return k.what;
  if (is_text(bytes)) return "plain text";
  if (std::all_of(bytes.begin(), bytes.end(), [](char c) { return c == 0; })) return "a file of zeros";
  return "a kind of file that is not known";
}

const char* name(PhotoFormat format) {
  switch (format) {
    case PhotoFormat::jpeg:
      return "JPEG";
    case PhotoFormat::png:
      return "PNG";
    case PhotoFormat::tiff:
      return "TIFF";
    case PhotoFormat::heic:
      return "HEIC";
  }
  return "";
}

}  // namespace evet
