// A disk that keeps no more than POSIX promises over a power cut: a file's bytes when the file was synced,
// its name when its folder was synced after it got it.
#pragma once
#include <filesystem>
#include <set>

#include "tests/matcher/base/still_env.h"

namespace evet::testing_env {

// Remembers what is not on the disk yet. SQLite syncs its own file's bytes; the names are
// its caller's to keep.
class StrictDisk : public StillEnv {
  using Path = std::filesystem::path;

 public:
  using StillEnv::StillEnv;
  void write_file(const Path& path, BytesView bytes) override {
    const bool fresh = !exists(path);
    StillEnv::write_file(path, bytes);
    loose_bytes_.insert(absolute(path));
    if (fresh) loose_names_.insert(absolute(path));
  }
  void sync_file(const Path& path) override {
    StillEnv::sync_file(path);
    loose_bytes_.erase(absolute(path));
  }
  void sync_folder(const Path& path) override {
    StillEnv::sync_folder(path);
    std::erase_if(loose_names_, [&](const Path& name) { return name.parent_path() == absolute(path); });
  }
  void rename(const Path& from, const Path& to) override {
    StillEnv::rename(from, to);
    moved(from, to);
  }
  void rename_new(const Path& from, const Path& to) override {
    StillEnv::rename_new(from, to);
    moved(from, to);
  }
  void make_folders(const Path& path) override {
    for (Path at = absolute(path); !exists(at); at = at.parent_path()) loose_names_.insert(at);
    StillEnv::make_folders(path);
  }
  void cut_power() {
    for (const std::set<Path>* lost : {&loose_names_, &loose_bytes_})
      for (const Path& path : *lost) std::filesystem::remove_all(path);
    loose_names_.clear(), loose_bytes_.clear();
  }

 private:
  static Path absolute(const Path& path) {
    Path whole = std::filesystem::absolute(path).lexically_normal();
    return whole.has_filename() ? whole : whole.parent_path();
  }
  void moved(const Path& from, const Path& to) {
    loose_names_.erase(absolute(from));
    loose_names_.insert(absolute(to));
    if (loose_bytes_.erase(absolute(from)) > 0) loose_bytes_.insert(absolute(to));
  }
  std::set<Path> loose_names_, loose_bytes_;
};

}  // namespace evet::testing_env
