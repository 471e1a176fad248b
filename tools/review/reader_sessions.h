// Under which codes a browser may read. A request names its reader in a header, which any script can set to
// anything; here it is held to the session that asks.
//
// Who has the printed address sits at the machine itself and may pass the seat on: any code. A browser that came
// in with the passphrase reads as the one whose code it first wrote under, and under no code of another session.
// The seat at the machine goes before: a code that is used there is taken from guests. A phone that lost its cookie
// comes back as a browser of its own, and so would anybody who knows the passphrase: it reads on under that code
// only when who sits at the machine says yes. There every guest is listed, and can be sent away.
#pragma once
#include <cstdint>
#include <map>
#include <mutex>
#include <set>
#include <string>
#include <vector>

namespace evet::review {

struct Guest {
  enum class Stands { reads, asks, sent_away };
  int number = 0;      // of this guest, as who sits at the machine sees it
  std::string reader;  // the code
  std::string from;    // address
  Stands stands = Stands::reads;
  std::int64_t since_ms = 0, heard_ms = 0;
  std::int64_t holder_heard_ms = 0;  // of one that asks: when the browser that has the code was heard of last
};

class ReaderSessions {
 public:
  // `reader`: the code that is the machine's own from the start; may be empty.
  explicit ReaderSessions(const std::string& reader = {});
  // Errors: conflict, when this session may not read as `reader`. An empty code is nobody's.
  void check(const std::string& session, const std::string& reader, bool writes, std::int64_t now_ms,
             const std::string& from = {});
  std::vector<Guest> guests() const;  // by number
  // From the seat at the machine: it is who it says, or it is not. Errors: not_found.
  void answer(int guest, bool yes, std::int64_t now_ms);

 private:
  struct Seat {  // of a guest
    int number = 0;
    std::string reader, from, asks, sent_away;  // codes; empty: none
    std::int64_t since_ms = 0, heard_ms = 0;
  };
  Seat& seat_of(const std::string& session, const std::string& from, std::int64_t now_ms);
  void refuse_code_of_other(const std::string& session, const std::string& reader, Seat& seat);

  mutable std::mutex mutex_;
  std::map<std::string, std::string> session_of_;  // by code
  std::map<std::string, Seat> seats_;              // of guests, by session
  int newest_ = 0;
};

}  // namespace evet::review
