#include "tools/review/server.h"

#include <httplib.h>
#include <netdb.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <functional>
#include <utility>

#include "matcher/base/error.h"
#include "tools/review/front.h"
#include "tools/review/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

// One whole request in memory, and the answer to it: httplib reads and writes as it would on a socket.
class InMemory final : public httplib::Stream {
 public:
  explicit InMemory(const Arrived& arrived) : arrived_(arrived) {}
  bool is_readable() const override { return true; }
  bool is_writable() const override { return true; }
  ssize_t read(char* to, size_t size) override {
    const size_t n = arrived_.bytes.copy(to, size, at_);
    at_ += n;
    return static_cast<ssize_t>(n);
  }
  ssize_t write(const char* from, size_t size) override {
    answer_.append(from, size);
    return static_cast<ssize_t>(size);
  }
  void get_remote_ip_and_port(std::string& ip, int& port) const override {
    ip = arrived_.peer, port = arrived_.port;
  }
  void get_local_ip_and_port(std::string& ip, int& port) const override { ip.clear(), port = 0; }
  socket_t socket() const override { return INVALID_SOCKET; }
  std::string take() { return std::move(answer_); }

 private:
  const Arrived& arrived_;
  size_t at_ = 0;
  std::string answer_;
};

thread_local bool knows_asker = false;  // of the request that this thread answers

// httplib takes requests apart and puts answers together; the connections are Front's.
class Parser final : public httplib::Server {
 public:
  Answered answer(const Arrived& arrived) {
    InMemory stream(arrived);
    bool closed = false;
    const bool kept = process_request(stream, false, closed, [](httplib::Request&) {});
    return {stream.take(), closed || !kept, false};
  }
};

// A socket that listens on one address of this machine. Ours alone: without SO_REUSEPORT no other program can
// share the port, and the token with it. -1 when it cannot be had.
int listen_on(const std::string& host, int port) {
  addrinfo hints{};
  hints.ai_family = AF_UNSPEC, hints.ai_socktype = SOCK_STREAM, hints.ai_flags = AI_PASSIVE | AI_NUMERICSERV;
  addrinfo* found = nullptr;
  if (::getaddrinfo(host.c_str(), std::to_string(port).c_str(), &hints, &found) != 0) return -1;
  int listening = -1;
  for (const addrinfo* at = found; at != nullptr && listening < 0; at = at->ai_next) {
    const int one = ::socket(at->ai_family, at->ai_socktype | SOCK_CLOEXEC, at->ai_protocol);
    const int yes = 1;
    ::setsockopt(one, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    constexpr int kBacklog = 128;
    if (::bind(one, at->ai_addr, at->ai_addrlen) == 0 && ::listen(one, kBacklog) == 0)
      listening = one;
    else
      ::close(one);
  }
  ::freeaddrinfo(found);
  return listening;
}

int port_of(int listening) {
  sockaddr_storage at{};
  socklen_t length = sizeof at;
  if (::getsockname(listening, reinterpret_cast<sockaddr*>(&at), &length) != 0) return 0;
  return ntohs(at.ss_family == AF_INET6 ? reinterpret_cast<const sockaddr_in6&>(at).sin6_port
                                        : reinterpret_cast<const sockaddr_in&>(at).sin_port);
}

Request request_of(const httplib::Request& from) {
  Request out{.method = from.method,
              .target = from.target,
              .headers = {},
              .body = from.body,
              .peer = from.remote_addr};
  for (const auto& [name, value] : from.headers) {
    const auto [at, added] = out.headers.emplace(lower_ascii(name), value);
    if (!added) at->second.clear();  // said twice: which one counts is not for us to guess
  }
  return out;
}

void send(const Response& response, httplib::Response& to) {
  to.status = response.status;
  for (const auto& [name, value] : response.headers) to.set_header(name, value);
  to.set_content(response.body, response.type);
}

}  // namespace

struct Server::Parts {
  Parser parser;
  std::function<Answered(const Arrived&)> answer;
  std::unique_ptr<Front> front;
};

Server::Server(const std::string& host, int port) : parts_(std::make_unique<Parts>()) {
  const int listening = listen_on(host, port);
  if (listening < 0 && port == 0)
    throw Error(ErrorKind::usage, in_words(messages::kAddressItem, {{"address", in_quotes(host)}}),
                messages::kCannotBeListenedOn, messages::kNameAddressOfMachine);
  if (listening < 0)
    throw Error(
        ErrorKind::conflict,
        in_words(messages::kPortOfItem, {{"port", std::to_string(port)}, {"address", in_quotes(host)}}),
        messages::kPortIsTaken, messages::kNameAnotherPortOrNone);
  port_ = port_of(listening);
  parts_->parser.set_keep_alive_max_count(10000);
  parts_->parser.set_payload_max_length(kMaxBody);
  parts_->front =
      std::make_unique<Front>(listening, [this](const Arrived& arrived) { return parts_->answer(arrived); });
}

Server::~Server() = default;

void Server::run(Page& page) {
  httplib::Server& server = parts_->parser;
  // What has no body is answered before httplib's own routing sees the path.
  server.set_pre_routing_handler([&](const httplib::Request& from, httplib::Response& to) {
    const Request request = request_of(from);
    auto refused = Guard::bad_shape(request);
    if (!refused && request.method == "POST" && request.header("content-length").empty())
      refused = error_answer(411, "usage", in_words(messages::kRequestSaysHowLong));
    if (refused) {
      Guard::seal(*refused);
      send(*refused, to);
      to.set_header("Connection", "close");
      return httplib::Server::HandlerResponse::Handled;
    }
    knows_asker = page.knows(request);
    if (request.method == "POST") return httplib::Server::HandlerResponse::Unhandled;
    send(page.handle(request), to);
    return httplib::Server::HandlerResponse::Handled;
  });
  server.Post("/[a-z_/]{1,64}", [&](const httplib::Request& from, httplib::Response& to) {
    send(page.handle(request_of(from)), to);
  });
  // Whatever httplib refuses by itself: too large, malformed, no such address.
  server.set_error_handler(
      httplib::Server::HandlerWithResponse([](const httplib::Request&, httplib::Response& to) {
        // The page's own answer, which to HEAD has no body.
        if (!to.body.empty() || to.has_header("Content-Security-Policy"))
          return httplib::Server::HandlerResponse::Unhandled;
        Response response = error_answer(
            to.status, to.status == 413 ? "too_large" : "usage",
            in_words(to.status == 413 ? messages::kRequestTooLarge : messages::kRequestNotOneOfPage));
        Guard::seal(response);
        send(response, to);
        return httplib::Server::HandlerResponse::Handled;
      }));
  parts_->answer = [&](const Arrived& arrived) {
    Answered said = parts_->parser.answer(arrived);
    said.trusted = std::exchange(knows_asker, false);
    return said;
  };
  parts_->front->run();
}

void Server::stop() {
  parts_->front->stop();
}

}  // namespace evet::review
