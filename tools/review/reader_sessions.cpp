#include "tools/review/reader_sessions.h"

#include "matcher/base/error.h"
#include "tools/review/guard.h"
#include "tools/review/messages.h"

namespace evet::review {

bool ReaderSessions::held_by_other(const std::string& session, const std::string& reader,
                                   std::int64_t now_ms) const {
  const auto holder = session_of_.find(reader);
  if (holder == session_of_.end() || holder->second == session) return false;
  const auto heard = heard_ms_.find(holder->second);  // the seat at the machine is never silent
  return heard == heard_ms_.end() || now_ms - heard->second < kSilentMs;
}

void ReaderSessions::check(const std::string& session, const std::string& reader, bool writes,
                           std::int64_t now_ms) {
  if (reader.empty()) return;
  const std::lock_guard lock(mutex_);
  if (session == kOwner) {
    if (writes) session_of_[reader] = session;
    return;
  }
  const auto own = code_of_.find(session);
  if (own != code_of_.end() && own->second != reader)
    throw Error(ErrorKind::conflict, "reader " + reader,
                Message(messages::kBrowserWroteAsReader, {{"reader", own->second}}),
                messages::kReadOnUnderThatCode);
  if (held_by_other(session, reader, now_ms))
    throw Error(ErrorKind::conflict, "reader " + reader, messages::kCodeIsReadUnderElsewhere,
                messages::kSignWithYourOwnCode);
  if (own != code_of_.end()) heard_ms_[session] = now_ms;
  if (!writes) return;
  session_of_[reader] = session;
  code_of_[session] = reader;
  heard_ms_[session] = now_ms;
}

}  // namespace evet::review
