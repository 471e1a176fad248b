// What decode_photo and read_photo_header do, in the process that asks. `grant` is asked for room before any
// pixel is decoded, with the most bytes that it may take by the header.
#pragma once
#include <functional>
#include <span>
#include <string>

#include "matcher/photo/decode_options.h"
#include "matcher/photo/photo.h"

namespace evet {

PhotoHeader read_header_here(std::span<const std::byte> file, const std::string& item,
                             const DecodeOptions& options);
Photo decode_here(std::span<const std::byte> file, const std::string& item, const DecodeOptions& options,
                  const std::function<void(std::uint64_t bytes)>& grant);

}  // namespace evet
