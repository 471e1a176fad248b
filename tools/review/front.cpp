#include "tools/review/front.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <netdb.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <condition_variable>
#include <cstdint>
#include <cstdlib>
#include <deque>
#include <list>
#include <mutex>
#include <thread>
#include <vector>

namespace evet::review {
namespace {

using Clock = std::chrono::steady_clock;

// Said without looking further, and the connection ends.
constexpr const char* kTooLarge =
    "HTTP/1.1 431 Request Header Fields Too Large\r\nConnection: close\r\nContent-Length: 0\r\n\r\n";

}  // namespace

struct Front::Parts {
  struct Connection {
    std::uint64_t id = 0;
    int socket = -1;
    std::string peer;
    int port = 0;
    std::string in, out;
    std::size_t sent = 0;
    bool answering = false, closing = false, trusted = false;
    Clock::time_point since;  // when what it waits for began
  };

  int listening = -1, wake = -1;
  std::function<Answered(const Arrived&)> answer;
  FrontLimits limits;
  std::atomic<bool> stopping{false};
  std::list<Connection> connections;  // the oldest first; of the one thread that runs
  std::uint64_t next_id = 0;

  std::mutex mutex;  // of what follows
  std::condition_variable more;
  std::deque<std::pair<std::uint64_t, Arrived>> asked;
  std::vector<std::pair<std::uint64_t, Answered>> answered;
  bool done = false;

  void work() {
    for (;;) {
      std::unique_lock lock(mutex);
      more.wait(lock, [&] { return done || !asked.empty(); });
      if (asked.empty()) return;
      auto [id, request] = std::move(asked.front());
      asked.pop_front();
      lock.unlock();
      Answered said = answer(request);
      lock.lock();
      answered.emplace_back(id, std::move(said));
      lock.unlock();
      nudge();
    }
  }
  void nudge() const {
    const std::uint64_t one = 1;
    [[maybe_unused]] const ssize_t n = ::write(wake, &one, sizeof one);
  }

  static void end(Connection& connection) {
    if (connection.socket >= 0) ::close(connection.socket);
    connection.socket = -1;
  }

  // The one that has waited longest with nothing asked, of a peer or of all; the one that has just come is
  // never it.
  bool make_room(const std::string* peer) {
    for (const bool trusted : {false, true})
      for (Connection& connection : connections)
        if (connection.socket >= 0 && connection.trusted == trusted && !connection.answering &&
            connection.out.empty() && (peer == nullptr || connection.peer == *peer)) {
          end(connection);
          return true;
        }
    return false;
  }
  void accept_all() {
    for (;;) {
      sockaddr_storage from{};
      socklen_t length = sizeof from;
      const int socket =
          ::accept4(listening, reinterpret_cast<sockaddr*>(&from), &length, SOCK_NONBLOCK | SOCK_CLOEXEC);
      if (socket < 0) return;
      const int yes = 1;
      ::setsockopt(socket, IPPROTO_TCP, TCP_NODELAY, &yes, sizeof yes);
      std::array<char, NI_MAXHOST> host{};
      std::array<char, NI_MAXSERV> port{};
      ::getnameinfo(reinterpret_cast<sockaddr*>(&from), length, host.data(), host.size(), port.data(),
                    port.size(), NI_NUMERICHOST | NI_NUMERICSERV);
      std::size_t of_peer = 0, all = 0;
      for (const Connection& one : connections) {
        if (one.socket < 0) continue;
        ++all, of_peer += one.peer == host.data();
      }
      const std::string peer = host.data();
      const bool room = of_peer >= limits.of_one_peer ? make_room(&peer)
                        : all >= limits.connections   ? make_room(nullptr)
                                                      : true;
      if (!room) {
        ::close(socket);
        continue;
      }
      Connection& fresh = connections.emplace_back();
      fresh.id = ++next_id, fresh.socket = socket, fresh.since = Clock::now();
      fresh.peer = peer, fresh.port = std::atoi(port.data());
    }
  }

