#include "matcher/photo/read_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

#include "fmt/format.h"
#include "matcher/base/error.h"

namespace evet {
namespace {

class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return fd_; }

 private:
  int fd_;
};

[[noreturn]] void refuse(const std::string& item, int error) {
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      throw Error(ErrorKind::not_found, item, "there is no such file", "check the name and the folder");
    case EACCES:
    case EPERM:
      throw Error(ErrorKind::bad_input, item, "this user may not read the file", "change its permissions");
    case ENAMETOOLONG:
    case ELOOP:
    case ENXIO:
    case ENODEV:
      throw Error(ErrorKind::bad_input, item,
                  "the file cannot be opened: " + std::generic_category().message(error),
                  "give the path of a picture file");
    default:
      throw Error(ErrorKind::storage, item, "reading failed: " + std::generic_category().message(error),
                  "check the disk or the card and try again");
  }
}

[[noreturn]] void refuse_size(const std::string& item, std::size_t max_bytes) {
  throw Error(ErrorKind::too_large, item,
              fmt::format("the file is larger than {:.0f} MB", static_cast<double>(max_bytes) / 1e6),
              "give the picture as the camera wrote it, or export it smaller");
}

}  // namespace

std::vector<std::byte> read_file(const std::filesystem::path& path, const std::string& item,
                                 std::size_t max_bytes) {
  if (path.native().find('\0') != std::string::npos) refuse(item, ENOENT);
  // Non-blocking: opening a pipe that nobody writes to must not hang.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
  if (file.get() < 0) refuse(item, errno);
  struct stat facts {};
  if (::fstat(file.get(), &facts) != 0) refuse(item, errno);
  if (S_ISDIR(facts.st_mode))
    throw Error(ErrorKind::bad_input, item, "this is a folder, not a file",
                "name the pictures in it one by one");
  if (!S_ISREG(facts.st_mode))
    throw Error(ErrorKind::bad_input, item, "this is not an ordinary file",
                "give the path of a picture file");
  if (static_cast<std::uintmax_t>(facts.st_size) > max_bytes) refuse_size(item, max_bytes);

  // The size is a hint only: the file may grow or shrink while it is being read. One byte more than expected
  // is asked for, so that growth is seen.
  std::vector<std::byte> bytes;
  std::size_t filled = 0;
  for (;;) {
    const std::size_t room =
        std::max<std::size_t>(static_cast<std::size_t>(facts.st_size) + 1, filled + (filled >> 1) + 4096);
    if (filled == bytes.size())
      bytes.resize(std::min(filled == 0 ? static_cast<std::size_t>(facts.st_size) + 1 : room, max_bytes + 1));
    const ssize_t got = ::read(file.get(), bytes.data() + filled, bytes.size() - filled);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) refuse(item, errno);
    if (got == 0) break;
    filled += static_cast<std::size_t>(got);
    if (filled > max_bytes) refuse_size(item, max_bytes);
  }
  bytes.resize(filled);
  if (bytes.empty())
    throw Error(ErrorKind::bad_input, item, "the file is empty (0 bytes)",
                "copy it from the camera's card again");
  return bytes;
}

}  // namespace evet
