#include "matcher/catalogue/guarded_files.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <cstdint>
#include <system_error>

#include "matcher/base/error.h"
#include "matcher/catalogue/messages.h"

namespace evet {
namespace {
namespace fs = std::filesystem;

// The last eight bytes of a journal that names a super-journal (SQLite file format, section 3).
constexpr std::array<unsigned char, 8> kJournalMagic{0xd9, 0xd5, 0x05, 0xf9, 0x20, 0xa1, 0x63, 0xd7};
constexpr std::uint32_t kLongestName = 4096;

}  // namespace

struct GuardedFiles::Parts {
  sqlite3_vfs vfs{};
  sqlite3_vfs* real = nullptr;
  std::string name, file;  // the file as SQLite spells it, known once it is opened
  bool write = false;
  bool beside_a_writer = false;  // read-only with what a writer has beside its file; see GuardedFiles

  static Parts& of(sqlite3_vfs* vfs) { return *static_cast<Parts*>(vfs->pAppData); }

  bool own(const char* path, bool with_database) const {
    const std::string asked = path;
    if (with_database && asked == file) return true;
    for (const char* tail : {"-journal", "-wal", "-shm"})
      if (asked == file + tail) return true;
    return false;
  }

  static int open(sqlite3_vfs* vfs, const char* path, sqlite3_file* out, int flags, int* out_flags) {
    Parts& mine = of(vfs);
    out->pMethods = nullptr;
    if ((flags & SQLITE_OPEN_MAIN_DB) != 0) {
      if (!mine.file.empty() && mine.file != path) return SQLITE_CANTOPEN;
      mine.file = path;
      mine.beside_a_writer = !mine.write && sqlite3_uri_boolean(path, "readonly_shm", 0) != 0;
    } else if (path != nullptr && !mine.own(path, false)) {
      return SQLITE_CANTOPEN;
    } else if (mine.beside_a_writer && (flags & SQLITE_OPEN_WAL) != 0) {
      flags = (flags & ~(SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE)) | SQLITE_OPEN_READONLY;
    } else if (path != nullptr && !mine.write && (flags & SQLITE_OPEN_CREATE) != 0) {
      return SQLITE_CANTOPEN;
    }
    return mine.real->xOpen(mine.real, path, out, flags, out_flags);
  }
  static int remove(sqlite3_vfs* vfs, const char* path, int sync_folder) {
    Parts& mine = of(vfs);
    if (!mine.write || !mine.own(path, false)) return SQLITE_IOERR_DELETE;
    return mine.real->xDelete(mine.real, path, sync_folder);
  }
  static int access(sqlite3_vfs* vfs, const char* path, int flags, int* out) {
    Parts& mine = of(vfs);
    if (!mine.own(path, true)) return SQLITE_IOERR_ACCESS;
    return mine.real->xAccess(mine.real, path, flags, out);
  }
};

GuardedFiles::GuardedFiles(bool write) : parts_(std::make_unique<Parts>()) {
  static std::atomic<unsigned> count{0};
  parts_->real = sqlite3_vfs_find(nullptr);
  parts_->write = write;
  parts_->name = "evet-guarded-" + std::to_string(++count);
  parts_->vfs = *parts_->real;
  parts_->vfs.zName = parts_->name.c_str();
  parts_->vfs.pAppData = parts_.get();
  parts_->vfs.pNext = nullptr;
  parts_->vfs.xOpen = Parts::open;
  parts_->vfs.xDelete = Parts::remove;
  parts_->vfs.xAccess = Parts::access;
  sqlite3_vfs_register(&parts_->vfs, 0);
}
GuardedFiles::~GuardedFiles() {
  if (parts_) sqlite3_vfs_unregister(&parts_->vfs);
}
GuardedFiles::GuardedFiles(GuardedFiles&&) noexcept = default;
const std::string& GuardedFiles::name() const {
  return parts_->name;
}

bool journal_names_a_file(const fs::path& database) {
  const std::string journal = database.string() + "-journal";
  const int fd = ::open(journal.c_str(), O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC);
  if (fd < 0) return errno != ENOENT;  // a link: not of this program either
  struct stat facts {};
  std::array<unsigned char, 16> tail{};  // length of the name, its sum, the magic
  constexpr auto kLength = static_cast<off_t>(tail.size());
  const bool file = ::fstat(fd, &facts) == 0 && S_ISREG(facts.st_mode);
  const bool read = file && facts.st_size >= kLength &&
                    ::pread(fd, tail.data(), tail.size(), facts.st_size - kLength) == kLength;
  ::close(fd);
  const std::uint32_t length =
      std::uint32_t{tail[0]} << 24 | std::uint32_t{tail[1]} << 16 | std::uint32_t{tail[2]} << 8 | tail[3];
  return !file || (read && length > 0 && length <= kLongestName &&
                   std::equal(kJournalMagic.begin(), kJournalMagic.end(), tail.begin() + 8));
}

PlayedBack::PlayedBack(Env& env, const fs::path& database) {
  std::string pattern = (fs::temp_directory_path() / "evet-read-XXXXXX").string();
  if (::mkdtemp(pattern.data()) == nullptr)
    throw Error(ErrorKind::storage, database.string(), messages::kWhatStoppedProgramLeftHalf,
                messages::kSetTmpdirFolderYouMay);
  folder_ = pattern;
  const fs::path journal = database.string() + "-journal", copied = file().string() + "-journal";
  try {
    // A writer that is at work meanwhile would leave a copy of two moments: then once more.
    for (int attempt = 0;; ++attempt) {
      const FileFacts before = env.facts(journal);
      std::error_code error;
      fs::remove(copied, error);
      if (const std::string wal = database.string() + "-wal"; env.facts(wal).kind == FileKind::file)
        fs::copy_file(wal, file().string() + "-wal", fs::copy_options::overwrite_existing, error);
      if (before.kind == FileKind::file) fs::copy_file(journal, copied, error);
      if (!error) fs::copy_file(database, file(), fs::copy_options::overwrite_existing, error);
      if (error)
        throw Error(ErrorKind::storage, database.string(),
                    Message(messages::kCannotBeCopied, {{"error", error.message()}}));
      const FileFacts after = env.facts(journal);
      if ((after.kind == before.kind && after.bytes == before.bytes) || attempt == 20) break;
      ::usleep(50'000);
    }
  } catch (...) {
    remove();
    throw;
  }
}
PlayedBack::~PlayedBack() {
  remove();
}
// Nothing is worth the end of the process here, want of memory neither.
void PlayedBack::remove() noexcept try {
  for (const char* tail : {"", "-journal", "-wal", "-shm"}) ::unlink((file().string() + tail).c_str());
  ::rmdir(folder_.c_str());
} catch (...) {
}

}  // namespace evet
