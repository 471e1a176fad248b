// What an intake is pointed at: the sheet's bytes, and the folder of its photos.
#pragma once
#include <filesystem>
#include <string>

#include "matcher/base/env.h"

namespace evet {

struct SheetFile {
  std::string name;    // without its folders
  std::string sha256;  // of the bytes
  Bytes bytes;
};

// Errors: bad_input and not_found for a path that is not what it should be; those of read_file().
SheetFile read_sheet_file(const std::filesystem::path& sheet, const std::filesystem::path& photos,
                          std::size_t at_most_bytes, Env& env);

}  // namespace evet
