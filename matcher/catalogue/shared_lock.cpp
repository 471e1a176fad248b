#include "matcher/catalogue/shared_lock.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <thread>

#include "matcher/base/error.h"
#include "matcher/base/file_error.h"
#include "matcher/base/messages.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {

// Bytes of the file that nothing is written to (SQLite file format, section 1.4).
constexpr off_t kPending = 0x40000000, kReserved = kPending + 1, kShared = kPending + 2;
constexpr off_t kSharedSize = 510;

struct flock on(short type, off_t from, off_t size) {
  struct flock lock {};
  lock.l_type = type, lock.l_whence = SEEK_SET, lock.l_start = from, lock.l_len = size;
  return lock;
}
bool set(int fd, short type, off_t from, off_t size) {
  struct flock lock = on(type, from, size);
  return ::fcntl(fd, F_OFD_SETLK, &lock) == 0;
}
bool busy(int error) {
  return error == EAGAIN || error == EACCES;
}

}  // namespace

int open_plain(const std::filesystem::path& file) {
  const int fd = ::open(file.c_str(), O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC);
  struct stat facts {};
  if (fd >= 0 && ::fstat(fd, &facts) == 0 && S_ISREG(facts.st_mode) && facts.st_size > 0) return fd;
  if (fd >= 0) ::close(fd);
  return -1;
}

std::uint64_t bytes_of(int descriptor) {
  struct stat facts {};
  return ::fstat(descriptor, &facts) == 0 ? static_cast<std::uint64_t>(facts.st_size) : 0;
}

SharedLock::SharedLock(const std::filesystem::path& database, int busy_timeout_ms)
    : fd_(open_plain(database)) {
  if (fd_ < 0)
    throw Error(ErrorKind::storage, database.string(), messages::kFileCannotBeOpened,
                messages::kCheckYouMayReadAnd);
  const auto until = std::chrono::steady_clock::now() + std::chrono::milliseconds(busy_timeout_ms);
  for (;;) {
    bool locked = set(fd_, F_RDLCK, kPending, 1);  // no writer is about to begin
    if (locked) {
      locked = set(fd_, F_RDLCK, kShared, kSharedSize);
      const int error = errno;
      set(fd_, F_UNLCK, kPending, 1);
      errno = error;
    }
    if (locked) return;
    const int error = errno;
    if (busy(error) && std::chrono::steady_clock::now() < until) {
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
      continue;
    }
    ::close(fd_);
    if (!busy(error)) throw_file_error(database, messages::kReading, error);
    throw Error(ErrorKind::storage, database.string(), messages::kAnotherProgramIsWritingCatalogue,
                messages::kWaitUntilIsDoneAnd);
  }
}
SharedLock::~SharedLock() {
  set(fd_, F_UNLCK, kShared, kSharedSize);  // to whom it was handed may have it open a moment longer
  ::close(fd_);
}

bool SharedLock::beside_a_writer() const {
  struct flock lock = on(F_RDLCK, kReserved, 1);
  return ::fcntl(fd_, F_OFD_GETLK, &lock) == 0 && lock.l_type != F_UNLCK;
}

}  // namespace evet
