// The page's socket: Front reads what comes over it, cpp-httplib takes each request apart, Page answers it.
#pragma once
#include <memory>
#include <string>

#include "tools/review/page.h"

namespace evet::review {

class Server {
 public:
  // Listens on `host`; port 0 takes any that is free. Errors: usage for an address that is none of this
  // machine's; conflict for a port that is taken.
  Server(const std::string& host, int port);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  int port() const { return port_; }
  void run(Page& page);  // until stop(); from any thread
  void stop();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
  int port_ = 0;
};

}  // namespace evet::review
