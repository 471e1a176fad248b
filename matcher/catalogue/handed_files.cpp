#include "matcher/catalogue/handed_files.h"

#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <map>
#include <string>

#include "matcher/base/file_error.h"
#include "matcher/base/messages.h"

namespace evet {
namespace {

// Either open elsewhere, and read only, or in memory.
struct Handed {
  int descriptor = -1;
  Bytes bytes;
};
std::map<std::string, Handed>& handed() {
  static std::map<std::string, Handed> files;
  return files;
}

struct OpenFile {
  sqlite3_file base;
  Handed* file;
};
Handed& of(sqlite3_file* file) {
  return *reinterpret_cast<OpenFile*>(file)->file;
}

sqlite3_int64 size_of(const Handed& file) {
  struct stat facts {};
  if (file.descriptor < 0) return static_cast<sqlite3_int64>(file.bytes.size());
  return ::fstat(file.descriptor, &facts) == 0 ? facts.st_size : 0;
}

// Of `size` bytes from `at` those that are there.
ssize_t take(const Handed& file, void* to, size_t size, sqlite3_int64 at) {
  if (file.descriptor < 0) {
    const auto from = static_cast<size_t>(std::min(at, static_cast<sqlite3_int64>(file.bytes.size())));
    const size_t some = std::min(size, file.bytes.size() - from);
    std::memcpy(to, file.bytes.data() + from, some);
    return static_cast<ssize_t>(some);
  }
  size_t done = 0;
  while (done < size) {
    const ssize_t n = ::pread(file.descriptor, static_cast<char*>(to) + done, size - done,
                              at + static_cast<sqlite3_int64>(done));
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return -1;
    if (n == 0) break;
    done += static_cast<size_t>(n);
  }
  return static_cast<ssize_t>(done);
}

// The methods of an open file (sqlite.org/c3ref/io_methods.html). No exception passes through SQLite's C.
int close(sqlite3_file*) {
  return SQLITE_OK;
}
int read(sqlite3_file* file, void* to, int size, sqlite3_int64 at) {
  const ssize_t got = take(of(file), to, static_cast<size_t>(size), at);
  if (got < 0) return SQLITE_IOERR_READ;
  if (got == size) return SQLITE_OK;
  std::memset(static_cast<char*>(to) + got, 0, static_cast<size_t>(size - got));
  return SQLITE_IOERR_SHORT_READ;
}
int resize(sqlite3_file* file, sqlite3_int64 size) {
  if (of(file).descriptor >= 0) return SQLITE_READONLY;
  try {
    of(file).bytes.resize(static_cast<size_t>(size));
  } catch (const std::exception&) {
    return SQLITE_FULL;
  }
  return SQLITE_OK;
}
int write(sqlite3_file* file, const void* from, int size, sqlite3_int64 at) {
  if (at + size > size_of(of(file)))
    if (const int failed = resize(file, at + size); failed != SQLITE_OK) return failed;
  if (of(file).descriptor >= 0) return SQLITE_READONLY;
  std::memcpy(of(file).bytes.data() + at, from, static_cast<size_t>(size));
  return SQLITE_OK;
}
int sync(sqlite3_file*, int) {
  return SQLITE_OK;
}
int tell_size(sqlite3_file* file, sqlite3_int64* size) {
  *size = size_of(of(file));
  return SQLITE_OK;
}
int lock(sqlite3_file*, int) {  // whoever handed it over holds the lock
  return SQLITE_OK;
}
int no_lock_held(sqlite3_file*, int* out) {
  *out = 0;
  return SQLITE_OK;
}
int control(sqlite3_file*, int, void*) {
  return SQLITE_NOTFOUND;
}
int sector(sqlite3_file*) {
  return 4096;
}
int character(sqlite3_file*) {
  return 0;
}

const sqlite3_io_methods kMethods{1,    close, read,         write,   resize, sync,      tell_size,
                                  lock, lock,  no_lock_held, control, sector, character, {},
                                  {},   {},    {},           {},      {}};

int open(sqlite3_vfs*, const char* name, sqlite3_file* out, int flags, int* out_flags) {
  out->pMethods = nullptr;
  const auto at = name == nullptr ? handed().end() : handed().find(name);
  if (at == handed().end()) return SQLITE_CANTOPEN;
  reinterpret_cast<OpenFile*>(out)->file = &at->second;
  out->pMethods = &kMethods;
  if (out_flags != nullptr) *out_flags = flags;
  return SQLITE_OK;
}
int remove(sqlite3_vfs*, const char* name, int) {
  return handed().erase(name) > 0 ? SQLITE_OK : SQLITE_IOERR_DELETE_NOENT;
}
int access(sqlite3_vfs*, const char* name, int, int* out) {
  *out = handed().contains(name) ? 1 : 0;
  return SQLITE_OK;
}
int full_name(sqlite3_vfs*, const char* name, int size, char* out) {
  const size_t length = std::strlen(name);
  if (length >= static_cast<size_t>(size)) return SQLITE_CANTOPEN;
  std::memcpy(out, name, length + 1);
  return SQLITE_OK;
}

}  // namespace

void hand_to_sqlite() {
  static sqlite3_vfs vfs = [] {
    sqlite3_vfs made = *sqlite3_vfs_find(nullptr);
    made.zName = "evet-handed";
    made.szOsFile = sizeof(OpenFile);
    made.pNext = nullptr;
    made.xOpen = open, made.xDelete = remove, made.xAccess = access, made.xFullPathname = full_name;
    return made;
  }();
  sqlite3_vfs_register(&vfs, 1);
}

void hand_file(const std::filesystem::path& name, int descriptor) {
  handed()[name.string()] = {descriptor, {}};
}
void hand_file(const std::filesystem::path& name, Bytes bytes) {
  handed()[name.string()] = {-1, std::move(bytes)};
}

Bytes read_whole(int descriptor, const std::filesystem::path& name) {
  const Handed file{descriptor, {}};
  Bytes bytes(static_cast<size_t>(size_of(file)));
  const ssize_t got = take(file, bytes.data(), bytes.size(), 0);
  if (got < 0) throw_file_error(name, messages::kReading, errno);
  bytes.resize(static_cast<size_t>(got));
  return bytes;
}

}  // namespace evet
