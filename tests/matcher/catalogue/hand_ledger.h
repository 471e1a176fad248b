// A ledger written by hand: entries without a database, in one line each, for tests of the fold and of what
// follows from it. Ids count up, so that a later line is a later entry.
#pragma once
#include <cstdio>
#include <map>
#include <string>
#include <vector>

#include "matcher/catalogue/fold.h"
#include "tests/matcher/catalogue/try_out.h"

namespace evet::try_out {

class HandLedger {
 public:
  std::vector<Entry> entries;

  EntryId say(const Actor& actor, const Body& body, const std::string& device = "a") {
    Entry entry;
    entry.id = EntryId(uuid(++count_));
    entry.device = DeviceId(device);
    entry.seq = ++seq_[device];
    char time[40];
    std::snprintf(time, sizeof time, "2031-05-%02dT%02d:%02d:00.000+02:00", 1 + count_ / 1440,
                  count_ / 60 % 24, count_ % 60);
    entry.time = time;
    entry.actor = actor;
    entry.kind = kind_of(body);
    entry.body = body_text(body);
    entries.push_back(entry);
    return entry.id;
  }
  CaptureId capture(const CaptureFacts& facts, const std::string& device = "a") {
    const CaptureId id(uuid(++captures_, 'c'));
    say(person("OB1"), Capture{id, facts}, device);
    return id;
  }
  CaptureId capture(const std::string& night, const std::string& name, const std::string& individual = {}) {
    return capture(facts(night, name, individual));
  }
  EntryId verdict(const std::string& reader, const CaptureId& capture, Answer answer,
                  const CaptureId& other = {}, const std::string& device = "a") {
    return say(person(reader), Verdict{.capture = capture, .other = other, .answer = answer}, device);
  }
  EntryId fresh(const CaptureId& capture, const std::string& reader = "R1") {
    return verdict(reader, capture, Answer::new_individual);
  }
  EntryId same(const CaptureId& capture, const CaptureId& other, const std::string& reader = "R1") {
    return verdict(reader, capture, Answer::same, other);
  }
  EntryId different(const CaptureId& capture, const CaptureId& other, const std::string& reader = "R1") {
    return verdict(reader, capture, Answer::different, other);
  }
  EntryId withdraw(const EntryId& target, const std::string& reader = "R1") {
    return say(person(reader), Withdrawal{target});
  }
  // What device `knower` hears of the others: everything so far.
  EntryId hear(const std::string& knower) {
    Merge merge{.reason = "merged"};
    for (const auto& [device, seq] : seq_)
      if (device != knower) merge.heads[DeviceId(device)] = {seq, "-"};
    return say(person("OB1"), merge, knower);
  }
  Identities fold() const { return evet::fold(statements_of(entries)); }
  Statements statements() const { return statements_of(entries); }

 private:
  static std::string uuid(int number, char first = '0') {
    char text[37];
    std::snprintf(text, sizeof text, "%c0000000-0000-7000-8000-%012x", first, static_cast<unsigned>(number));
    return text;
  }
  int count_ = 0, captures_ = 0;
  std::map<std::string, std::int64_t> seq_;
};

}  // namespace evet::try_out
