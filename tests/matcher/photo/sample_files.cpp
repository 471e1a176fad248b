#include "tests/matcher/photo/sample_files.h"

#include <cstdio>  // jpeglib.h needs it first

#include <jpeglib.h>
#include <libheif/heif.h>
#include <png.h>
#include <tiffio.h>

#include <zlib.h>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <stdexcept>

// The HEVC encoder keeps a block of its own to the end of the process; the leak sanitizer asks
// for this by name.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
  return "leak:libx265";
}

namespace evet::samples {
namespace {

void put(Bytes& out, std::uint64_t value, int bytes) {  // big-endian
  for (int i = bytes - 1; i >= 0; --i) out.push_back(static_cast<std::byte>(value >> (8 * i) & 0xff));
}
void put(Bytes& out, const std::string& text) {
  for (const char c : text) out.push_back(static_cast<std::byte>(c));
}

}  // namespace

Bytes bytes_of(const std::string& text) {
  Bytes out;
  put(out, text);
  return out;
}

cv::Mat3b quarters(int width, int height) {
  cv::Mat3b bgr(height, width);
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      const bool right = x >= width / 2, low = y >= height / 2;
      bgr(y, x) = low ? (right ? cv::Vec3b{40, 200, 220} : cv::Vec3b{30, 160, 40})
                      : (right ? cv::Vec3b{200, 60, 30} : cv::Vec3b{30, 40, 210});
      if (y < height / 8) bgr(y, x) = {10, 10, 10};
    }
  return bgr;
}

// Exif 3.0, tag 274: for each value, which sides of the upright picture row 0 and column 0 of
// the stored one are.
cv::Mat3b stored_as(const cv::Mat3b& upright, int orientation) {
  const int w = upright.cols, h = upright.rows;
  const bool turned = orientation >= 5;
  cv::Mat3b stored(turned ? w : h, turned ? h : w);
  for (int row = 0; row < stored.rows; ++row)
    for (int col = 0; col < stored.cols; ++col) {
      int x = 0, y = 0;
      switch (orientation) {
        case 2:
          y = row, x = w - 1 - col;
          break;  // row 0 top, column 0 right
        case 3:
          y = h - 1 - row, x = w - 1 - col;
          break;  // bottom, right
        case 4:
          y = h - 1 - row, x = col;
          break;  // bottom, left
        case 5:
          x = row, y = col;
          break;  // left, top
        case 6:
          x = w - 1 - row, y = col;
          break;  // right, top
        case 7:
          x = w - 1 - row, y = h - 1 - col;
          break;  // right, bottom
        case 8:
          x = row, y = h - 1 - col;
          break;  // left, bottom
        default:
          y = row, x = col;
          break;
      }
      stored(row, col) = upright(y, x);
    }
  return stored;
}

Bytes exif_block(const ExifSpec& spec) {
  struct Entry {
    std::uint16_t tag, type;
    std::uint32_t count;
    Bytes value;
  };
  const auto ascii = [](std::uint16_t tag, const std::string& text) {
    Bytes value = bytes_of(text);
    value.push_back(std::byte{0});
    return Entry{tag, 2, static_cast<std::uint32_t>(value.size()), value};
  };
  const auto number = [](std::uint16_t tag, std::uint16_t type, std::uint32_t n) {
    Bytes value;
    put(value, n, type == 3 ? 2 : 4);
    value.resize(4);
    return Entry{tag, type, 1, value};
  };
  const auto rationals = [](std::uint16_t tag) {
    Bytes value;
    for (const std::uint32_t n : {52, 10, 30}) put(value, n, 4), put(value, 1, 4);
    return Entry{tag, 5, 3, value};
  };
  Bytes out = bytes_of("MM");
  put(out, 42, 2);
  put(out, 8, 4);
  const auto directory = [&out](std::vector<Entry> entries, std::vector<std::size_t> links) {
    put(out, entries.size(), 2);
    std::uint64_t data_at = out.size() + entries.size() * 12 + 4;
    Bytes data;
    std::vector<std::size_t> link_places;
    for (const Entry& e : entries) {
      put(out, e.tag, 2), put(out, e.type, 2), put(out, e.count, 4);
      for (const std::size_t link : links)
        if (e.tag == link) link_places.push_back(out.size());
      Bytes value = e.value;
      if (value.size() <= 4) {
        value.resize(4);
        out.insert(out.end(), value.begin(), value.end());
      } else {
        put(out, data_at + data.size(), 4);
        if (value.size() % 2 != 0) value.push_back(std::byte{0});
        data.insert(data.end(), value.begin(), value.end());
      }
    }
    put(out, 0, 4);
    out.insert(out.end(), data.begin(), data.end());
    return link_places;
  };
  const auto patch = [&out](std::size_t place) {
    Bytes here;
    put(here, out.size(), 4);
    std::copy(here.begin(), here.end(), out.begin() + static_cast<std::ptrdiff_t>(place));
  };
  std::vector<Entry> first = {ascii(271, spec.make), ascii(272, spec.model),
                              number(274, 3, static_cast<std::uint32_t>(spec.orientation)),
                              number(0x8769, 4, 0)};
  if (spec.position) first.push_back(number(0x8825, 4, 0));
  const auto places = directory(first, {0x8769, 0x8825});
  patch(places[0]);
  directory({ascii(0x9003, spec.taken_at), ascii(0x9011, spec.offset)}, {});
  if (spec.position) {
    patch(places[1]);
    directory({ascii(1, "N"), rationals(2), ascii(3, "E"), rationals(4)}, {});
  }
  return out;
}

