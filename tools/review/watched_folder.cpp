#include "tools/review/watched_folder.h"

#include <set>

#include "matcher/base/error.h"
#include "tools/review/messages.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

bool is_picture(const std::string& name) {
  static const std::set<std::string> kinds{".jpg", ".jpeg", ".png", ".tif", ".tiff", ".heic", ".heif"};
  return !name.starts_with('.') &&
         kinds.contains(lower_ascii(std::filesystem::path(name).extension().string()));
}

}  // namespace

WatchedFolder::WatchedFolder(std::filesystem::path folder, Env& env, Take take,
                             std::chrono::milliseconds pause)
    : folder_(std::move(folder)), env_(env), take_(std::move(take)) {
  if (pause.count() == 0) return;
  looking_ = std::thread([this, pause] {
    std::unique_lock lock(mutex_);
    while (!stop_) {
      lock.unlock();
      look();
      lock.lock();
      woken_.wait_for(lock, pause, [this] { return stop_; });
    }
  });
}

WatchedFolder::~WatchedFolder() {
  {
    const std::lock_guard lock(mutex_);
    stop_ = true;
  }
  woken_.notify_all();
  if (looking_.joinable()) looking_.join();
}

bool WatchedFolder::there() const {
  try {
    return env_.facts(folder_).kind == FileKind::folder;
  } catch (const Error&) {
    return false;
  }
}

void WatchedFolder::look() {
  if (!there()) return;
  try {
    for (const std::string& name : env_.list_folder(folder_)) {
      if (!is_picture(name)) continue;
      const FileFacts facts = env_.facts(folder_ / name);
      if (facts.kind != FileKind::file || grows(name, facts.bytes)) continue;
      {
        const std::lock_guard lock(mutex_);
        if (stop_) return;
        if (refused_.contains(name)) continue;
      }
      take(name);
    }
    const std::lock_guard lock(mutex_);
    for (auto one = refused_.begin(); one != refused_.end();)  // taken away since
      one = env_.exists(folder_ / one->first) ? std::next(one) : refused_.erase(one);
  } catch (const std::exception&) {  // the folder cannot be read now: looked at again
  }
}

// Whether it has another size than at the last look; one that was refused and has changed is tried again.
bool WatchedFolder::grows(const std::string& name, std::uintmax_t bytes) {
  const auto [at, fresh] = seen_.try_emplace(name, bytes);
  if (!fresh && at->second == bytes) return false;
  at->second = bytes;
  const std::lock_guard lock(mutex_);
  refused_.erase(name);
  return true;
}

void WatchedFolder::take(const std::string& name) {
  try {
    if (env_.facts(folder_ / name).bytes > kMostPhotoBytes)
      throw Error(ErrorKind::too_large, photo_item(in_quotes(name)), messages::kIsTooLargeForPage,
                  messages::kTakeItInByCommand);
    const Bytes bytes = env_.read_file(folder_ / name);
    take_(bytes, name);
    env_.remove(folder_ / name);
    seen_.erase(name);
  } catch (const Error& error) {
    if (error.kind() == ErrorKind::conflict || error.kind() == ErrorKind::storage) return;
    const std::lock_guard lock(mutex_);
    refused_[name] = error.what();
  } catch (const std::exception&) {  // a picture must not end the program
    const std::lock_guard lock(mutex_);
    refused_[name] =
        Error(ErrorKind::bad_input, photo_item(in_quotes(name)), messages::kCouldNotBeLookedAt).what();
  }
}

std::vector<std::string> WatchedFolder::refused() const {
  const std::lock_guard lock(mutex_);
  std::vector<std::string> out;
  for (const auto& [name, sentence] : refused_) out.push_back(sentence);
  return out;
}

}  // namespace evet::review
