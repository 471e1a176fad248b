#include "matcher/photo/encode.h"

#include <png.h>

#include <cstdio>  // jpeglib.h needs FILE

#include <jpeglib.h>

#include <cstdlib>
#include <memory>
#include <string>

#include "matcher/base/error.h"
#include "matcher/photo/messages.h"

namespace evet {
namespace {

void check(const cv::Mat& picture) {
  if (picture.empty())
    throw Error(ErrorKind::bad_input, "picture", messages::kHasNoPixelsPhoto, messages::kGiveOneEncode);
  if (picture.type() != CV_8UC1 && picture.type() != CV_8UC3)
    throw Error(ErrorKind::bad_input, "picture", messages::kHasPixelsAreNot8,
                messages::kConvertBeforeIsEncoded);
}

struct JpegError {
  jpeg_error_mgr base;
  static void raise(j_common_ptr info) {
    char text[JMSG_LENGTH_MAX];
    info->err->format_message(info, text);
    throw Error(ErrorKind::bad_input, "picture", Message(messages::kCannotBeWrittenAsJpeg, {{"text", text}}));
  }
};

}  // namespace

std::vector<std::byte> encode_png(const cv::Mat& picture) {
  check(picture);
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(picture.cols);
  image.height = static_cast<png_uint_32>(picture.rows);
  image.format = picture.channels() == 1 ? PNG_FORMAT_GRAY : PNG_FORMAT_BGR;
  const auto stride = static_cast<png_int_32>(picture.step);
  png_alloc_size_t size = 0;
  std::vector<std::byte> out;
  // The first call measures, the second writes.
  if (png_image_write_to_memory(&image, nullptr, &size, 0, picture.data, stride, nullptr)) {
    out.resize(size);
    if (png_image_write_to_memory(&image, out.data(), &size, 0, picture.data, stride, nullptr)) {
      out.resize(size);
      return out;
    }
  }
  throw Error(ErrorKind::bad_input, "picture",
              Message(messages::kCannotBeWrittenAsPng, {{"image", image.message}}));
}

std::vector<std::byte> encode_jpeg(const cv::Mat& picture, int quality) {
  check(picture);
  if (quality < 1 || quality > 100)
    throw Error(ErrorKind::usage, "JPEG quality", messages::kIsNotBetween1And, messages::kN88IsUsual);
  jpeg_compress_struct info{};
  JpegError error{};
  info.err = jpeg_std_error(&error.base);
  error.base.error_exit = JpegError::raise;
  jpeg_create_compress(&info);
  const std::unique_ptr<jpeg_compress_struct, void (*)(jpeg_compress_struct*)> owner(
      &info, [](jpeg_compress_struct* p) { jpeg_destroy_compress(p); });
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &bytes, &size);
  struct Memory {
    unsigned char** bytes;
    ~Memory() { std::free(*bytes); }  // NOLINT: libjpeg allocates it with malloc
  } memory{&bytes};
  info.image_width = static_cast<JDIMENSION>(picture.cols);
  info.image_height = static_cast<JDIMENSION>(picture.rows);
  info.input_components = picture.channels();
  info.in_color_space = picture.channels() == 1 ? JCS_GRAYSCALE : JCS_EXT_BGR;
  jpeg_set_defaults(&info);
  jpeg_set_quality(&info, quality, TRUE);
  jpeg_start_compress(&info, TRUE);
  while (info.next_scanline < info.image_height) {
    JSAMPROW row = const_cast<JSAMPROW>(picture.ptr<unsigned char>(static_cast<int>(info.next_scanline)));
    jpeg_write_scanlines(&info, &row, 1);
  }
  jpeg_finish_compress(&info);
  const auto* from = reinterpret_cast<const std::byte*>(bytes);
  return {from, from + size};
}

}  // namespace evet
