#include "matcher/base/write_durably.h"

#include <array>
#include <cerrno>
#include <cstring>

#include "matcher/base/can_write.h"
#include "matcher/base/error.h"
#include "matcher/base/file_error.h"
#include "matcher/base/messages.h"

namespace evet {
namespace {

namespace fs = std::filesystem;

constexpr const char* kPart = ".part-";
constexpr size_t kPartLetters = 12;

std::string part_name(Env& env, const std::string& name) {
  std::array<std::byte, kPartLetters / 2> random{};
  env.fill_random(random);
  std::string part = name + kPart;
  for (const std::byte byte : random) {
    part += static_cast<char>('a' + (std::to_integer<int>(byte) & 15));
    part += static_cast<char>('a' + (std::to_integer<int>(byte) >> 4));
  }
  return part;
}

void write_whole(Env& env, const fs::path& path, BytesView bytes) {
  const fs::path folder = folder_of(path);
  const std::string name = path.filename().string();
  const fs::path part = folder / part_name(env, name);
  try {
    env.write_file(part, bytes);
    env.sync_file(part);
    env.rename(part, path);
  } catch (const Error& error) {
    try {
      env.remove(part);
    } catch (const Error&) {  // the first failure is the one to tell
    }
    throw Error(error.kind(), path.string(), error.reason());  // nobody asked for the part
  } catch (...) {
    env.remove(part);
    throw;
  }
  env.sync_folder(folder);
  for (const std::string& left : env.list_folder(folder))
    if (left.size() == name.size() + std::strlen(kPart) + kPartLetters && left.starts_with(name + kPart))
      env.remove(folder / left);
}

}  // namespace

void make_folders_durably(Env& env, const fs::path& path) {
  std::vector<fs::path> missing;  // the deepest first
  for (fs::path at = path; !env.exists(at); at = folder_of(at)) {
    missing.push_back(at);
    if (at == folder_of(at)) break;
  }
  if (missing.empty()) return;
  env.make_folders(path);
  for (const fs::path& made : missing) env.sync_folder(folder_of(made));
}

void write_file_durably(Env& env, const fs::path& path, BytesView bytes) {
  constexpr int kMostLinks = 40;  // as the system's own
  fs::path target = path;
  for (int links = 0; env.facts(target).kind == FileKind::link; ++links) {
    std::error_code error;
    const fs::path next = fs::read_symlink(target, error);
    if (error || links == kMostLinks)
      throw_file_error(path, messages::kWriting, error ? error.value() : ELOOP);
    target = next.is_absolute() ? next : folder_of(target) / next;
  }
  check_can_write_file(env, target);
  if (env.facts(target).kind == FileKind::other) return env.write_file(target, bytes);
  write_whole(env, target, bytes);
}

}  // namespace evet