  void look(Connection& connection) {
    if (connection.answering || !connection.out.empty() || connection.in.empty()) return;
    const RequestEnd end_of = request_end(connection.in, limits);
    if (end_of.state == RequestEnd::unfinished) return;
    connection.since = Clock::now();
    if (end_of.state == RequestEnd::too_large) {
      connection.out = kTooLarge, connection.closing = true;
      return write(connection);
    }
    Arrived arrived{connection.in.substr(0, end_of.bytes), connection.peer, connection.port};
    connection.in.erase(0, end_of.bytes);
    if (end_of.state == RequestEnd::head_only) connection.closing = true, connection.in.clear();
    connection.answering = true;
    {
      const std::lock_guard lock(mutex);
      asked.emplace_back(connection.id, std::move(arrived));
    }
    more.notify_one();
  }
  void read(Connection& connection) {
    std::array<char, 16 * 1024> buffer;
    const ssize_t n = ::recv(connection.socket, buffer.data(), buffer.size(), 0);
    if (n < 0 && (errno == EAGAIN || errno == EINTR)) return;
    if (n <= 0) return end(connection);
    if (connection.in.empty()) connection.since = Clock::now();
    connection.in.append(buffer.data(), static_cast<std::size_t>(n));
    look(connection);
  }
  void write(Connection& connection) {
    while (connection.sent < connection.out.size()) {
      const ssize_t n = ::send(connection.socket, connection.out.data() + connection.sent,
                               connection.out.size() - connection.sent, MSG_NOSIGNAL);
      if (n < 0 && errno == EINTR) continue;
      if (n < 0 && errno == EAGAIN) return;
      if (n < 0) return end(connection);
      connection.sent += static_cast<std::size_t>(n);
      connection.since = Clock::now();
    }
    connection.out.clear(), connection.out.shrink_to_fit(), connection.sent = 0;
    if (connection.closing) return finish(connection);
    look(connection);  // what came meanwhile
  }
  // What the other side still sends is taken and thrown away for a moment, or it would never see the answer.
  static void finish(Connection& connection) {
    ::shutdown(connection.socket, SHUT_WR);
    std::array<char, 16 * 1024> buffer;
    for (int i = 0; i < 16 && ::recv(connection.socket, buffer.data(), buffer.size(), 0) > 0; ++i) {
    }
    end(connection);
  }
  void take_answers() {
    std::vector<std::pair<std::uint64_t, Answered>> ready;
    {
      const std::lock_guard lock(mutex);
      ready.swap(answered);
    }
    for (auto& [id, said] : ready)
      for (Connection& connection : connections)
        if (connection.id == id) {
          connection.answering = false, connection.since = Clock::now();
          connection.closing = connection.closing || said.close;
          connection.trusted = connection.trusted || said.trusted;
          if (connection.socket < 0) break;
          connection.out = std::move(said.bytes);
          write(connection);
          break;
        }
  }

  void end_late(Clock::time_point now) {
    for (Connection& connection : connections) {
      if (connection.socket < 0 || connection.answering) continue;
      const auto waited = now - connection.since;
      if (waited > (!connection.out.empty() ? limits.answer
                    : connection.in.empty() ? limits.idle
                                            : limits.request))
        end(connection);
    }
    connections.remove_if([](const Connection& one) { return one.socket < 0 && !one.answering; });
  }
  void turn() {
    std::vector<pollfd> waiting{{listening, POLLIN, 0}, {wake, POLLIN, 0}};
    std::vector<Connection*> whose;
    for (Connection& connection : connections) {
      if (connection.socket < 0) continue;
      const bool reads = !connection.answering && connection.out.empty();
      waiting.push_back({connection.socket,
                         static_cast<short>(reads                    ? POLLIN
                                            : connection.out.empty() ? 0
                                                                     : POLLOUT),
                         0});
      whose.push_back(&connection);
    }
    ::poll(waiting.data(), waiting.size(), 500);
    if ((waiting[1].revents & POLLIN) != 0) {
      std::uint64_t count = 0;
      [[maybe_unused]] const ssize_t n = ::read(wake, &count, sizeof count);
    }
    for (std::size_t i = 0; i < whose.size(); ++i) {
      Connection& connection = *whose[i];
      const short what = waiting[i + 2].revents;
      if (connection.socket < 0 || what == 0) continue;
      if ((what & (POLLERR | POLLNVAL)) != 0 || ((what & POLLHUP) != 0 && (what & POLLIN) == 0))
        end(connection);
      else if ((what & POLLIN) != 0)
        read(connection);
      else if ((what & POLLOUT) != 0)
        write(connection);
    }
    take_answers();
    if ((waiting[0].revents & POLLIN) != 0) accept_all();
    end_late(Clock::now());
  }
};

Front::Front(int listening, std::function<Answered(const Arrived&)> answer, const FrontLimits& limits)
    : parts_(std::make_unique<Parts>()) {
  parts_->listening = listening, parts_->answer = std::move(answer), parts_->limits = limits;
  parts_->wake = ::eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC);
  ::fcntl(listening, F_SETFL, ::fcntl(listening, F_GETFL) | O_NONBLOCK);
}
Front::~Front() {
  for (Parts::Connection& connection : parts_->connections) Parts::end(connection);
  ::close(parts_->listening);
  ::close(parts_->wake);
}

void Front::run() {
  std::vector<std::jthread> workers;
  for (std::size_t i = 0; i < parts_->limits.threads; ++i) workers.emplace_back([this] { parts_->work(); });
  while (!parts_->stopping) parts_->turn();
  {
    const std::lock_guard lock(parts_->mutex);
    parts_->done = true;
    parts_->asked.clear();
  }
  parts_->more.notify_all();
  workers.clear();  // what is being answered is answered: it may be a verdict
  parts_->take_answers();
}

void Front::stop() {
  parts_->stopping = true;
  parts_->nudge();
}

}  // namespace evet::review
