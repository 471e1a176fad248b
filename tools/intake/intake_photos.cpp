#include "tools/intake/intake_photos.h"

#include <mutex>
#include <set>

#include "matcher/base/error.h"
#include "matcher/base/parallel.h"
#include "matcher/base/sha256.h"
#include "matcher/photo/decode.h"
#include "matcher/photo/read_file.h"
#include "tools/intake/camera_clock.h"
#include "tools/intake/messages.h"
#include "tools/intake/photo_files.h"
#include "tools/words/text.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

// `known`: whether the catalogue has this picture.
ReadPhoto read_row_photo(const SheetRow& row, const fs::path& folder, const PhotoFiles& files,
                         const std::function<bool(const PhotoId&)>& known) {
  ReadPhoto read;
  const std::string item = at_photo(row.line, row.photo).words();
  try {
    const Bytes bytes = read_file(folder / fs::path(row.photo), item);
    read.id = PhotoId(sha256_hex(bytes));
    // Decoded in full, though small: a picture cut short shows only at its end.
    if (!known(read.id))
      read.taken_at = decode_photo(bytes, item, {.enough_long_side_px = 64}).header.taken_at;
  } catch (const Error& error) {
    if (error.kind() == ErrorKind::storage) throw;
    read.refusal = error.kind() == ErrorKind::not_found
                       ? Reason{messages::kNoSuchPhoto, files.meant_instead(row.photo)}
                       : error.reason();
  }
  return read;
}

// Forgotten rows.
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

std::vector<Message> clock_hints(const Sheet& sheet, const std::vector<ReadPhoto>& reads) {
  std::vector<TimedPhoto> timed;
  for (size_t i = 0; i < reads.size(); ++i)
    if (reads[i].taken_at && !reads[i].refusal)
      timed.push_back({sheet.rows[i].photo, sheet.rows[i].night, *reads[i].taken_at});
  return camera_clock_hints(timed);
}

}  // namespace

PhotosOfSheet read_photos(Catalogue& catalogue, const Sheet& sheet, const fs::path& folder, int threads,
                          const std::function<void(size_t done, size_t all)>& progress, Env& env) {
  PhotosOfSheet photos;
  photos.on_no_row = pictures_on_no_row(folder, sheet, catalogue.identities(), env);
  photos.reads.resize(sheet.rows.size());
  const PhotoFiles files(sheet, folder, env);
  std::mutex mutex;  // a catalogue serves one thread at a time
  size_t done = 0;
  for_each_item(sheet.rows.size(), threads, [&](size_t i) {
    photos.reads[i] = read_row_photo(sheet.rows[i], folder, files, [&](const PhotoId& id) {
      const std::lock_guard lock(mutex);
      return !catalogue.captures_with_photo(id).empty();
    });
    if (!progress) return;
    const std::lock_guard lock(mutex);
    progress(++done, sheet.rows.size());
  });
  photos.hints = clock_hints(sheet, photos.reads);
  return photos;
}

}  // namespace evet
