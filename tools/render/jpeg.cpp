#include "tools/render/jpeg.h"

#include <jpeglib.h>
#include <cstdio>  // jpeglib.h needs FILE and size_t declared before it

#include <cstdlib>
#include <string>

#include <algorithm>
#include <stdexcept>

namespace evet::render {

namespace {

[[noreturn]] void throw_message(j_common_ptr state) {
  char text[JMSG_LENGTH_MAX];
  state->err->format_message(state, text);
  throw std::runtime_error(std::string("JPEG: ") + text);
}

jpeg_error_mgr throwing_errors() {
  jpeg_error_mgr errors;
  jpeg_std_error(&errors);
  errors.error_exit = throw_message;
  return errors;
}

}  // namespace

std::vector<unsigned char> encode_jpeg(const cv::Mat3b& bgr, int quality) {
  jpeg_error_mgr errors = throwing_errors();
  jpeg_compress_struct state;
  state.err = &errors;
  jpeg_create_compress(&state);
  unsigned char* buffer = nullptr;
  unsigned long size = 0;
  std::vector<unsigned char> bytes;
  try {
    jpeg_mem_dest(&state, &buffer, &size);
    state.image_width = static_cast<JDIMENSION>(bgr.cols);
    state.image_height = static_cast<JDIMENSION>(bgr.rows);
    state.input_components = 3;
    state.in_color_space = JCS_EXT_BGR;
    jpeg_set_defaults(&state);
    jpeg_set_quality(&state, std::clamp(quality, 1, 100), TRUE);
    state.dct_method = JDCT_ISLOW;
    jpeg_start_compress(&state, TRUE);
    for (int y = 0; y < bgr.rows; ++y) {
      JSAMPROW row = const_cast<JSAMPROW>(bgr.ptr<unsigned char>(y));
      jpeg_write_scanlines(&state, &row, 1);
    }
    jpeg_finish_compress(&state);
    bytes.assign(buffer, buffer + size);
  } catch (...) {
    jpeg_destroy_compress(&state);
    std::free(buffer);
    throw;
  }
  jpeg_destroy_compress(&state);
  std::free(buffer);
  return bytes;
}

cv::Mat3b decode_jpeg(const std::vector<unsigned char>& bytes) {
  jpeg_error_mgr errors = throwing_errors();
  jpeg_decompress_struct state;
  state.err = &errors;
  jpeg_create_decompress(&state);
  cv::Mat3b bgr;
  try {
    jpeg_mem_src(&state, bytes.data(), static_cast<unsigned long>(bytes.size()));
    jpeg_read_header(&state, TRUE);
    state.out_color_space = JCS_EXT_BGR;
    state.dct_method = JDCT_ISLOW;
    jpeg_start_decompress(&state);
    bgr.create(static_cast<int>(state.output_height), static_cast<int>(state.output_width));
    while (state.output_scanline < state.output_height) {
      JSAMPROW row = bgr.ptr<unsigned char>(static_cast<int>(state.output_scanline));
      jpeg_read_scanlines(&state, &row, 1);
    }
    jpeg_finish_decompress(&state);
  } catch (...) {
    jpeg_destroy_decompress(&state);
    throw;
  }
  jpeg_destroy_decompress(&state);
  return bgr;
}

}  // namespace evet::render
