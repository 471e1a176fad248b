// A bar on a terminal for work that takes a while; nothing at all elsewhere.
#pragma once
#include <chrono>
#include <cstddef>
#include <string>

#include "tools/evet/command.h"

namespace evet {

class Progress {
 public:
  Progress(Console& console, std::string doing);  // "examining photos"
  ~Progress();                                    // takes the bar away
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  void show(size_t done, size_t all);

 private:
  using Clock = std::chrono::steady_clock;
  Console& console_;
  std::string doing_;
  Clock::time_point began_ = Clock::now(), drawn_{};
  bool anything_ = false;
};

}  // namespace evet
