#include "tests/bench/faults/machine.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdarg>
#include <cstdlib>
#include <map>
#include <memory>
#include <mutex>

#include "tests/bench/faults/power.h"

// The C library's own, below ours.
extern "C" {
void* __libc_malloc(size_t) noexcept;
void* __libc_calloc(size_t, size_t) noexcept;
void* __libc_realloc(void*, size_t) noexcept;
void* __libc_memalign(size_t, size_t) noexcept;
}

namespace evet::faults {
namespace {

struct State {
  std::atomic<bool> counting{false};
  std::atomic<long> left[kSteps]{};  // until the fault; 0: none comes
  std::atomic<long> count[kSteps]{};
};
State state;

// Whether this call is the one that fails.
bool hits(Step step) {
  if (!state.counting.load(std::memory_order_relaxed)) return false;
  const auto i = static_cast<std::size_t>(step);
  ++state.count[i];
  return state.left[i] > 0 && --state.left[i] == 0;
}

struct Power {
  std::recursive_mutex mutex;
  std::unique_ptr<WatchedFolder> folder;
  std::map<int, std::string> open;  // descriptors under the root
  long left = 0, changes = 0;
  Disk disk = Disk::forgets;
  unsigned seed = 0;
  bool busy = false;  // what is done here is no change
};
Power& power() {
  static auto* made = new Power;
  return *made;
}
std::atomic<bool> watching{false};

class Watch {
 public:
  Watch() : on_(watching.load()) {
    if (!on_) return;
    power().mutex.lock();
    on_ = !power().busy;
    if (on_)
      power().busy = true;
    else
      power().mutex.unlock();
  }
  ~Watch() {
    if (!on_) return;
    power().busy = false;
    power().mutex.unlock();
  }
  Watch(const Watch&) = delete;
  Watch& operator=(const Watch&) = delete;
  explicit operator bool() const { return on_; }
  std::string path(const char* given) const {
    return std::filesystem::absolute(given).lexically_normal().string();
  }
  // The file under the root that is open as `fd`; empty when there is none.
  std::string file(int fd) const {
    const auto at = power().open.find(fd);
    return at == power().open.end() ? std::string() : at->second;
  }
  // Before a change: here the power may go.
  void change() const {
    Power& all = power();
    ++all.changes;
    if (all.left == 0 || --all.left > 0) return;
    watching = false;
    all.folder->lose(all.disk, all.seed);
    ::_exit(kPowerIsGone);
  }

 private:
  bool on_;
};

int open_file(const char* path, int flags, mode_t mode) {
  const Watch watch;
  bool there = true;
  std::string whole;
  if (watch) {
    whole = watch.path(path);
    if (!power().folder->holds(whole)) whole.clear();
    struct stat facts {};
    there = ::stat(path, &facts) == 0;
    if (!whole.empty() && ((flags & O_TRUNC) != 0 || (!there && (flags & O_CREAT) != 0))) watch.change();
  }
  const int fd = static_cast<int>(::syscall(SYS_openat, AT_FDCWD, path, flags, mode));
  if (fd >= 0 && !whole.empty()) {
    power().folder->opened(whole, !there && (flags & O_CREAT) != 0, (flags & O_TRUNC) != 0);
    power().open[fd] = whole;
  }
  return fd;
}

ssize_t write_at(int fd, const void* from, size_t size, off_t at) {
  const bool fails = hits(Step::write);
  const size_t does = fails ? size / 2 : size;
  const Watch watch;
  const std::string file = watch ? watch.file(fd) : std::string();
  if (!file.empty()) watch.change();
  const ssize_t done = ::syscall(SYS_pwrite64, fd, from, does, at);
  if (!file.empty() && done > 0)
    power().folder->written(file, at, static_cast<const char*>(from), static_cast<size_t>(done));
  if (fails) errno = ENOSPC;
  return fails ? -1 : done;
}

int resize(int fd, off_t size) {
  if (hits(Step::write)) return errno = EIO, -1;
  const Watch watch;
  const std::string file = watch ? watch.file(fd) : std::string();
  if (!file.empty()) watch.change();
  const auto done = static_cast<int>(::syscall(SYS_ftruncate, fd, size));
  if (!file.empty() && done == 0) power().folder->resized(file, size);
  return done;
}

int sync(int fd) {
  if (hits(Step::sync)) return errno = EIO, -1;
  const Watch watch;
  const std::string file = watch ? watch.file(fd) : std::string();
  if (file.empty()) return 0;  // nothing here is about the machine's own disk
  watch.change();
  power().folder->synced(file);
  return 0;
}

int rename_to(const char* from, const char* to, unsigned flags) {
  if (hits(Step::rename)) return errno = EIO, -1;
  const Watch watch;
  if (watch && power().folder->holds(watch.path(to))) watch.change();
  const auto done = static_cast<int>(::syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, flags));
  if (done == 0 && watch) power().folder->renamed(watch.path(from), watch.path(to));
  return done;
}

}  // namespace

const char* name(Step step) {
  constexpr const char* kNames[kSteps] = {"allocation", "read", "write", "sync", "rename"};
  return kNames[static_cast<std::size_t>(step)];
}

