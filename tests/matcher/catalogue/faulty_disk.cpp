#include "tests/matcher/catalogue/faulty_disk.h"

#include <sqlite3.h>
#include <unistd.h>

#include <cassert>
#include <csignal>
#include <cstring>

namespace evet::try_out {
namespace {

struct State {
  sqlite3_vfs vfs;
  sqlite3_vfs* real = nullptr;
  int left = 0;  // changes until the fault; 0: none comes
  DiskFault fault = DiskFault::none;
  bool failed = false;
};
State state;

// Our file is this, with the real one right behind it.
struct File {
  sqlite3_file base;
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
sqlite3_file* real(sqlite3_file* file) {
  return reinterpret_cast<File*>(file)->real();
}

// Whether this change is the one.
bool hits() {
  if (state.left == 0 || --state.left > 0) return false;
  state.failed = true;
  return true;
}
int strike() {
  if (state.fault == DiskFault::kill) ::kill(::getpid(), SIGKILL);
  return state.fault == DiskFault::full ? SQLITE_FULL : SQLITE_IOERR_WRITE;
}

int close_file(sqlite3_file* file) {
  return real(file)->pMethods->xClose(real(file));
}
int read(sqlite3_file* file, void* to, int n, sqlite3_int64 at) {
  return real(file)->pMethods->xRead(real(file), to, n, at);
}
int write(sqlite3_file* file, const void* from, int n, sqlite3_int64 at) {
  if (hits()) {
    real(file)->pMethods->xWrite(real(file), from, n / 2, at);  // torn
    return strike();
  }
  return real(file)->pMethods->xWrite(real(file), from, n, at);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
  return hits() ? strike() : real(file)->pMethods->xTruncate(real(file), size);
}
int sync(sqlite3_file* file, int flags) {
  return hits() ? strike() : real(file)->pMethods->xSync(real(file), flags);
}
int size(sqlite3_file* file, sqlite3_int64* out) {
  return real(file)->pMethods->xFileSize(real(file), out);
}
int lock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xLock(real(file), level);
}
int unlock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xUnlock(real(file), level);
}
int reserved(sqlite3_file* file, int* out) {
  return real(file)->pMethods->xCheckReservedLock(real(file), out);
}
int control(sqlite3_file* file, int what, void* value) {
  return real(file)->pMethods->xFileControl(real(file), what, value);
}
int sector(sqlite3_file* file) {
  return real(file)->pMethods->xSectorSize(real(file));
}
int character(sqlite3_file* file) {
  return real(file)->pMethods->xDeviceCharacteristics(real(file));
}

const sqlite3_io_methods kMethods = {1,       close_file, read,     write,   truncate, sync,      size,
                                     lock,    unlock,     reserved, control, sector,   character, nullptr,
                                     nullptr, nullptr,    nullptr,  nullptr, nullptr};

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
  auto* ours = reinterpret_cast<File*>(file);
  std::memset(ours, 0, sizeof *ours);
  const int code = state.real->xOpen(state.real, name, ours->real(), flags, out_flags);
  if (ours->real()->pMethods != nullptr) ours->base.pMethods = &kMethods;
  return code;
}
int remove_file(sqlite3_vfs*, const char* name, int sync_folder) {
  return hits() ? strike() : state.real->xDelete(state.real, name, sync_folder);
}

}  // namespace

FaultyDisk::FaultyDisk() {
  assert(state.real == nullptr);
  state.real = sqlite3_vfs_find(nullptr);
  state.vfs = *state.real;
  state.vfs.iVersion = 1;
  state.vfs.zName = "faulty";
  state.vfs.szOsFile = static_cast<int>(sizeof(File)) + state.real->szOsFile;
  state.vfs.pNext = nullptr;
  state.vfs.xOpen = open_file;
  state.vfs.xDelete = remove_file;
  sqlite3_vfs_register(&state.vfs, 1);
}
FaultyDisk::~FaultyDisk() {
  sqlite3_vfs_unregister(&state.vfs);
  sqlite3_vfs_register(state.real, 1);
  state.real = nullptr;
  state.left = 0;
}
void FaultyDisk::fail_at(int n, DiskFault fault) {
  state.left = n, state.fault = fault, state.failed = false;
}
bool FaultyDisk::failed() const {
  return state.failed;
}

}  // namespace evet::try_out
