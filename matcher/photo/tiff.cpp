// TIFF through libtiff, from memory, first page (TIFF 6.0). 8- and 16-bit grey, RGB, CMYK, palette and YCbCr;
// not floating point. Camera raw files in TIFF's clothes are refused: their first page is a thumbnail.
#include <tiffio.h>

#include <cstdarg>
#include <cstdio>
#include <cstring>
#include <memory>
#include <string_view>

#include "matcher/photo/codecs.h"

namespace evet {
namespace {

struct Source {
  FileBytes bytes;
  std::uint64_t at = 0;
  char message[256] = {};
  bool lost_data = false;
};
Source& source_of(thandle_t handle) {
  return *static_cast<Source*>(handle);
}

tmsize_t read_some(thandle_t handle, void* to, tmsize_t wanted) {
  Source& s = source_of(handle);
  if (wanted <= 0 || s.at >= s.bytes.size()) return 0;
  const std::size_t n = std::min(static_cast<std::size_t>(wanted), s.bytes.size() - s.at);
  std::memcpy(to, s.bytes.data() + s.at, n);
  s.at += n;
  return static_cast<tmsize_t>(n);
}
tmsize_t write_nothing(thandle_t, void*, tmsize_t) {
  return 0;
}
toff_t seek(thandle_t handle, toff_t offset, int whence) {
  Source& s = source_of(handle);
  s.at = whence == SEEK_SET ? offset : whence == SEEK_CUR ? s.at + offset : s.bytes.size() + offset;
  return s.at;
}
int close_nothing(thandle_t) {
  return 0;
}
toff_t size_of(thandle_t handle) {
  return source_of(handle).bytes.size();
}

int keep_error(TIFF*, void* user, const char*, const char* format, va_list arguments) {
  auto& s = *static_cast<Source*>(user);
  if (s.message[0] == 0) std::vsnprintf(s.message, sizeof s.message, format, arguments);
  s.lost_data = true;
  return 1;  // handled: nothing goes to standard error
}
// Most warnings are about unknown tags. The JPEG codec inside TIFF only warns when it fills
// lost parts with grey.
int judge_warning(TIFF* tiff, void* user, const char* module, const char* format, va_list arguments) {
  if (module != nullptr && std::string_view(module).find("JPEG") != std::string_view::npos)
    keep_error(tiff, user, module, format, arguments);
  return 1;
}

using Tiff = std::unique_ptr<TIFF, decltype(&TIFFClose)>;

Tiff open(Source& source, const std::string& item) {
  const std::unique_ptr<TIFFOpenOptions, decltype(&TIFFOpenOptionsFree)> options(TIFFOpenOptionsAlloc(),
                                                                                 &TIFFOpenOptionsFree);
  // Room for a strip as large as the largest picture of eight bytes a pixel, and no more.
  TIFFOpenOptionsSetMaxSingleMemAlloc(options.get(), tmsize_t{900} << 20);
  TIFFOpenOptionsSetErrorHandlerExtR(options.get(), keep_error, &source);
  TIFFOpenOptionsSetWarningHandlerExtR(options.get(), judge_warning, &source);
  // "m": no memory mapping, so that every read is bounded by read_some.
  Tiff tiff(TIFFClientOpenExt("", "rm", &source, read_some, write_nothing, seek, close_nothing, size_of,
                              nullptr, nullptr, options.get()),
            &TIFFClose);
  if (!tiff) refuse_damaged(item, "TIFF", source.message);
  return tiff;
}

template <class T>
T field(TIFF* tiff, std::uint32_t tag, T otherwise) {
  T value{};
  return TIFFGetFieldDefaulted(tiff, tag, &value) == 1 ? value : otherwise;
}

bool is_camera_raw(TIFF* tiff) {
  constexpr std::uint32_t dng_version = 50706;  // Adobe DNG specification
  std::uint16_t count = 0;
  const void* version = nullptr;
  return field<std::uint32_t>(tiff, TIFFTAG_SUBFILETYPE, 0) == FILETYPE_REDUCEDIMAGE ||
         field<std::uint16_t>(tiff, TIFFTAG_PHOTOMETRIC, 0) == PHOTOMETRIC_CFA ||
         TIFFGetField(tiff, dng_version, &count, &version) == 1;
}

}  // namespace

Peek peek_tiff(FileBytes file, const std::string& item) {
  Source source{.bytes = file};
  const Tiff tiff = open(source, item);
  if (is_camera_raw(tiff.get())) refuse_flavour(item, "a camera raw file");
  Peek peek;
  peek.width = field<std::uint32_t>(tiff.get(), TIFFTAG_IMAGEWIDTH, 0);
  peek.height = field<std::uint32_t>(tiff.get(), TIFFTAG_IMAGELENGTH, 0);
  peek.exif.assign(file.begin(), file.end());
  return peek;
}

cv::Mat3b decode_tiff(FileBytes file, const std::string& item) {
  Source source{.bytes = file};
  const Tiff tiff = open(source, item);
  const auto width = field<std::uint32_t>(tiff.get(), TIFFTAG_IMAGEWIDTH, 0);
  const auto height = field<std::uint32_t>(tiff.get(), TIFFTAG_IMAGELENGTH, 0);
  if (field<std::uint16_t>(tiff.get(), TIFFTAG_COMPRESSION, COMPRESSION_NONE) == COMPRESSION_OJPEG)
    refuse_flavour(item, "a TIFF with old-style JPEG compression");
  char why[1024] = {};
  if (TIFFRGBAImageOK(tiff.get(), why) == 0)
    refuse_flavour(item, std::string("a TIFF whose pixels are not read here (") + why + ")");
  // The pixels are wanted as stored: libtiff would undo only half of the eight orientations.
  TIFFSetField(tiff.get(), TIFFTAG_ORIENTATION, ORIENTATION_TOPLEFT);
  std::vector<std::uint32_t> rgba(std::size_t{width} * height);
  const int ok = TIFFReadRGBAImageOriented(tiff.get(), width, height, rgba.data(), ORIENTATION_TOPLEFT, 1);
  if (ok == 0 || source.lost_data) refuse_damaged(item, "TIFF", source.message);
  cv::Mat3b bgr(static_cast<int>(height), static_cast<int>(width));
  std::transform(rgba.begin(), rgba.end(), bgr.begin(), [](std::uint32_t p) {  // colour already times alpha
    return cv::Vec3b{premultiplied_over_white(TIFFGetB(p), TIFFGetA(p)),
                     premultiplied_over_white(TIFFGetG(p), TIFFGetA(p)),
                     premultiplied_over_white(TIFFGetR(p), TIFFGetA(p))};
  });
  return bgr;
}

}  // namespace evet
