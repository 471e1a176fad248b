// A folder into which another program puts photos: a camera's cable, a card reader, a phone's sync. What lies there
// whole is taken from it; a file that still grows is left until the next look.
#pragma once
#include <condition_variable>
#include <filesystem>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "matcher/base/env.h"

namespace evet::review {

inline constexpr std::size_t kMostPhotoBytes = 64U
                                               << 20;  // of one photo that comes over the page or a folder

class WatchedFolder {
 public:
  // `take` gets each photo, and throws Error where it cannot be taken: conflict or storage to be tried again, another
  // kind for one that is set aside by name. What was taken is removed. Looks every `pause`; never, where that is 0.
  using Take = std::function<void(BytesView bytes, const std::string& name)>;
  WatchedFolder(std::filesystem::path folder, Env& env, Take take, std::chrono::milliseconds pause);
  ~WatchedFolder();
  WatchedFolder(const WatchedFolder&) = delete;
  WatchedFolder& operator=(const WatchedFolder&) = delete;

  const std::filesystem::path& folder() const { return folder_; }
  bool there() const;  // it is watched from when it is there
  void look();
  std::vector<std::string> refused() const;  // a sentence each, of the files that lie there still

 private:
  bool grows(const std::string& name, std::uintmax_t bytes);
  void take(const std::string& name);

  const std::filesystem::path folder_;
  Env& env_;
  const Take take_;
  std::map<std::string, std::uintmax_t> seen_;  // sizes at the last look
  mutable std::mutex mutex_;
  std::map<std::string, std::string> refused_;  // by name
  bool stop_ = false;
  std::condition_variable woken_;
  std::thread looking_;
};

}  // namespace evet::review
