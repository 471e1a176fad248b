#include "matcher/base/can_write.h"

#include "matcher/base/error.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

bool is_folder(Env& env, const fs::path& path) {
  return env.exists(path / ".");
}

void check_writable(Env& env, const fs::path& folder, const fs::path& asked) {
  if (!env.is_writable(folder))
    throw Error(ErrorKind::storage, asked.string(),
                "the folder " + folder.string() + " may not be written to",
                "use a folder that you may write to");
}

}  // namespace

fs::path folder_of(const fs::path& file) {
  return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

void check_can_write_file(Env& env, const fs::path& file) {
  const fs::path folder = folder_of(file);
  if (!is_folder(env, folder)) {
    if (env.exists(folder))
      throw Error(ErrorKind::bad_input, file.string(), "it lies under a file, where a folder has to be",
                  "name another place, or move that file away");
    throw Error(ErrorKind::not_found, folder.string(), "there is no such folder",
                "make it first, or name another");
  }
  if (is_folder(env, file))
    throw Error(ErrorKind::bad_input, file.string(), "it is a folder, not a file", "name a file");
  check_writable(env, folder, file);
}

void check_can_make_folder(Env& env, const fs::path& folder) {
  fs::path there = folder.empty() ? fs::path(".") : folder;
  while (!env.exists(there) && there != there.root_path()) there = folder_of(there);
  if (!is_folder(env, there))
    throw Error(ErrorKind::bad_input, folder.string(),
                "it is a file, or lies under one, where a folder has to be",
                "name another place, or move that file away");
  check_writable(env, there, folder);
}

}  // namespace evet
