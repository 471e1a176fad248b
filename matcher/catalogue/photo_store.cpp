#include "matcher/catalogue/photo_store.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/sha256.h"
#include "matcher/base/write_durably.h"
#include "matcher/catalogue/fields.h"
#include "matcher/catalogue/messages.h"
#include "matcher/photo/read_file.h"

namespace evet {
namespace {

bool is_hash(const PhotoId& photo) {
  return is_sha256(photo.value);
}

Error not_its_own(const std::filesystem::path& path) {
  return {ErrorKind::bad_input, path.string(), messages::kLinkOrNoFileLies, messages::kTakeAwayAndRunSame};
}

}  // namespace

std::filesystem::path PhotoStore::path(const PhotoId& photo) const {
  // A name that is no hash never reaches the file system: it could hold "../".
  if (!is_hash(photo)) throw Error(ErrorKind::not_found, "photo " + photo.value, messages::kIsNotInCatalogue);
  return folder_ / photo.value.substr(0, 2) / photo.value;
}

// Only a plain file in a plain folder is a photo of the catalogue: a link would lead out of it, a pipe would
// keep whoever reads it waiting.
bool PhotoStore::has(const PhotoId& photo) const {
  if (!is_hash(photo)) return false;
  const std::filesystem::path file = path(photo);
  return env_->facts(file.parent_path()).kind == FileKind::folder && env_->facts(file).kind == FileKind::file;
}

PhotoId PhotoStore::keep(BytesView bytes) {
  PhotoId photo(sha256_hex(bytes));
  const std::filesystem::path file = path(photo), folder = file.parent_path();
  if (const FileKind kind = env_->facts(folder).kind; kind != FileKind::folder && kind != FileKind::none)
    throw not_its_own(folder);
  if (const FileKind kind = env_->facts(file).kind; kind != FileKind::file && kind != FileKind::none)
    throw not_its_own(file);
  bool there = holds(file, bytes);
  if (!there) {
    make_folders_durably(*env_, folder);
    try {
      write_file_durably(*env_, file, bytes);
    } catch (const Error&) {
      there = holds(file, bytes);  // another program has just put the same picture there
      if (!there) throw;
    }
  }
  // Whoever put the file or its folder there may have been stopped before they were on the disk.
  if (there) env_->sync_file(file), env_->sync_folder(folder);
  env_->sync_folder(folder_);
  return photo;
}

bool PhotoStore::holds(const std::filesystem::path& file, BytesView bytes) const {
  const FileFacts facts = env_->facts(file);
  if (facts.kind != FileKind::file || facts.bytes != bytes.size()) return false;
  const Bytes kept = env_->read_file(file);
  return std::equal(kept.begin(), kept.end(), bytes.begin(), bytes.end());
}

Bytes PhotoStore::read(const PhotoId& photo) const {
  const std::filesystem::path file = path(photo);
  const Message mend(messages::kPutPhotoBack, {{"file", file.string()}});
  if (env_->facts(file).kind == FileKind::none)
    throw Error(ErrorKind::not_found, "photo " + photo.value, messages::kFileIsGoneFromCatalogue, mend);
  if (!has(photo))
    throw Error(ErrorKind::storage, "photo " + photo.value, messages::kLinkOrNoFileLiesIn, mend);
  if (env_->facts(file).bytes > kMaxPhotoBytes)
    throw Error(ErrorKind::storage, "photo " + photo.value, messages::kBytesHaveChangedSinceWas, mend);
  Bytes bytes = env_->read_file(file);
  if (sha256_hex(bytes) != photo.value)
    throw Error(ErrorKind::storage, "photo " + photo.value, messages::kBytesHaveChangedSinceWasTaken, mend);
  return bytes;
}

}  // namespace evet
