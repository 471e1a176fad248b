#include "tools/intake/intake_photos.h"

#include <set>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/read_file.h"
#include "tools/words/text.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

// The file that was probably meant, for a name that is not there.
std::string meant_instead(const fs::path& folder, const std::string& name, Env& env) {
  std::string plain = "check the name and the photos folder, " + folder.string();
  try {
    if (name.find('/') != std::string::npos || !env.exists(folder)) return plain;
    const std::vector<std::string> names = env.list_folder(folder);
    for (const std::string& other : names)
      if (lower_ascii(other) == lower_ascii(name)) return "did you mean " + evet::quoted(other) + "?";
    if (const auto near = near_miss(name, names)) return "did you mean " + evet::quoted(*near) + "?";
  } catch (const Error&) {  // a hint is not worth a failure
  }
  return plain;
}

}  // namespace

std::string at_line(const SheetRow& row) {
  return "line " + std::to_string(row.line) + ", photo " + evet::quoted(row.photo);
}

ReadPhoto read_row_photo(const SheetRow& row, const fs::path& folder, Env& env,
                         const std::function<bool(const PhotoId&)>& known) {
  ReadPhoto read;
  try {
    const Bytes bytes = read_file(folder / fs::path(row.photo), at_line(row));
    read.id = PhotoId(sha256_hex(bytes));
    // Decoded in full, though small: a picture cut short shows only at its end.
    if (!known(read.id))
      read.taken_at = decode_photo(bytes, at_line(row), {.enough_long_side_px = 64}).header.taken_at;
  } catch (const Error& error) {
    if (error.kind() == ErrorKind::storage) throw;
    read.refusal = error.kind() == ErrorKind::not_found
                       ? at_line(row) + ": there is no such file; " + meant_instead(folder, row.photo, env)
                       : error.what();
  }
  return read;
}

std::vector<std::string> pictures_on_no_row(const fs::path& folder, const Sheet& sheet, const Identities& who,
                                            Env& env) {
  static const std::set<std::string> kinds{".jpg", ".jpeg", ".png", ".tif", ".tiff", ".heic", ".heif"};
  std::set<std::string> left;
  for (const std::string& name : env.list_folder(folder))
    if (kinds.contains(lower_ascii(fs::path(name).extension().string())) && !sheet.named.contains(name))
      left.insert(name);
  for (const CaptureState& capture : who.captures)
    for (const PhotoState& photo : capture.photos) left.erase(photo.name);
  return {left.begin(), left.end()};
}

}  // namespace evet
