// A whole file into memory, or a plain sentence why not.
#pragma once
#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace evet {

inline constexpr std::size_t kMaxPhotoBytes = 200'000'000;

// `item` is how messages name the file (usually the name on the sheet); control characters in it are escaped.
// Errors: not_found when it is not there; bad_input for a folder, a pipe or a device, an empty file, a file
// that may not be read; too_large over `max_bytes`; storage when the disk fails. Never blocks on a pipe.
std::vector<std::byte> read_file(const std::filesystem::path& path, const std::string& item,
                                 std::size_t max_bytes = kMaxPhotoBytes);

}  // namespace evet
