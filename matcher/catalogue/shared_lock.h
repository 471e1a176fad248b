// A database opened for reading and locked as SQLite's readers lock it, so that its bytes can be handed to
// somebody else while no writer changes them (sqlite.org/lockingv3.html, section 3). Not for a database that this
// process writes to at the same time: closing a file lets go of the process's own locks on it.
#pragma once
#include <cstdint>
#include <filesystem>

namespace evet {

class SharedLock {
 public:
  // Errors: storage when it cannot be opened, is no file, or a writer keeps it busy.
  SharedLock(const std::filesystem::path& database, int busy_timeout_ms);
  ~SharedLock();
  SharedLock(const SharedLock&) = delete;
  SharedLock& operator=(const SharedLock&) = delete;
  int descriptor() const { return fd_; }
  // A writer prepares a change: its journal is not one to be played back.
  bool beside_a_writer() const;

 private:
  int fd_;
};

// A plain file opened for reading, links not followed; -1 where there is none, or it is empty.
int open_plain(const std::filesystem::path& file);
std::uint64_t bytes_of(int descriptor);  // 0 where it cannot be told

}  // namespace evet