Bytes jpeg(const cv::Mat3b& bgr, const JpegSpec& spec) {
  jpeg_compress_struct c{};
  jpeg_error_mgr errors{};
  c.err = jpeg_std_error(&errors);
  jpeg_create_compress(&c);
  unsigned char* memory = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&c, &memory, &size);
  c.image_width = static_cast<unsigned>(bgr.cols);
  c.image_height = static_cast<unsigned>(bgr.rows);
  const bool inks = spec.inks == Inks::cmyk || spec.inks == Inks::ycck;
  c.input_components = inks ? 4 : 3;
  c.in_color_space = inks ? JCS_CMYK : JCS_EXT_BGR;
  jpeg_set_defaults(&c);
  jpeg_set_quality(&c, spec.quality, TRUE);
  if (spec.inks == Inks::grey) jpeg_set_colorspace(&c, JCS_GRAYSCALE);
  if (spec.inks == Inks::ycck) jpeg_set_colorspace(&c, JCS_YCCK);
  if (spec.inks == Inks::cmyk) jpeg_set_colorspace(&c, JCS_CMYK);
  c.write_Adobe_marker = inks ? TRUE : c.write_Adobe_marker;
  if (spec.progressive) jpeg_simple_progression(&c);
  jpeg_start_compress(&c, TRUE);
  if (!spec.exif.empty()) {
    Bytes marker = bytes_of(std::string("Exif\0\0", 6));
    marker.insert(marker.end(), spec.exif.begin(), spec.exif.end());
    jpeg_write_marker(&c, JPEG_APP0 + 1, reinterpret_cast<const JOCTET*>(marker.data()),
                      static_cast<unsigned>(marker.size()));
  }
  std::vector<unsigned char> row(static_cast<std::size_t>(bgr.cols) * 4);
  for (int y = 0; y < bgr.rows; ++y) {
    for (int x = 0; x < bgr.cols; ++x) {
      const cv::Vec3b p = bgr(y, x);
      unsigned char* to = row.data() + x * c.input_components;
      if (inks) {  // inverted inks without key, as Adobe's programs store them: the light itself
        to[0] = p[2], to[1] = p[1], to[2] = p[0], to[3] = 255;
      } else {
        to[0] = p[0], to[1] = p[1], to[2] = p[2];
      }
    }
    JSAMPROW rows = row.data();
    jpeg_write_scanlines(&c, &rows, 1);
  }
  jpeg_finish_compress(&c);
  jpeg_destroy_compress(&c);
  const auto* begin = reinterpret_cast<const std::byte*>(memory);
  Bytes out(begin, begin + size);
  std::free(memory);
  return out;
}

