#include "tools/review/reader_sessions.h"

#include <algorithm>

#include "matcher/base/error.h"
#include "tools/review/guard.h"
#include "tools/review/messages.h"
#include "tools/words/in_words.h"
#include "tools/words/items.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostSeats = 1000;

}  // namespace

ReaderSessions::ReaderSessions(const std::string& reader) {
  if (!reader.empty()) session_of_[reader] = kOwner;
}

ReaderSessions::Seat& ReaderSessions::seat_of(const std::string& session, const std::string& from,
                                              std::int64_t now_ms) {
  auto [at, fresh] = seats_.try_emplace(session);
  if (fresh) {
    // Those who never wrote and ask for nothing go first; a session has to know the passphrase to come here at all.
    if (seats_.size() > kMostSeats)
      std::erase_if(seats_, [&](const auto& one) {
        return one.first != session && one.second.reader.empty() && one.second.asks.empty();
      });
    at->second.number = ++newest_, at->second.since_ms = now_ms;
  }
  if (!from.empty()) at->second.from = from;
  at->second.heard_ms = now_ms;
  return at->second;
}

void ReaderSessions::refuse_code_of_other(const std::string& session, const std::string& reader, Seat& seat) {
  const auto holder = session_of_.find(reader);
  if (holder == session_of_.end() || holder->second == session) return;
  // The seat at the machine gives its own code to nobody.
  if (holder->second == kOwner)
    throw Error(ErrorKind::conflict, reader_item(reader), messages::kCodeIsReadUnderElsewhere,
                messages::kSignWithYourOwnCode);
  seat.asks = reader;
  throw Error(ErrorKind::conflict, reader_item(reader), messages::kCodeWaitsForYes,
              messages::kAskAtTheMachineOrSignOtherwise);
}

void ReaderSessions::check(const std::string& session, const std::string& reader, bool writes,
                           std::int64_t now_ms, const std::string& from) {
  if (reader.empty()) return;
  const std::lock_guard lock(mutex_);
  if (session == kOwner) {
    if (writes || !session_of_.contains(reader)) session_of_[reader] = session;
    return;
  }
  Seat& seat = seat_of(session, from, now_ms);
  if (!seat.reader.empty() && seat.reader != reader)
    throw Error(ErrorKind::conflict, reader_item(reader),
                Message(messages::kBrowserWroteAsReader, {{"reader", seat.reader}}),
                messages::kReadOnUnderThatCode);
  if (seat.sent_away == reader)
    throw Error(ErrorKind::conflict, reader_item(reader), messages::kSentAway, messages::kAskAtTheMachine);
  refuse_code_of_other(session, reader, seat);
  seat.asks.clear();
  if (!writes || seat.reader == reader) return;
  session_of_[reader] = session;
  seat.reader = reader;
}

std::vector<Guest> ReaderSessions::guests() const {
  const std::lock_guard lock(mutex_);
  std::vector<Guest> out;
  for (const auto& [session, seat] : seats_) {
    Guest guest;
    guest.number = seat.number, guest.from = seat.from;
    guest.since_ms = seat.since_ms, guest.heard_ms = seat.heard_ms;
    if (!seat.asks.empty()) {
      guest.reader = seat.asks, guest.stands = Guest::Stands::asks;
      const auto holder = session_of_.find(seat.asks);
      const auto held = holder == session_of_.end() ? seats_.end() : seats_.find(holder->second);
      if (held != seats_.end()) guest.holder_heard_ms = held->second.heard_ms;
    } else if (!seat.sent_away.empty()) {
      guest.reader = seat.sent_away, guest.stands = Guest::Stands::sent_away;
    } else if (!seat.reader.empty()) {
      guest.reader = seat.reader;
    } else {
      continue;  // has only looked on
    }
    out.push_back(std::move(guest));
  }
  std::sort(out.begin(), out.end(), [](const Guest& a, const Guest& b) { return a.number < b.number; });
  return out;
}

void ReaderSessions::answer(int guest, bool yes, std::int64_t now_ms) {
  const std::lock_guard lock(mutex_);
  const auto at =
      std::find_if(seats_.begin(), seats_.end(), [&](const auto& one) { return one.second.number == guest; });
  if (at == seats_.end() || (at->second.asks + at->second.sent_away + at->second.reader).empty())
    throw Error(ErrorKind::not_found, in_words(messages::kGuestItem, {{"number", std::to_string(guest)}}),
                messages::kIsNoGuest);
  auto& [session, seat] = *at;
  const std::string reader = !seat.asks.empty()        ? seat.asks
                             : !seat.sent_away.empty() ? seat.sent_away
                                                       : seat.reader;
  seat.asks.clear();
  seat.heard_ms = now_ms;
  const auto holder = session_of_.find(reader);
  if (yes) {
    // Who had the code comes to ask for it when it is heard of again.
    if (holder != session_of_.end())
      if (const auto before = seats_.find(holder->second); before != seats_.end() && before != at)
        before->second.reader.clear();
    session_of_[reader] = session;
    seat.reader = reader, seat.sent_away.clear();
    return;
  }
  if (holder != session_of_.end() && holder->second == session) session_of_.erase(holder);
  seat.reader.clear(), seat.sent_away = reader;
}

}  // namespace evet::review
