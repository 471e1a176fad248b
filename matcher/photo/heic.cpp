// HEIC through libheif (ISO/IEC 23008-12): the primary picture, with the file's own rotation, mirroring and
// crop applied by the decoder. 10 and 12 bits become 8.
#include <libheif/heif.h>

#include <memory>

#include "matcher/photo/codecs.h"

namespace evet {
namespace {

template <class T, auto Release>
struct Free {
  void operator()(T* t) const { Release(t); }
};
using Context = std::unique_ptr<heif_context, Free<heif_context, heif_context_free>>;
using Options =
    std::unique_ptr<heif_decoding_options, Free<heif_decoding_options, heif_decoding_options_free>>;
struct Handle {
  Context context;
  std::unique_ptr<const heif_image_handle, Free<const heif_image_handle, heif_image_handle_release>> primary;
};
using Image = std::unique_ptr<const heif_image, Free<const heif_image, heif_image_release>>;

void check(const heif_error& error, const std::string& item) {
  if (error.code == heif_error_Ok) return;
  if (error.code == heif_error_Unsupported_feature || error.code == heif_error_Unsupported_filetype)
    refuse_flavour(item, std::string("a HEIC file of a kind that is not read here (") + error.message + ")");
  refuse_damaged(item, "HEIC", error.message);
}

Handle open(FileBytes file, const std::string& item) {
  Handle handle;
  handle.context.reset(heif_context_alloc());
  heif_context_set_max_decoding_threads(handle.context.get(),
                                        0);  // photos are spread over threads, not tiles
  check(heif_context_read_from_memory_without_copy(handle.context.get(), file.data(), file.size(), nullptr),
        item);
  heif_image_handle* primary = nullptr;
  check(heif_context_get_primary_image_handle(handle.context.get(), &primary), item);
  handle.primary.reset(primary);
  return handle;
}

// The block starts with the offset of the byte-order mark, four bytes, big-endian (ISO/IEC 23008-12 A.2.1).
std::vector<std::byte> exif_block(const heif_image_handle* primary) {
  heif_item_id id = 0;
  if (heif_image_handle_get_list_of_metadata_block_IDs(primary, "Exif", &id, 1) != 1) return {};
  std::vector<std::byte> block(heif_image_handle_get_metadata_size(primary, id));
  if (block.size() < 4 || heif_image_handle_get_metadata(primary, id, block.data()).code != heif_error_Ok)
    return {};
  std::uint64_t start = 4;
  for (int i = 0; i < 4; ++i)
    start += std::to_integer<std::uint64_t>(block[static_cast<std::size_t>(i)]) << (24 - 8 * i);
  if (start >= block.size()) return {};
  block.erase(block.begin(), block.begin() + static_cast<std::ptrdiff_t>(start));
  return block;
}

}  // namespace

Peek peek_heic(FileBytes file, const std::string& item) {
  const Handle handle = open(file, item);
  const int width = heif_image_handle_get_width(handle.primary.get());
  const int height = heif_image_handle_get_height(handle.primary.get());
  return {static_cast<std::uint64_t>(std::max(0, width)), static_cast<std::uint64_t>(std::max(0, height)),
          exif_block(handle.primary.get())};
}

cv::Mat3b decode_heic(FileBytes file, const std::string& item) {
  const Handle handle = open(file, item);
  const Options options(heif_decoding_options_alloc());
  options->convert_hdr_to_8bit = 1;
  options->strict_decoding = 1;
  heif_image* decoded = nullptr;
  const heif_error error = heif_decode_image(handle.primary.get(), &decoded, heif_colorspace_RGB,
                                             heif_chroma_interleaved_RGBA, options.get());
  const Image image(decoded);
  check(error, item);
  heif_error warning{};
  if (heif_image_get_decoding_warnings(decoded, 0, &warning, 1) > 0)
    refuse_damaged(item, "HEIC", warning.message);
  int stride = 0;
  const unsigned char* pixels = heif_image_get_plane_readonly(decoded, heif_channel_interleaved, &stride);
  const int width = heif_image_get_width(decoded, heif_channel_interleaved);
  const int height = heif_image_get_height(decoded, heif_channel_interleaved);
  if (pixels == nullptr || width != heif_image_handle_get_width(handle.primary.get()) ||
      height != heif_image_handle_get_height(handle.primary.get()))
    refuse_damaged(item, "HEIC", "the picture has another size than its header says");
  const bool premultiplied = heif_image_handle_is_premultiplied_alpha(handle.primary.get()) != 0;
  const auto blend = premultiplied ? premultiplied_over_white : over_white;
  cv::Mat3b bgr(height, width);
  for (int y = 0; y < height; ++y) {
    const unsigned char* row = pixels + static_cast<std::ptrdiff_t>(y) * stride;
    for (int x = 0; x < width; ++x) {
      const unsigned char* p = row + std::ptrdiff_t{4} * x;
      bgr(y, x) = {blend(p[2], p[3]), blend(p[1], p[3]), blend(p[0], p[3])};
    }
  }
  return bgr;
}

}  // namespace evet
