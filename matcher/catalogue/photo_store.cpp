#include "matcher/catalogue/photo_store.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"

namespace evet {

std::filesystem::path PhotoStore::path(const PhotoId& photo) const {
  const bool is_hash =
      photo.value.size() == 64 && photo.value.find_first_not_of("0123456789abcdef") == std::string::npos;
  // A name that is no hash never reaches the file system: it could hold "../".
  if (!is_hash) throw Error(ErrorKind::not_found, "photo " + photo.value, "it is not in the catalogue");
  return folder_ / photo.value.substr(0, 2) / photo.value;
}

bool PhotoStore::has(const PhotoId& photo) const {
  return env_->exists(path(photo));
}

PhotoId PhotoStore::keep(BytesView bytes) {
  PhotoId photo(sha256_hex(bytes));
  const std::filesystem::path file = path(photo);
  if (env_->exists(file)) {
    const Bytes kept = env_->read_file(file);
    if (std::equal(kept.begin(), kept.end(), bytes.begin(), bytes.end())) return photo;
  }
  if (!env_->exists(file.parent_path())) {
    env_->make_folders(file.parent_path());
    env_->sync_folder(folder_);
  }
  write_file_durably(*env_, file, bytes);
  return photo;
}

Bytes PhotoStore::read(const PhotoId& photo) const {
  const std::filesystem::path file = path(photo);
  if (!env_->exists(file))
    throw Error(ErrorKind::not_found, "photo " + photo.value, "its file is gone from the catalogue",
                "put " + file.string() + " back from a backup or merge a copy that has it");
  Bytes bytes = env_->read_file(file);
  if (sha256_hex(bytes) != photo.value)
    throw Error(ErrorKind::storage, "photo " + photo.value, "its bytes have changed since it was taken in",
                "put " + file.string() + " back from a backup or merge a copy that has it");
  return bytes;
}

}  // namespace evet
