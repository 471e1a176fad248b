// The one seam between us and the machine: clock, randomness and files.
//
// Whatever asks the time, draws a random number or writes a file takes an `Env&`, so that tests can stop the
// clock, repeat the draws and fail the n-th write. SQLite does its own file work behind its own seam (a VFS).
// File functions throw Error{storage} naming the path; "not there" is Error{not_found}.
#pragma once
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace evet {

using Bytes = std::vector<std::byte>;
using BytesView = std::span<const std::byte>;

// A moment, with the offset of the wall clock that showed it.
struct Instant {
  std::int64_t unix_ms = 0;  // milliseconds since 1970-01-01T00:00:00Z
  int utc_offset_min = 0;    // minutes east of UTC
};

// What lies at a path, links not followed.
enum class FileKind { none, file, folder, link, other };  // other: a pipe, a device, a socket
struct FileFacts {
  FileKind kind = FileKind::none;
  std::uint64_t bytes = 0;  // of a file, by its own word: it may be full of holes
};

class Env {
 public:
  virtual ~Env() = default;

  virtual Instant now() = 0;
  virtual void fill_random(std::span<std::byte> out) = 0;  // unpredictable in production

  virtual Bytes read_file(const std::filesystem::path& path) = 0;
  virtual Bytes read_start(const std::filesystem::path& path, size_t at_most) = 0;
  // Creates or replaces `path`; the bytes may still be in the machine's buffers. Throws when it cannot, and
  // then may leave a part of the file.
  virtual void write_file(const std::filesystem::path& path, BytesView bytes) = 0;
  virtual void sync_file(const std::filesystem::path& path) = 0;    // its bytes are on the disk afterwards
  virtual void sync_folder(const std::filesystem::path& path) = 0;  // its names are on the disk afterwards
  virtual void rename(const std::filesystem::path& from, const std::filesystem::path& to) = 0;
  // The same where nothing lies at `to`. Errors: conflict where something does, of two who try the later too.
  virtual void rename_new(const std::filesystem::path& from, const std::filesystem::path& to) = 0;
  virtual void remove(const std::filesystem::path& path) = 0;  // absent is not an error
  virtual void make_folders(const std::filesystem::path& path) = 0;

  virtual std::vector<std::string> list_folder(const std::filesystem::path& path) = 0;  // names, sorted
  virtual bool exists(const std::filesystem::path& path) = 0;
  virtual FileFacts facts(const std::filesystem::path& path) = 0;
  virtual bool is_writable(const std::filesystem::path& path) = 0;
  virtual bool on_network_drive(const std::filesystem::path& path) = 0;
  // Tells a file from its copies: stays while the file stays where it is, differs for a copy and on another
  // machine. Not secret, not meant to be unforgeable.
  virtual std::string identity(const std::filesystem::path& path) = 0;
};

// The real machine.
Env& system_env();

}  // namespace evet
