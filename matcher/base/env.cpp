#include "matcher/base/env.h"

#include <dirent.h>
#include <fcntl.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <sys/vfs.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <fstream>
#include <memory>
#include <string_view>

#include "matcher/base/error.h"
#include "matcher/base/file_error.h"
#include "matcher/base/messages.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

class Descriptor {
 public:
  Descriptor(const fs::path& path, int flags) : fd_(::open(path.c_str(), flags | O_CLOEXEC, 0666)) {}
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int fd() const { return fd_; }

 private:
  int fd_;
};

class SystemEnv final : public Env {
 public:
  Instant now() override {
    const auto since = std::chrono::system_clock::now().time_since_epoch();
    const auto ms = std::chrono::duration_cast<std::chrono::milliseconds>(since).count();
    const std::time_t seconds = static_cast<std::time_t>(ms / 1000);
    std::tm local{};
    localtime_r(&seconds, &local);
    return {ms, static_cast<int>(local.tm_gmtoff / 60)};
  }

  void fill_random(std::span<std::byte> out) override {
    size_t done = 0;
    while (done < out.size()) {
      const ssize_t n = getrandom(out.data() + done, out.size() - done, 0);
      if (n > 0) done += static_cast<size_t>(n);
      if (n < 0 && errno != EINTR) throw_file_error("random numbers", messages::kDrawing, errno);
    }
  }

  Bytes read_file(const fs::path& path) override { return read_start(path, SIZE_MAX); }

  Bytes read_start(const fs::path& path, size_t at_most) override {
    const Descriptor file(path, O_RDONLY | O_NONBLOCK);  // a pipe is told as no file, not waited for
    struct stat facts {};
    if (file.fd() < 0 || ::fstat(file.fd(), &facts) != 0) throw_file_error(path, messages::kReading, errno);
    if (!S_ISREG(facts.st_mode))
      throw Error(ErrorKind::bad_input, path.string(), messages::kIsNotFile, messages::kNameAFile);
    Bytes bytes(std::min(static_cast<size_t>(facts.st_size), at_most));
    size_t done = 0;
    while (done < bytes.size()) {
      const ssize_t n = ::read(file.fd(), bytes.data() + done, bytes.size() - done);
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) throw_file_error(path, messages::kReading, errno);
      if (n == 0) break;
      done += static_cast<size_t>(n);
    }
    bytes.resize(done);
    return bytes;
  }

  void write_file(const fs::path& path, BytesView bytes) override {
    const Descriptor file(path, O_WRONLY | O_CREAT | O_TRUNC);
    if (file.fd() < 0) throw_file_error(path, messages::kWriting, errno);
    size_t done = 0;
    while (done < bytes.size()) {
      const ssize_t n = ::write(file.fd(), bytes.data() + done, bytes.size() - done);
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) throw_file_error(path, messages::kWriting, errno);
      done += static_cast<size_t>(n);
    }
  }

  void sync_file(const fs::path& path) override {
    const Descriptor file(path, O_RDONLY);
    if (file.fd() < 0 || ::fsync(file.fd()) != 0) throw_file_error(path, messages::kWritingToDisk, errno);
  }

  void sync_folder(const fs::path& path) override {
    const Descriptor folder(path, O_RDONLY | O_DIRECTORY);
    if (folder.fd() < 0) throw_file_error(path, messages::kWritingToDisk, errno);
    // Some file systems cannot sync a folder and say so; their names are then as safe as they get.
    if (::fsync(folder.fd()) != 0 && errno != EINVAL) throw_file_error(path, messages::kWritingToDisk, errno);
  }

  void rename(const fs::path& from, const fs::path& to) override {
    if (::rename(from.c_str(), to.c_str()) != 0) throw_file_error(to, messages::kRenaming, errno);
  }
  void rename_new(const fs::path& from, const fs::path& to) override {
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return;
    int error = errno;
    if (error == EINVAL || error == ENOSYS) {  // a file system that does not know it: a second name, then one
      error = ::link(from.c_str(), to.c_str()) == 0 ? 0 : errno;
      if (error == 0) return remove(from);
    }
    if (error == EEXIST)
      throw Error(ErrorKind::conflict, to.string(), messages::kThereIsSomethingAlready,
                  messages::kNameAnotherPlaceBase);
    throw_file_error(to, messages::kRenaming, error);
  }
  void remove(const fs::path& path) override {
    if (::unlink(path.c_str()) != 0 && errno != ENOENT) throw_file_error(path, messages::kRemoving, errno);
  }
  void make_folders(const fs::path& path) override {
    std::error_code error;
    fs::create_directories(path, error);
    if (error) throw_file_error(path, messages::kMakingFolder, error.value());
  }

  std::vector<std::string> list_folder(const fs::path& path) override {
    // Not the standard library's iterator: where memory runs out in it, it ends the process.
    const std::unique_ptr<DIR, int (*)(DIR*)> folder(::opendir(path.c_str()), ::closedir);
    if (!folder) throw_file_error(path, messages::kReadingFolder, errno);
    std::vector<std::string> names;
    errno = 0;
    for (const dirent* entry = nullptr; (entry = ::readdir(folder.get())) != nullptr; errno = 0)
      if (const std::string_view name = entry->d_name; name != "." && name != "..") names.emplace_back(name);
    if (errno != 0) throw_file_error(path, messages::kReadingFolder, errno);
    std::sort(names.begin(), names.end());
    return names;
  }
  bool exists(const fs::path& path) override {
    std::error_code error;
    return fs::exists(path, error);
  }
  FileFacts facts(const fs::path& path) override {
    struct stat found {};
    if (::lstat(path.c_str(), &found) != 0) return {};
    if (S_ISREG(found.st_mode)) return {FileKind::file, static_cast<std::uint64_t>(found.st_size)};
    return {S_ISDIR(found.st_mode)   ? FileKind::folder
            : S_ISLNK(found.st_mode) ? FileKind::link
                                     : FileKind::other,
            0};
  }
  bool is_writable(const fs::path& path) override { return ::access(path.c_str(), W_OK) == 0; }

  bool on_network_drive(const fs::path& path) override {
    struct statfs facts {};
    if (::statfs(path.c_str(), &facts) != 0) return false;
    // statfs(2): NFS, SMB, CIFS, SMB2, FUSE (sshfs and the like), AFS, Coda, Ceph, 9P.
    for (const unsigned long type : {0x6969UL, 0x517BUL, 0xFF534D42UL, 0xFE534D42UL, 0x65735546UL,
                                     0x5346414FUL, 0x73757245UL, 0x00C36400UL, 0x01021997UL})
      if (static_cast<unsigned int>(facts.f_type) == type) return true;
    return false;
  }

  std::string identity(const fs::path& path) override {
    struct statx facts {};
    if (::statx(AT_FDCWD, path.c_str(), 0, STATX_INO | STATX_BTIME, &facts) != 0)
      throw_file_error(path, messages::kReading, errno);
    std::string machine;
    std::ifstream("/etc/machine-id") >> machine;
    return machine + ":" + std::to_string(facts.stx_ino) + ":" + std::to_string(facts.stx_btime.tv_sec) +
           "." + std::to_string(facts.stx_btime.tv_nsec);
  }
};

}  // namespace

Env& system_env() {
  static SystemEnv env;
  return env;
}

}  // namespace evet
