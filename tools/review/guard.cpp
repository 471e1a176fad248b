#include "tools/review/guard.h"

#include <openssl/crypto.h>

#include <algorithm>
#include <array>

#include "matcher/base/sha256.h"
#include "tools/review/messages.h"
#include "tools/words/in_words.h"

namespace evet::review {
namespace {

constexpr std::size_t kTokenBytes = 24;
constexpr int kFreeTries = 5;
constexpr std::int64_t kPauseMs = 30'000;
constexpr std::size_t kMostPeers = 1000;
constexpr std::size_t kMostGuests = 200;
// A phone's browser is ended whenever the phone is put away, and its reader must not become somebody else by
// that. It opens nothing once the program has ended.
constexpr int kGuestCookieS = 24 * 60 * 60;

std::string random_hex(Env& env) {
  std::array<std::byte, kTokenBytes> bytes;
  env.fill_random(bytes);
  std::string out;
  for (const std::byte byte : bytes) {
    out += "0123456789abcdef"[std::to_integer<unsigned>(byte) >> 4];
    out += "0123456789abcdef"[std::to_integer<unsigned>(byte) & 15];
  }
  return out;
}

// In a time that does not tell how much of it was right.
bool equal(const std::string& a, const std::string& b) {
  return a.size() == b.size() && CRYPTO_memcmp(a.data(), b.data(), a.size()) == 0;
}

std::string cookie(const std::string& all, const std::string& name) {
  std::size_t at = 0;
  while (at < all.size()) {
    const std::size_t end = std::min(all.find(';', at), all.size());
    const std::size_t start = std::min(all.find_first_not_of(' ', at), end);
    if (all.compare(start, name.size() + 1, name + "=") == 0)
      return all.substr(start + name.size() + 1, end - start - name.size() - 1);
    at = end + 1;
  }
  return {};
}

Response plain(int status, const std::string& kind, const MessageText& sentence) {
  return error_answer(status, kind, in_words(sentence));
}

}  // namespace

bool is_loopback(const std::string& host) {
  return host == "127.0.0.1" || host == "localhost" || host == "::1";
}

bool of_this_machine(const std::string& peer) {
  return peer.starts_with("127.") || peer == "::1" || peer.starts_with("::ffff:127.");
}

Guard::Guard(Env& env, std::string host, int port, std::string passphrase)
    : env_(&env),
      host_(std::move(host)),
      passphrase_(std::move(passphrase)),
      token_(random_hex(env)),
      port_(port) {
  names_ = {"127.0.0.1", "localhost", "[::1]"};
  if (!is_loopback(host_)) names_.push_back(host_.find(':') == std::string::npos ? host_ : "[" + host_ + "]");
}

std::string Guard::url() const {
  const std::string name =
      is_loopback(host_) || host_ == "0.0.0.0" || host_ == "::" ? "127.0.0.1" : names_.back();
  return "http://" + name + ":" + std::to_string(port_) + "/?t=" + token_;
}

std::string Guard::url_once() {
  once_ = random_hex(*env_);
  const std::string whole = url();
  return whole.substr(0, whole.size() - token_.size()) + once_;
}

std::string Guard::write_key() const {
  return sha256_hex("write " + token_);
}

bool Guard::host_is_ours(const std::string& host) const {
  const std::string port = ":" + std::to_string(port_);
  if (host.size() <= port.size() || !host.ends_with(port)) return false;
  const std::string name = host.substr(0, host.size() - port.size());
  if (std::find(names_.begin(), names_.end(), name) != names_.end()) return true;
  // Listening on every address: any numeric one may be how we were reached, but no name, for a name is what
  // a rebinding attack needs.
  return (host_ == "0.0.0.0" && name.find_first_not_of("0123456789.") == std::string::npos) ||
         (host_ == "::" && name.find_first_not_of("0123456789abcdef:[]") == std::string::npos);
}

std::string Guard::session_of(const Request& request) const {
  // Cookies know no ports: the name keeps two pages on one machine apart.
  const std::string shown = cookie(request.header("cookie"), "evet_" + std::to_string(port_));
  if (equal(shown, token_)) return kOwner;
  for (const std::string& guest : guests_)
    if (equal(shown, guest)) return guest;
  return {};
}

Response Guard::open_door(const std::string& session, int keep_s) const {
  Response response{
      .status = 303, .type = "text/plain; charset=utf-8", .body = in_words(messages::kThePageOpens) + "\n"};
  response.headers["Location"] = "/";
  response.headers["Set-Cookie"] =
      "evet_" + std::to_string(port_) + "=" + session + "; Path=/; HttpOnly; SameSite=Strict";
  if (keep_s > 0) response.headers["Set-Cookie"] += "; Max-Age=" + std::to_string(keep_s);
  return response;
}

// Not yet known: the token of the printed address, or the passphrase, lets in.
std::optional<Response> Guard::at_the_door(const Request& request, const std::optional<Target>& target) {
  if (request.method == "GET" && target->path.empty()) {
    const auto token = target->query.find("t");
    if (token != target->query.end() && equal(token->second, token_)) return open_door(token_);
    if (token != target->query.end() && !once_.empty() && equal(token->second, once_)) {
      once_.clear();
      return open_door(token_);
    }
  }
  if (!passphrase_.empty() && request.method == "POST" && target->path == std::vector<std::string>{"enter"}) {
    const std::int64_t now = env_->now().unix_ms;
    // Only who still has to wait is remembered; more than a network of people never are.
    if (tries_.size() >= kMostPeers)
      std::erase_if(tries_, [&](const auto& one) { return now - one.second.last_ms >= kPauseMs; });
    if (tries_.size() >= kMostPeers && !tries_.contains(request.peer))
      return plain(429, "usage", messages::kTooManyWrongPassphrases);
    Tries& tries = tries_[request.peer];
    if (tries.wrong >= kFreeTries && now - tries.last_ms < kPauseMs)
      return plain(429, "usage", messages::kTooManyWrongPassphrases);
    if (equal(sha256_hex(request.body), sha256_hex(passphrase_))) {
      tries_.erase(request.peer);
      guests_.push_back(random_hex(*env_));
      if (guests_.size() > kMostGuests) guests_.pop_front();
      return open_door(guests_.back(), kGuestCookieS);
    }
    ++tries.wrong, tries.last_ms = now;
    return plain(401, "usage", messages::kNotThePassphrase);
  }
  // The door itself has nothing in it that is not public.
  if (request.method == "GET" && target->path.empty()) return std::nullopt;
  if (request.method == "GET" && target->path.size() == 1 &&
      (target->path[0] == "style.css" || target->path[0] == "door.js" || target->path[0] == "words.js" ||
       target->path[0] == "spoken.js"))
    return std::nullopt;
  return plain(401, "usage", messages::kBrowserNotKnown);
}

std::optional<Response> Guard::bad_shape(const Request& request) {
  if (request.headers.contains("transfer-encoding"))
    return plain(411, "usage", messages::kRequestSaysHowLong);
  if (request.headers.contains("content-encoding"))
    return plain(415, "unsupported", messages::kRequestIsNotPacked);
  if (request.header("content-type").starts_with("multipart/"))
    return plain(415, "unsupported", messages::kPageTakesNoFiles);
  return std::nullopt;
}

std::optional<Response> Guard::stop(const Request& request, const std::optional<Target>& target) {
  if (!host_is_ours(request.header("host"))) return plain(421, "usage", messages::kAddressNotServed);
  if (request.method != "GET" && request.method != "HEAD" && request.method != "POST") {
    Response response = plain(405, "usage", messages::kOnlyTheseMethods);
    response.headers["Allow"] = "GET, HEAD, POST";
    return response;
  }
  if (!target) return plain(400, "usage", messages::kNoAddressOfPage);
  if (request.body.size() > kMaxBody) return plain(413, "too_large", messages::kRequestTooLarge);
  // Another port of this machine is the same site to SameSite=Strict, so the cookie alone would not do.
  const std::string site = request.header("sec-fetch-site");
  const bool from_us = site.empty() || site == "same-origin" || (site == "none" && request.method != "POST");
  if (!from_us) return plain(403, "usage", messages::kAnotherSiteAsked);
  if (request.method == "POST") {
    const std::string origin = request.header("origin");
    if (!(origin == "http://" + request.header("host") || (origin.empty() && site == "same-origin")))
      return plain(403, "usage", messages::kRequestNotOfPage);
  }
  if (!knows(request)) return at_the_door(request, target);
  if (request.method == "GET" && target->path.empty() && target->query.contains("t")) {
    // Known already: take the token out of the address bar and the history.
    Response response{.status = 303, .type = "text/plain; charset=utf-8", .body = {}};
    response.headers["Location"] = "/";
    return response;
  }
  if (request.method == "POST") {
    // A piece of a photo comes as it is; whatever else is said is JSON.
    const bool piece = target->path == std::vector<std::string>{"api", "evening", "piece"};
    if (!request.header("content-type").starts_with(piece ? "application/octet-stream" : "application/json"))
      return plain(415, "unsupported", messages::kWriteIsJson);
    if (!equal(request.header("x-evet-guard"), write_key()))
      return plain(403, "usage", messages::kPageIsOlder);
  }
  return std::nullopt;
}

void Guard::seal(Response& response) {
  response.headers.emplace(
      "Content-Security-Policy",
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
      "base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  response.headers["X-Content-Type-Options"] = "nosniff";
  response.headers["X-Frame-Options"] = "DENY";
  response.headers["Referrer-Policy"] = "no-referrer";
  response.headers["Cross-Origin-Resource-Policy"] = "same-origin";
  response.headers["Cross-Origin-Opener-Policy"] = "same-origin";
  response.headers.emplace("Cache-Control", "no-store");
}

}  // namespace evet::review
