// The review page behind its socket: a request in, an answer out.
#pragma once
#include <filesystem>
#include <string>

#include "tools/review/desk.h"
#include "tools/review/guard.h"
#include "tools/review/house.h"
#include "tools/review/message.h"
#include "tools/review/reader_sessions.h"

namespace evet::review {

struct PageOptions {
  std::string host = "127.0.0.1";  // listened on
  // Listened on; 0: any that is free; below 0: the usual one, or any that is free where that is taken.
  int port = -1;
  std::string passphrase;                 // needed where others on the network may come in
  std::string reader;                     // the code proposed to whoever opens the page
  double second_share = 0.1;              // of settled pairs that are read a second time
  int threads = 1;                        // of the ranking
  bool json = false;                      // serve() prints {"url"} instead of a line
  std::optional<CatalogueHomes> homes{};  // where catalogues are known and made; see HouseOptions
  bool browser = false;                   // serve() opens the address in a browser
  void check() const;                     // throws Error (usage)
};

class Page {
 public:
  // Without a catalogue (an empty path) the page shows those that the machine knows. Errors:
  // those of Catalogue::open.
  Page(const std::filesystem::path& catalogue, Env& env, const PageOptions& options);

  // Never throws; what goes wrong becomes an answer with one clear sentence.
  Response handle(const Request& request);
  bool knows(const Request& request) { return !session_of(request).empty(); }
  std::string url() const { return guard_.url(); }
  std::string url_once() { return guard_.url_once(); }  // before the first request; POST /api/window after it
  const Guard& guard() const { return guard_; }
  House& house() { return house_; }

 private:
  Response answer(const Request& request, const Target& target);
  std::string session_of(const Request& request);
  nlohmann::json guests(const Request& request, const std::string& session);
  Guard guard_;
  const bool shared_;  // others are let in
  ReaderSessions readers_;
  std::mutex guard_mutex_;
  House house_;
  Env& env_;
};

}  // namespace evet::review
