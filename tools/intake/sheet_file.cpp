#include "tools/intake/sheet_file.h"

#include "matcher/base/error.h"
#include "matcher/base/messages.h"
#include "matcher/base/sha256.h"
#include "matcher/photo/read_file.h"
#include "tools/intake/messages.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

// The two are easily given the wrong way round.
void check_paths(const fs::path& sheet, const fs::path& photos, Env& env) {
  std::error_code ignored;
  if (env.exists(sheet) && !fs::is_regular_file(sheet, ignored))
    throw Error(ErrorKind::bad_input, sheet.string(),
                fs::is_directory(sheet, ignored) ? messages::kSheetIsFolder : messages::kSheetIsNoFile,
                messages::kNameSheetThenPhotos);
  if (!env.exists(photos))
    throw Error(ErrorKind::not_found, photos.string(), messages::kNoSuchFolder, messages::kNamePhotosFolder);
  if (!fs::is_directory(photos, ignored))
    throw Error(ErrorKind::bad_input, photos.string(), messages::kPhotosAreFile, messages::kNamePhotosFolder);
}

}  // namespace

SheetFile read_sheet_file(const fs::path& sheet, const fs::path& photos, std::size_t at_most_bytes,
                          Env& env) {
  check_paths(sheet, photos, env);
  SheetFile file{sheet.filename().string(), {}, {}};
  std::error_code no_size;                 // then reading says what is wrong
  if (fs::file_size(sheet, no_size) != 0)  // an empty one is the sheet's matter, not the camera's
    file.bytes = read_file(sheet, sheet.string(), at_most_bytes + 1);
  file.sha256 = sha256_hex(file.bytes);
  return file;
}

}  // namespace evet
