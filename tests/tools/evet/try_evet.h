// What the tests of the commands share: running evet in this process, and two small rendered nights.
#pragma once
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/matcher/catalogue/try_out.h"
#include "tools/evet/commands.h"

namespace evet::try_out {

struct Answered {
  int exit = 0;
  std::string out, err;
  nlohmann::json json() const;
};
Answered evet(const std::vector<std::string>& args, Env& env = system_env());

// tests/data/night: see its README.
std::filesystem::path night_folder();
std::string first_sheet();
std::string second_sheet();
std::string photos_folder();

void write(const std::filesystem::path& path, std::string_view text);
std::string read(const std::filesystem::path& path);

// A folder with a catalogue "pond" in it, made by "KM"; with the first night in it when asked.
struct Pond {
  Folder folder;
  std::string path;
  explicit Pond(bool first_night);
};

// The machine, but with a clock that ticks a millisecond a look and randomness from a seed, and with writes
// of photos that fail from the n-th on.
class SteadyEnv : public Env {
 public:
  int writes_until_failure = -1;  // -1: none fails
  std::function<void()> failing = [] {};

  Instant now() override { return {1'790'000'000'000 + ++ticks_, 120}; }
  void fill_random(std::span<std::byte> out) override;
  Bytes read_file(const std::filesystem::path& path) override { return real_.read_file(path); }
  Bytes read_start(const std::filesystem::path& path, size_t at_most) override {
    return real_.read_start(path, at_most);
  }
  void write_file(const std::filesystem::path& path, BytesView bytes) override;
  void sync_file(const std::filesystem::path&) override {}
  void sync_folder(const std::filesystem::path&) override {}
  void rename(const std::filesystem::path& from, const std::filesystem::path& to) override {
    real_.rename(from, to);
  }
  void rename_new(const std::filesystem::path& from, const std::filesystem::path& to) override {
    real_.rename_new(from, to);
  }
  void remove(const std::filesystem::path& path) override { real_.remove(path); }
  void make_folders(const std::filesystem::path& path) override { real_.make_folders(path); }
  std::vector<std::string> list_folder(const std::filesystem::path& path) override {
    return real_.list_folder(path);
  }
  bool exists(const std::filesystem::path& path) override { return real_.exists(path); }
  FileFacts facts(const std::filesystem::path& path) override { return real_.facts(path); }
  bool is_writable(const std::filesystem::path& path) override { return real_.is_writable(path); }
  bool on_network_drive(const std::filesystem::path& path) override { return real_.on_network_drive(path); }
  std::string identity(const std::filesystem::path&) override { return "steady"; }

 private:
  Env& real_ = system_env();
  std::int64_t ticks_ = 0;
  std::uint64_t state_ = 88172645463325252ull;
};

}  // namespace evet::try_out