void fail_at(Step step, long n) {
  for (std::size_t i = 0; i < kSteps; ++i) state.left[i] = 0, state.count[i] = 0;
  state.left[static_cast<std::size_t>(step)] = n;
  state.counting = true;
}
Counts stop_failing() {
  state.counting = false;
  Counts counts{};
  for (std::size_t i = 0; i < kSteps; ++i) counts[i] = state.count[i];
  return counts;
}

void cut_power_at(const std::filesystem::path& root, long n, Disk disk, unsigned seed) {
  Power& all = power();
  all.folder = std::make_unique<WatchedFolder>(root);
  all.open.clear(), all.left = n, all.changes = 0, all.disk = disk, all.seed = seed;
  watching = true;
}
long changes() {
  return power().changes;
}

void lose_what_is_not_synced() {
  watching = false;
  power().folder->lose(power().disk, power().seed);
}

void say(int pipe, char what) {
  if (::syscall(SYS_write, pipe, &what, 1) != 1) ::_exit(3);
}

}  // namespace evet::faults

// In place of the C library's.
extern "C" {

using evet::faults::hits;
using evet::faults::Step;
using evet::faults::Watch;

void* malloc(size_t size) noexcept {
  if (hits(Step::allocation)) return errno = ENOMEM, nullptr;
  return __libc_malloc(size);
}
void* calloc(size_t count, size_t size) noexcept {
  if (hits(Step::allocation)) return errno = ENOMEM, nullptr;
  return __libc_calloc(count, size);
}
void* realloc(void* old, size_t size) noexcept {
  if (hits(Step::allocation)) return errno = ENOMEM, nullptr;
  return __libc_realloc(old, size);
}
int posix_memalign(void** out, size_t alignment, size_t size) noexcept {
  if (hits(Step::allocation)) return ENOMEM;
  *out = __libc_memalign(alignment, size);
  return *out == nullptr ? ENOMEM : 0;
}
void* aligned_alloc(size_t alignment, size_t size) noexcept {
  if (hits(Step::allocation)) return errno = ENOMEM, nullptr;
  return __libc_memalign(alignment, size);
}

int open(const char* path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(more, mode_t) : 0;
  va_end(more);
  return evet::faults::open_file(path, flags, mode);
}
int open64(const char* path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(more, mode_t) : 0;
  va_end(more);
  return evet::faults::open_file(path, flags, mode);
}
int close(int fd) {
  if (const Watch watch; watch) evet::faults::power().open.erase(fd);
  return static_cast<int>(::syscall(SYS_close, fd));
}
ssize_t read(int fd, void* to, size_t size) {
  if (hits(Step::read)) return errno = EIO, -1;
  return ::syscall(SYS_read, fd, to, size);
}
ssize_t pread64(int fd, void* to, size_t size, off64_t at) {
  if (hits(Step::read)) return errno = EIO, -1;
  return ::syscall(SYS_pread64, fd, to, size, at);
}
ssize_t pread(int fd, void* to, size_t size, off_t at) {
  return pread64(fd, to, size, at);
}
ssize_t pwrite64(int fd, const void* from, size_t size, off64_t at) {
  return evet::faults::write_at(fd, from, size, at);
}
ssize_t pwrite(int fd, const void* from, size_t size, off_t at) {
  return evet::faults::write_at(fd, from, size, at);
}
ssize_t write(int fd, const void* from, size_t size) {
  const off_t at = ::lseek(fd, 0, SEEK_CUR);
  if (at < 0) return ::syscall(SYS_write, fd, from, size);  // no file
  const ssize_t done = evet::faults::write_at(fd, from, size, at);
  if (done > 0) ::lseek(fd, at + done, SEEK_SET);
  return done;
}
int ftruncate(int fd, off_t size) noexcept {
  return evet::faults::resize(fd, size);
}
int ftruncate64(int fd, off64_t size) noexcept {
  return evet::faults::resize(fd, size);
}
int fsync(int fd) {
  return evet::faults::sync(fd);
}
int fdatasync(int fd) {
  return evet::faults::sync(fd);
}
int unlink(const char* path) noexcept {
  if (hits(Step::rename)) return errno = EIO, -1;
  const Watch watch;
  const bool ours = watch && evet::faults::power().folder->holds(watch.path(path));
  if (ours) watch.change();
  const auto done = static_cast<int>(::syscall(SYS_unlink, path));
  if (done == 0 && ours) evet::faults::power().folder->removed(watch.path(path));
  return done;
}
int rename(const char* from, const char* to) noexcept {
  return evet::faults::rename_to(from, to, 0);
}
int renameat2(int, const char* from, int, const char* to, unsigned flags) noexcept {
  return evet::faults::rename_to(from, to, flags);
}
int mkdir(const char* path, mode_t mode) noexcept {
  if (hits(Step::rename)) return errno = EIO, -1;
  const Watch watch;
  const bool ours = watch && evet::faults::power().folder->holds(watch.path(path));
  if (ours) watch.change();
  const auto done = static_cast<int>(::syscall(SYS_mkdir, path, mode));
  if (done == 0 && ours) evet::faults::power().folder->made_folder(watch.path(path));
  return done;
}
}  // extern "C"
