#include "matcher/photo/wire.h"

#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <climits>
#include <cstdint>

namespace evet {

using std::chrono::steady_clock;

void Line::allow_seconds(int seconds) {
  until_ =
      seconds > 0 ? steady_clock::now() + std::chrono::seconds(seconds) : steady_clock::time_point::max();
}

void Line::wait(short for_what) const {
  if (until_ == steady_clock::time_point::max()) return;  // the calls themselves wait
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until_ - steady_clock::now());
    if (left.count() <= 0) throw LineTooSlow("too slow");
    pollfd one{fd_, for_what, 0};
    const int ready = ::poll(&one, 1, static_cast<int>(std::min<std::int64_t>(left.count(), INT_MAX)));
    if (ready > 0) return;
    if (ready < 0 && errno != EINTR) throw LineBroken("it cannot be waited for");
  }
}

// read() and write(), of which the confined side has no others; SIGPIPE is ignored there, and not sent here.
void Line::put(const void* from, std::size_t size) {
  const auto* at = static_cast<const char*>(from);
  while (size > 0) {
    wait(POLLOUT);
    const bool waits = until_ == steady_clock::time_point::max();
    const ssize_t n = waits ? ::write(fd_, at, size) : ::send(fd_, at, size, MSG_NOSIGNAL | MSG_DONTWAIT);
    if (n < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (n <= 0) throw LineBroken("the other end has gone");
    at += n, size -= static_cast<std::size_t>(n);
  }
}

void Line::get(void* to, std::size_t size) {
  auto* at = static_cast<char*>(to);
  while (size > 0) {
    wait(POLLIN);
    const ssize_t n = ::read(fd_, at, size);
    if (n < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (n <= 0) throw LineBroken("the other end has gone");
    at += n, size -= static_cast<std::size_t>(n);
  }
}

void Line::put_text(const std::string& text) {
  put_value(static_cast<std::uint32_t>(text.size()));
  put(text.data(), text.size());
}
std::string Line::get_text(std::size_t at_most) {
  const auto size = get_value<std::uint32_t>();
  if (size > at_most) throw LineBroken("it says more than it may");
  std::string text(size, '\0');
  get(text.data(), size);
  return text;
}

}  // namespace evet
