#include "tools/review/server.h"

#include <httplib.h>
#include <sys/socket.h>

#include <atomic>
#include <chrono>
#include <thread>

#include "matcher/base/error.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

// A browser keeps six connections open, each on a thread of its own: enough for several windows.
constexpr std::size_t kThreads = 32;

// Ours alone: with SO_REUSEPORT, which httplib would set, another program could share the port and the
// token with it.
void only_ours(socket_t socket) {
  const int yes = 1;
  setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
}

Request request_of(const httplib::Request& from) {
  Request out{.method = from.method, .target = from.target, .headers = {}, .body = from.body};
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
  httplib::Server server;
  std::atomic<bool> entered = false, left = false, stopping = false;
};

Server::Server(const std::string& host, int port) : parts_(std::make_unique<Parts>()) {
  httplib::Server& server = parts_->server;
  server.new_task_queue = [] { return new httplib::ThreadPool(kThreads); };
  server.set_socket_options(only_ours);
  server.set_tcp_nodelay(true);
  server.set_keep_alive_max_count(10000);
  server.set_payload_max_length(kMaxBody);
  if (port == 0) {
    port_ = server.bind_to_any_port(host);
    if (port_ <= 0)
      throw Error(ErrorKind::usage, "address " + evet::quoted(host), "it cannot be listened on",
                  "name an address of this machine");
  } else {
    if (!server.bind_to_port(host, port))
      throw Error(ErrorKind::conflict, "port " + std::to_string(port) + " of " + evet::quoted(host),
                  "it cannot be listened on: it is taken, or not for you to use",
                  "name another port, or none for any that is free");
    port_ = port;
  }
}

Server::~Server() = default;

void Server::run(Page& page) {
  httplib::Server& server = parts_->server;
  // What has no body is answered before httplib's own routing sees the path.
  server.set_pre_routing_handler([&](const httplib::Request& from, httplib::Response& to) {
    const Request request = request_of(from);
    if (auto refused = Guard::bad_shape(request)) {
      Guard::seal(*refused);
      send(*refused, to);
      to.set_header("Connection", "close");
      return httplib::Server::HandlerResponse::Handled;
    }
    if (request.method == "POST") return httplib::Server::HandlerResponse::Unhandled;
    send(page.handle(request), to);
    return httplib::Server::HandlerResponse::Handled;
  });
  server.Post("/[a-z_/]{1,64}", [&](const httplib::Request& from, httplib::Response& to) {
    send(page.handle(request_of(from)), to);
  });
  // Whatever httplib refuses by itself: too large, malformed, no such address.
  server.set_error_handler(httplib::Server::HandlerWithResponse([](const httplib::Request&,
                                                                   httplib::Response& to) {
    // The page's own answer, which to HEAD has no body.
    if (!to.body.empty() || to.has_header("Content-Security-Policy"))
      return httplib::Server::HandlerResponse::Unhandled;
    Response response = error_answer(to.status, to.status == 413 ? "too_large" : "usage",
                                     to.status == 413 ? "The request is larger than anything this page sends."
                                                      : "The request is not one of this page's.");
    Guard::seal(response);
    send(response, to);
    return httplib::Server::HandlerResponse::Handled;
  }));
  parts_->entered = true;
  if (!parts_->stopping) server.listen_after_bind();
  parts_->left = true;
}

void Server::stop() {
  parts_->stopping = true;
  // httplib forgets a stop that comes between the start of run() and its first wait.
  while (parts_->entered && !parts_->left && !parts_->server.is_running())
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  parts_->server.stop();
}

}  // namespace evet::review
