// What the tests of rendered sets read: files as bytes, sheets as on one day.
#pragma once
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "tools/intake/read_sheet.h"

namespace evet::render {

// No night of a rendered set lies after it.
inline constexpr SheetOptions kToday{.today = std::chrono::year(2026) / 6 / 1};

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace evet::render