Bytes png(const cv::Mat3b& bgr, const PngSpec& spec) {
  png_structp p = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(p);
  Bytes out;
  png_set_write_fn(
      p, &out,
      [](png_structp w, png_bytep data, png_size_t n) {
        auto& to = *static_cast<Bytes*>(png_get_io_ptr(w));
        const auto* from = reinterpret_cast<const std::byte*>(data);
        to.insert(to.end(), from, from + n);
      },
      [](png_structp) {});
  const int type = spec.palette ? PNG_COLOR_TYPE_PALETTE
                   : spec.alpha ? PNG_COLOR_TYPE_RGBA
                                : PNG_COLOR_TYPE_RGB;
  png_set_IHDR(p, info, static_cast<png_uint_32>(bgr.cols), static_cast<png_uint_32>(bgr.rows), spec.bits,
               type, spec.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
               PNG_FILTER_TYPE_DEFAULT);
  std::vector<png_color> palette;
  const auto index_of = [&palette](const cv::Vec3b& v) {
    for (std::size_t i = 0; i < palette.size(); ++i)
      if (palette[i].red == v[2] && palette[i].green == v[1] && palette[i].blue == v[0]) return i;
    palette.push_back({v[2], v[1], v[0]});
    return palette.size() - 1;
  };
  if (spec.palette) {
    for (const cv::Vec3b& v : bgr) index_of(v);
    png_set_PLTE(p, info, palette.data(), static_cast<int>(palette.size()));
  }
  Bytes exif = spec.exif;
  if (!exif.empty())
    png_set_eXIf_1(p, info, static_cast<png_uint_32>(exif.size()), reinterpret_cast<png_bytep>(exif.data()));
  png_write_info(p, info);
  std::vector<Bytes> rows(static_cast<std::size_t>(bgr.rows));
  std::vector<png_bytep> pointers;
  for (int y = 0; y < bgr.rows; ++y) {
    Bytes& row = rows[static_cast<std::size_t>(y)];
    for (int x = 0; x < bgr.cols; ++x) {
      const cv::Vec3b v = bgr(y, x);
      if (spec.palette) {
        put(row, index_of(v), 1);
        continue;
      }
      for (const int channel : {2, 1, 0})
        put(row, spec.bits == 16 ? v[channel] * 257U : v[channel], spec.bits / 8);
      if (spec.alpha) put(row, x < bgr.cols / 2 ? 0 : 0xffff, spec.bits / 8);
    }
    pointers.push_back(reinterpret_cast<png_bytep>(row.data()));
  }
  png_write_image(p, pointers.data());
  png_write_end(p, info);
  png_destroy_write_struct(&p, &info);
  return out;
}

Bytes png_header(std::uint32_t width, std::uint32_t height) {
  Bytes out = bytes_of("\x89PNG\r\n\x1a\n");
  const auto chunk = [&out](const std::string& name, const Bytes& data) {
    put(out, data.size(), 4);
    Bytes body = bytes_of(name);
    body.insert(body.end(), data.begin(), data.end());
    out.insert(out.end(), body.begin(), body.end());
    put(out, crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size())), 4);
  };
  Bytes header;
  put(header, width, 4), put(header, height, 4), put(header, 8, 1), put(header, 2, 1), put(header, 0, 3);
  chunk("IHDR", header);
  chunk("IDAT", {});
  return out;
}

