// What a file is, by its first bytes and never by its name.
#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "matcher/photo/photo.h"

namespace evet {

// The format when it is one that is read here; nullopt otherwise.
std::optional<PhotoFormat> sniff(std::span<const std::byte> file);

// For messages about a file that is not: "a PDF document", "plain text", "a camera raw
// file", "not a picture".
std::string what_it_seems(std::span<const std::byte> file);

const char* name(PhotoFormat format);  // "JPEG", "PNG", "TIFF", "HEIC"

}  // namespace evet
