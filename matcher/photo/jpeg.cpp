// JPEG through libjpeg-turbo's C interface (ISO/IEC 10918-1).
//
// libjpeg reports errors by a call that must not return, so it jumps; the functions below that call into it
// hold nothing with a destructor. Damage in entropy-coded data is only a warning to libjpeg, which fills the
// rest with grey: here a lost or missing part makes the whole picture an error, because a half-grey belly
// would be matched.
#include <csetjmp>
#include <cstdio>  // jpeglib.h needs it first
#include <cstring>

#include <jpeglib.h>

#include <jerror.h>

#include "matcher/photo/codecs.h"

namespace evet {
namespace {

constexpr int kMostScans = 100;  // encoders write about ten; thousands in a small file are an attack on time

struct JpegReader {
  jpeg_decompress_struct c{};
  jpeg_error_mgr errors{};
  jpeg_progress_mgr progress{};
  std::jmp_buf out{};
  char message[JMSG_LENGTH_MAX] = {};
  bool created = false;
  bool lost_data = false;

  JpegReader() = default;
  JpegReader(const JpegReader&) = delete;
  JpegReader& operator=(const JpegReader&) = delete;
  ~JpegReader() {
    if (created) jpeg_destroy_decompress(&c);
  }
};

JpegReader& reader_of(j_common_ptr c) {
  return *static_cast<JpegReader*>(c->client_data);
}

[[noreturn]] void on_error(j_common_ptr c) {
  JpegReader& reader = reader_of(c);
  c->err->format_message(c, reader.message);
  std::longjmp(reader.out, 1);
}

void on_message(j_common_ptr c, int level) {
  if (level >= 0) return;  // trace
  JpegReader& reader = reader_of(c);
  switch (c->err->msg_code) {
    case JWRN_EXTRANEOUS_DATA:  // stray bytes between markers
    case JWRN_ADOBE_XFORM:
    case JWRN_JFIF_MAJOR:
    case JWRN_TOO_MUCH_DATA:
      return;
    default:
      if (!reader.lost_data) c->err->format_message(c, reader.message);
      reader.lost_data = true;
  }
}

void on_progress(j_common_ptr c) {
  const auto* decompress = reinterpret_cast<j_decompress_ptr>(c);
  if (decompress->input_scan_number <= kMostScans) return;
  std::snprintf(reader_of(c).message, JMSG_LENGTH_MAX, "more than %d scans", kMostScans);
  std::longjmp(reader_of(c).out, 1);
}

bool start(JpegReader& r, const unsigned char* bytes, std::size_t size) {
  r.c.err = jpeg_std_error(&r.errors);
  r.errors.error_exit = on_error;
  r.errors.emit_message = on_message;
  r.c.client_data = &r;
  if (setjmp(r.out) != 0) return false;
  jpeg_create_decompress(&r.c);
  r.created = true;
  r.progress.progress_monitor = on_progress;
  r.c.progress = &r.progress;
  jpeg_mem_src(&r.c, bytes, size);
  jpeg_save_markers(&r.c, JPEG_APP0 + 1, 0xffff);
  return jpeg_read_header(&r.c, TRUE) == JPEG_HEADER_OK;
}

bool begin_pixels(JpegReader& r, int eighths) {
  if (setjmp(r.out) != 0) return false;
  const bool four_inks = r.c.jpeg_color_space == JCS_CMYK || r.c.jpeg_color_space == JCS_YCCK;
  r.c.out_color_space = four_inks ? JCS_CMYK : JCS_EXT_BGR;
  r.c.scale_num = static_cast<unsigned>(eighths);
  r.c.scale_denom = 8;
  return jpeg_start_decompress(&r.c) == TRUE;
}

// `ink_row` holds one row of four inks, or is null when rows are BGR already.
bool read_pixels(JpegReader& r, cv::Mat3b& bgr, unsigned char* ink_row) {
  if (setjmp(r.out) != 0) return false;
  while (r.c.output_scanline < r.c.output_height) {
    unsigned char* to = bgr.ptr(static_cast<int>(r.c.output_scanline));
    JSAMPROW row = ink_row != nullptr ? ink_row : to;
    jpeg_read_scanlines(&r.c, &row, 1);
    if (ink_row == nullptr) continue;
    for (unsigned x = 0; x < r.c.output_width; ++x) {
      const unsigned char* ink = ink_row + std::size_t{4} * x;  // C, M, Y, K
      for (unsigned channel = 0; channel < 3; ++channel) {
        // Adobe's programs store inks inverted, and say so by their marker.
        const unsigned light = r.c.saw_Adobe_marker ? ink[2 - channel] : 255U - ink[2 - channel];
        const unsigned key = r.c.saw_Adobe_marker ? ink[3] : 255U - ink[3];
        to[std::size_t{3} * x + channel] = static_cast<unsigned char>((light * key + 127) / 255);
      }
    }
  }
  return jpeg_finish_decompress(&r.c) == TRUE;  // reads on to the end marker: a missing one is a cut file
}

void open(JpegReader& r, FileBytes file, const std::string& item) {
  if (!start(r, reinterpret_cast<const unsigned char*>(file.data()), file.size()))
    refuse_damaged(item, "JPEG", r.message);
  if (r.c.data_precision != 8) refuse_flavour(item, "a JPEG of other than 8 bits a sample");
  if (r.c.jpeg_color_space == JCS_UNKNOWN)
    refuse_flavour(item, "a JPEG with an unknown set of colour channels");
}

}  // namespace

Peek peek_jpeg(FileBytes file, const std::string& item) {
  JpegReader r;
  open(r, file, item);
  Peek peek{r.c.image_width, r.c.image_height, {}};
  for (const jpeg_marker_struct* m = r.c.marker_list; m != nullptr; m = m->next) {
    constexpr std::size_t head = 6;
    if (m->data_length <= head || std::memcmp(m->data, "Exif\0\0", head) != 0) continue;
    const auto* bytes = reinterpret_cast<const std::byte*>(m->data);
    peek.exif.assign(bytes + head, bytes + m->data_length);
    break;
  }
  return peek;
}

cv::Mat3b decode_jpeg(FileBytes file, const std::string& item, int eighths) {
  JpegReader r;
  open(r, file, item);
  if (!begin_pixels(r, eighths)) refuse_damaged(item, "JPEG", r.message);
  cv::Mat3b bgr(static_cast<int>(r.c.output_height), static_cast<int>(r.c.output_width));
  std::vector<unsigned char> ink_row;
  if (r.c.out_color_space == JCS_CMYK) ink_row.resize(std::size_t{4} * r.c.output_width);
  if (!read_pixels(r, bgr, ink_row.empty() ? nullptr : ink_row.data()) || r.lost_data)
    refuse_damaged(item, "JPEG", r.message);
  return bgr;
}

}  // namespace evet
