#include "matcher/base/can_write.h"

#include "matcher/base/error.h"
#include "matcher/base/messages.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

bool is_folder(Env& env, const fs::path& path) {
  return env.exists(path / ".");
}

void check_writable(Env& env, const fs::path& folder, const fs::path& asked) {
  if (!env.is_writable(folder))
    throw Error(ErrorKind::storage, asked.string(),
                Message(messages::kFolderNotWritable, {{"folder", folder.string()}}),
                messages::kUseWritableFolder);
}

}  // namespace

fs::path folder_of(const fs::path& file) {
  return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

void check_can_write_file(Env& env, const fs::path& file) {
  const fs::path folder = folder_of(file);
  if (!is_folder(env, folder)) {
    if (env.exists(folder))
      throw Error(ErrorKind::bad_input, file.string(), messages::kUnderAFile, messages::kNameAnotherPlace);
    throw Error(ErrorKind::not_found, folder.string(), messages::kNoSuchFolder, messages::kMakeItFirst);
  }
  if (is_folder(env, file))
    throw Error(ErrorKind::bad_input, file.string(), messages::kFolderNotFile, messages::kNameAFile);
  check_writable(env, folder, file);
}

void check_can_make_folder(Env& env, const fs::path& folder) {
  fs::path there = folder.empty() ? fs::path(".") : folder;
  while (!env.exists(there) && there != there.root_path()) there = folder_of(there);
  if (!is_folder(env, there))
    throw Error(ErrorKind::bad_input, folder.string(), messages::kFileWhereFolder,
                messages::kNameAnotherPlace);
  check_writable(env, there, folder);
}

}  // namespace evet
