#include "matcher/photo/read_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

#include "fmt/format.h"
#include "matcher/base/error.h"
#include "matcher/photo/messages.h"

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
      throw Error(ErrorKind::not_found, item, messages::kThereIsNoSuchFile,
                  messages::kCheckNameAndFolderPhoto);
    case EACCES:
    case EPERM:
      throw Error(ErrorKind::bad_input, item, messages::kUserMayNotReadFile, messages::kChangePermissions);
    case ENAMETOOLONG:
    case ELOOP:
    case ENXIO:
    case ENODEV:
      throw Error(
          ErrorKind::bad_input, item,
          Message(messages::kFileCannotBeOpenedPhoto, {{"error", std::generic_category().message(error)}}),
          messages::kGivePathOfPictureFile);
    default:
      throw Error(ErrorKind::storage, item,
                  Message(messages::kReadingFailed, {{"error", std::generic_category().message(error)}}),
                  messages::kCheckDiskOrCardAnd);
  }
}

[[noreturn]] void refuse_size(const std::string& item, std::size_t max_bytes) {
  throw Error(ErrorKind::too_large, item,
              Message(messages::kFileIsLargerThanMb,
                      {{"e6", fmt::format("{:.0f}", static_cast<double>(max_bytes) / 1e6)}}),
              messages::kGivePictureAsCameraWrote);
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
    throw Error(ErrorKind::bad_input, item, messages::kIsFolderNotFile, messages::kNamePicturesInOneBy);
  if (!S_ISREG(facts.st_mode))
    throw Error(ErrorKind::bad_input, item, messages::kIsNotOrdinaryFile, messages::kGivePathOfPictureFile);
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
    throw Error(ErrorKind::bad_input, item, messages::kFileIsEmpty0Bytes,
                messages::kCopyFromCamerasCardAgain);
  return bytes;
}

}  // namespace evet
