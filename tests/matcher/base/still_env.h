// An Env for tests: the real machine's files, but a clock that stands still until it is moved, random numbers
// that repeat, and the n-th change to the disk failing on demand.
#pragma once
#include <optional>
#include <random>

#include "matcher/base/env.h"
#include "matcher/base/error.h"

namespace evet::testing_env {

class StillEnv : public Env {
  using Path = std::filesystem::path;

 public:
  Instant clock{1935786847000, 120};  // 2031-05-05T...+02:00
  int fail_at = 0;                    // the n-th change from now on fails; 0: none
  int changes = 0;                    // so far
  bool half_written = false;          // what fails has written half by then

  explicit StillEnv(unsigned seed = 1) : random_(seed) {}

  Instant now() override { return clock; }
  void fill_random(std::span<std::byte> out) override {
    for (std::byte& byte : out) byte = static_cast<std::byte>(random_() & 255);
  }
  Bytes read_file(const Path& path) override { return system_env().read_file(path); }
  Bytes read_start(const Path& path, size_t at_most) override {
    return system_env().read_start(path, at_most);
  }
  void write_file(const Path& path, BytesView bytes) override {
    if (fails() && half_written) system_env().write_file(path, bytes.first(bytes.size() / 2));
    count(path);
    system_env().write_file(path, bytes);
  }
  void sync_file(const Path& path) override { count(path), system_env().sync_file(path); }
  void sync_folder(const Path& path) override { count(path), system_env().sync_folder(path); }
  void rename(const Path& from, const Path& to) override { count(to), system_env().rename(from, to); }
  void rename_new(const Path& from, const Path& to) override { count(to), system_env().rename_new(from, to); }
  void remove(const Path& path) override { count(path), system_env().remove(path); }
  void make_folders(const Path& path) override { count(path), system_env().make_folders(path); }
  std::vector<std::string> list_folder(const Path& path) override { return system_env().list_folder(path); }
  bool exists(const Path& path) override { return system_env().exists(path); }
  FileFacts facts(const Path& path) override { return system_env().facts(path); }
  bool is_writable(const Path& path) override { return system_env().is_writable(path); }
  bool on_network_drive(const Path& path) override { return system_env().on_network_drive(path); }
  std::string identity(const Path& path) override { return system_env().identity(path); }

 private:
  bool fails() const { return changes + 1 == fail_at; }
  void count(const Path& path) {
    if (++changes == fail_at) throw Error(ErrorKind::storage, path.string(), "the test let it fail");
  }
  std::mt19937 random_;
};

}  // namespace evet::testing_env