Bytes tiff(const cv::Mat3b& bgr, const TiffSpec& spec) {
  struct Memory {
    Bytes bytes;
    std::uint64_t at = 0;
  } memory;
  TIFF* t = TIFFClientOpen(
      "", "w", &memory,
      [](thandle_t h, void* to, tmsize_t n) -> tmsize_t {
        auto& m = *static_cast<Memory*>(h);
        const auto left =
            static_cast<tmsize_t>(m.bytes.size() - std::min<std::uint64_t>(m.at, m.bytes.size()));
        n = std::min(n, left);
        std::memcpy(to, m.bytes.data() + m.at, static_cast<std::size_t>(n));
        m.at += static_cast<std::uint64_t>(n);
        return n;
      },
      [](thandle_t h, void* from, tmsize_t n) -> tmsize_t {
        auto& m = *static_cast<Memory*>(h);
        m.bytes.resize(std::max<std::size_t>(m.bytes.size(), m.at + static_cast<std::uint64_t>(n)));
        std::memcpy(m.bytes.data() + m.at, from, static_cast<std::size_t>(n));
        m.at += static_cast<std::uint64_t>(n);
        return n;
      },
      [](thandle_t h, toff_t offset, int whence) -> toff_t {
        auto& m = *static_cast<Memory*>(h);
        m.at = whence == SEEK_SET ? offset : whence == SEEK_CUR ? m.at + offset : m.bytes.size() + offset;
        return m.at;
      },
      [](thandle_t) { return 0; },
      [](thandle_t h) -> toff_t { return static_cast<Memory*>(h)->bytes.size(); }, nullptr, nullptr);
  TIFFSetField(t, TIFFTAG_IMAGEWIDTH, bgr.cols);
  TIFFSetField(t, TIFFTAG_IMAGELENGTH, bgr.rows);
  TIFFSetField(t, TIFFTAG_BITSPERSAMPLE, spec.bits);
  TIFFSetField(t, TIFFTAG_SAMPLESPERPIXEL, spec.alpha ? 4 : 3);
  TIFFSetField(t, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_RGB);
  TIFFSetField(t, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
  TIFFSetField(t, TIFFTAG_ORIENTATION, spec.orientation);
  TIFFSetField(t, TIFFTAG_COMPRESSION, spec.compression);
  const std::uint16_t unassociated = EXTRASAMPLE_UNASSALPHA;
  if (spec.alpha) TIFFSetField(t, TIFFTAG_EXTRASAMPLES, 1, &unassociated);
  const int side = spec.tiled ? 32 : bgr.cols;
  if (spec.tiled) {
    TIFFSetField(t, TIFFTAG_TILEWIDTH, side);
    TIFFSetField(t, TIFFTAG_TILELENGTH, side);
  } else {
    TIFFSetField(t, TIFFTAG_ROWSPERSTRIP, 8);
  }
  const auto row_of = [&](int x0, int y) {
    Bytes row;
    for (int x = x0; x < x0 + side; ++x) {
      const bool inside = x < bgr.cols && y < bgr.rows;
      const cv::Vec3b v = inside ? bgr(y, x) : cv::Vec3b{};
      for (const int channel : {2, 1, 0}) {
        const std::uint32_t value = spec.bits == 16 ? v[channel] * 257U : v[channel];
        for (int i = 0; i < spec.bits / 8; ++i)
          row.push_back(static_cast<std::byte>(value >> (8 * i) & 0xff));
      }
      if (spec.alpha)
        for (int i = 0; i < spec.bits / 8; ++i)
          row.push_back(x < bgr.cols / 2 ? std::byte{0} : std::byte{255});
    }
    return row;
  };
  if (spec.tiled) {
    for (int y = 0; y < bgr.rows; y += side)
      for (int x = 0; x < bgr.cols; x += side) {
        Bytes tile;
        for (int r = 0; r < side; ++r) {
          const Bytes row = row_of(x, y + r);
          tile.insert(tile.end(), row.begin(), row.end());
        }
        TIFFWriteTile(t, tile.data(), static_cast<std::uint32_t>(x), static_cast<std::uint32_t>(y), 0, 0);
      }
  } else {
    for (int y = 0; y < bgr.rows; ++y)
      TIFFWriteScanline(t, row_of(0, y).data(), static_cast<std::uint32_t>(y), 0);
  }
  TIFFClose(t);
  return memory.bytes;
}

Bytes tiff_header(std::uint32_t width, std::uint32_t height) {
  Bytes out = bytes_of("MM");
  put(out, 42, 2), put(out, 8, 4), put(out, 8, 2);
  const auto entry = [&out](int tag, std::uint32_t value) {
    put(out, static_cast<std::uint64_t>(tag), 2), put(out, 4, 2), put(out, 1, 4), put(out, value, 4);
  };
  entry(256, width), entry(257, height), entry(258, 8), entry(259, 1), entry(262, 1), entry(273, 8),
      entry(278, height), entry(279, 1), put(out, 0, 4);
  return out;
}

Bytes heic(const cv::Mat3b& bgr, int orientation, const Bytes& exif) {
  const auto must = [](const heif_error& e) {
    if (e.code != heif_error_Ok) throw std::runtime_error(std::string("libheif: ") + e.message);
  };
  const std::unique_ptr<heif_context, decltype(&heif_context_free)> context(heif_context_alloc(),
                                                                            &heif_context_free);
  heif_encoder* encoder = nullptr;
  must(heif_context_get_encoder_for_format(context.get(), heif_compression_HEVC, &encoder));
  heif_encoder_set_lossy_quality(encoder, 90);
  heif_image* image = nullptr;
  must(heif_image_create(bgr.cols, bgr.rows, heif_colorspace_RGB, heif_chroma_interleaved_RGB, &image));
  must(heif_image_add_plane(image, heif_channel_interleaved, bgr.cols, bgr.rows, 8));
  int stride = 0;
  unsigned char* pixels = heif_image_get_plane(image, heif_channel_interleaved, &stride);
  for (int y = 0; y < bgr.rows; ++y)
    for (int x = 0; x < bgr.cols; ++x)
      for (int channel = 0; channel < 3; ++channel)
        pixels[static_cast<std::ptrdiff_t>(y) * stride + x * 3 + channel] = bgr(y, x)[2 - channel];
  heif_encoding_options* options = heif_encoding_options_alloc();
  options->image_orientation = static_cast<heif_orientation>(orientation);
  heif_image_handle* handle = nullptr;
  must(heif_context_encode_image(context.get(), image, encoder, options, &handle));
  if (!exif.empty())
    must(heif_context_add_exif_metadata(context.get(), handle, exif.data(), static_cast<int>(exif.size())));
  Bytes out;
  heif_writer writer{1, [](heif_context*, const void* data, std::size_t n, void* to) {
                       const auto* from = static_cast<const std::byte*>(data);
                       static_cast<Bytes*>(to)->assign(from, from + n);
                       return heif_error{heif_error_Ok, heif_suberror_Unspecified, ""};
                     }};
  must(heif_context_write(context.get(), &writer, &out));
  heif_encoding_options_free(options);
  heif_image_handle_release(handle);
  heif_image_release(image);
  heif_encoder_release(encoder);
  return out;
}

}  // namespace evet::samples
