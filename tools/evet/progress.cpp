#include "tools/evet/progress.h"

#include <fmt/format.h>

#include <ostream>

#include "tools/evet/messages.h"
#include "tools/words/in_words.h"

namespace evet {

Progress::Progress(Console& console, std::string doing) : console_(console), doing_(std::move(doing)) {}

Progress::~Progress() {
  if (anything_) console_.err << "\r\x1b[K" << std::flush;
}

void Progress::show(size_t done, size_t all) {
  if (!console_.err_is_terminal || all == 0) return;
  const Clock::time_point now = Clock::now();
  if (done < all && now - drawn_ < std::chrono::milliseconds(100)) return;
  drawn_ = now;
  constexpr size_t kWidth = 24;
  const size_t full = kWidth * done / all;
  std::string left;
  const double seconds = std::chrono::duration<double>(now - began_).count();
  if (done > 0 && seconds > 2) {
    const auto to_go =
        static_cast<int>(seconds * static_cast<double>(all - done) / static_cast<double>(done));
    left = "  " + in_words(messages::kTimeLeft, {{"time", fmt::format("{}:{:02}", to_go / 60, to_go % 60)}});
  }
  console_.err << fmt::format("\r{} [{}{}] {}/{}{}\x1b[K", doing_, std::string(full, '='),
                              std::string(kWidth - full, ' '), done, all, left)
               << std::flush;
  anything_ = true;
}

}  // namespace evet
