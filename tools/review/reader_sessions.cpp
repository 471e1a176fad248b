#include "tools/review/reader_sessions.h"

#include "matcher/base/error.h"
#include "tools/review/guard.h"

namespace evet::review {

void ReaderSessions::check(const std::string& session, const std::string& reader, bool writes) {
  if (reader.empty()) return;
  const std::lock_guard lock(mutex_);
  if (session == kOwner) {
    if (writes) session_of_[reader] = session;
    return;
  }
  if (const auto own = code_of_.find(session); own != code_of_.end() && own->second != reader)
    throw Error(ErrorKind::conflict, "reader " + reader, "this browser has written as reader " + own->second,
                "read on under that code; for another, open the page in another browser or a private window");
  if (const auto taken = session_of_.find(reader); taken != session_of_.end() && taken->second != session)
    throw Error(ErrorKind::conflict, "reader " + reader, "somebody reads under that code in another browser",
                "sign with your own code");
  if (!writes) return;
  session_of_[reader] = session;
  code_of_[session] = reader;
}

}  // namespace evet::review
