// Under which codes a browser may read. A request names its reader in a header, which any script can set to
// anything; here it is held to the session that asks.
//
// Who has the printed address sits at the machine itself and may pass the seat on: any code. A browser that came
// in with the passphrase reads as the one whose code it first wrote under, and under no code of another session.
// The seat at the machine goes before: a code that is used there is taken from guests. A phone that lost its cookie
// comes back as a browser of its own: a guest's code is free again when its browser has been silent for a while.
#pragma once
#include <cstdint>
#include <map>
#include <mutex>
#include <string>

namespace evet::review {

class ReaderSessions {
 public:
  static constexpr std::int64_t kSilentMs = 10 * 60'000;

  // Errors: conflict, when this session may not read as `reader`. An empty code is nobody's.
  void check(const std::string& session, const std::string& reader, bool writes, std::int64_t now_ms);

 private:
  bool held_by_other(const std::string& session, const std::string& reader, std::int64_t now_ms) const;

  std::mutex mutex_;
  std::map<std::string, std::string> session_of_;  // by code
  std::map<std::string, std::string> code_of_;     // of guests, by session
  std::map<std::string, std::int64_t> heard_ms_;   // of those guests, when last
};

}  // namespace evet::review
