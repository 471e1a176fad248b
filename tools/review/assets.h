// The page's own files, carried inside the program.
#pragma once
#include <optional>
#include <span>
#include <string>

#include "tools/review/message.h"

namespace evet::review {

struct AssetFile {
  const char* name;
  const char *begin, *end;
};
std::span<const AssetFile> embedded_assets();  // made at build time, see assets.cmake

// Nothing when there is no such file.
std::optional<Response> asset(const std::string& name);

}  // namespace evet::review
