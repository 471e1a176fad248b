// A disk below SQLite that fails on demand: a VFS over the machine's own, in which the n-th change
// (write, sync, truncation, removal) returns an error, or kills the process on the spot, as a power
// cut or `kill -9` would.
#pragma once

namespace evet::try_out {

enum class DiskFault { none, io_error, full, kill };

struct FaultyDisk {
  // Takes the place of the default VFS until the end of its life. One at a time.
  FaultyDisk();
  ~FaultyDisk();
  FaultyDisk(const FaultyDisk&) = delete;
  FaultyDisk& operator=(const FaultyDisk&) = delete;

  // The n-th change from now on, 1, 2, 3, …; once.
  void fail_at(int n, DiskFault fault);
  bool failed() const;  // since then
};

}  // namespace evet::try_out
