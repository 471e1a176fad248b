// Bytes to pixels, by content and not by name: JPEG, PNG, TIFF and HEIC and nothing else.
//
// The header is read and judged before any pixel is decoded, so that a hostile file costs nothing. Anything
// wrong is an Error that names the item; no input may crash, hang or allocate beyond the stated limits, which
// hold for all threads together (decode_budget.h).
//
// A picture that is cut short or damaged is an Error, never a half-grey picture. Transparency is laid over
// white. CMYK, grey, palette, 10- and 16-bit pictures become 8-bit BGR. Embedded colour (ICC) profiles are
// ignored: pixels are taken to be sRGB, which is what matching needs and nearly what every camera writes.
// Multi-page files: the first page (HEIC: the primary picture).
#pragma once
#include <cstddef>
#include <span>
#include <string>

#include "matcher/photo/decode_options.h"
#include "matcher/photo/photo.h"

namespace evet {

// `item` is how messages name the picture (usually the name on the sheet); control characters are escaped.
// Errors: unsupported (not one of the four, or a flavour of them that is not read, such as camera raw),
// too_large (over the limit by its header), bad_input (damaged, cut short, no pixels). A broken Exif block is
// not an error.
PhotoHeader read_photo_header(std::span<const std::byte> file, const std::string& item,
                              const DecodeOptions& options = {});
Photo decode_photo(std::span<const std::byte> file, const std::string& item,
                   const DecodeOptions& options = {});

}  // namespace evet
