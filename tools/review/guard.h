// Who may talk to the page: the last check before a request reaches any of our code.
//
// The page listens on the loopback address, where every other program and every web site open in the same
// browser can reach it too. So: a name that is not ours in Host is refused (DNS rebinding); a token, fresh at
// each launch, must come as a cookie (HttpOnly, SameSite=Strict); what another site or another port of this
// machine sends is refused by Origin and Sec-Fetch-Site; and a write must also carry a header that only a
// script of this page can know.
#pragma once
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "matcher/base/env.h"
#include "tools/review/message.h"

namespace evet::review {

inline constexpr const char* kOwner = "owner";      // the session of whoever has the printed address
inline constexpr std::size_t kMaxBody = 64 * 1024;  // our largest body is a midline

// Of a host listened on: whether no other machine can come in by it.
bool is_loopback(const std::string& host);
// Of a numeric address: whether it is this very machine that asks.
bool of_this_machine(const std::string& peer);

class Guard {
 public:
  // `host` is the address listened on. A non-empty `passphrase` opens the page to whoever knows it.
  Guard(Env& env, std::string host, int port, std::string passphrase = {});

  // What to answer instead of serving the request; nothing when it may pass.
  std::optional<Response> stop(const Request& request, const std::optional<Target>& target);

  // What the headers alone rule out, before a body is read: bodies of unknown length or packed, which a few
  // bytes can blow up to any size.
  static std::optional<Response> bad_shape(const Request& request);
  bool knows(const Request& request) const { return !session_of(request).empty(); }
  // By its cookie: "owner" for whoever has the printed address, an id of its own for each browser that came in
  // with the passphrase, empty for nobody that is known.
  std::string session_of(const Request& request) const;
  std::string url() const;  // with the token, to open in a browser
  // One that lets in once: for a program's arguments, which every user of the machine can read.
  std::string url_once();
  std::string write_key() const;  // what X-Evet-Guard must hold
  const std::string& token() const { return token_; }
  // On every answer.
  static void seal(Response& response);

 private:
  bool host_is_ours(const std::string& host) const;
  // `keep_s`: how long the browser keeps the cookie; 0: until it is closed.
  Response open_door(const std::string& session, int keep_s = 0) const;
  std::optional<Response> at_the_door(const Request& request, const std::optional<Target>& target);

  Env* env_;
  std::string host_, passphrase_, token_;
  std::string once_;  // lets in once; empty when it has, or was never given out
  int port_;
  std::vector<std::string> names_;
  struct Tries {
    int wrong = 0;
    std::int64_t last_ms = 0;
  };
  std::deque<std::string> guests_;      // cookies of those who came in with the passphrase, the oldest first
  std::map<std::string, Tries> tries_;  // by peer: whoever guesses locks out nobody else
};

}  // namespace evet::review
