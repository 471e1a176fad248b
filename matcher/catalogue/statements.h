// What the entries say, parsed: the input of the fold. Plain values; the order of each
// list carries no meaning.
#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "matcher/catalogue/entry.h"

namespace evet {

// Who said it, when and where.
struct Stamp {
  EntryId id;
  DeviceId device;
  std::int64_t seq = 0;
  std::string time;  // as in Entry
  Actor actor;
};

template <class What>
struct Said {
  Stamp stamp;
  What what;
};

// The part of a photo's entry that identities and histories need; Catalogue::photo() gives all of it.
struct PhotoSaid {
  PhotoId photo;
  CaptureId capture;
  std::string name;
  bool usable = false;
};
struct UsableSaid {  // of a Reexamined
  PhotoId photo;
  bool usable = false;
};

// An entry that stays in the ledger and says nothing, since it cannot be read.
struct SetAside {
  EntryId entry;
  std::string why;
  friend auto operator<=>(const SetAside&, const SetAside&) = default;
};

struct Statements {
  std::vector<Said<Capture>> captures;
  std::vector<Said<PhotoSaid>> photos;
  std::vector<Said<Verdict>>
      verdicts;  // without `evidence` and `in_spite_of` when they come from a catalogue
  std::vector<Said<UsableSaid>> examinations;
  std::vector<Said<Correction>> corrections;
  std::vector<Said<LabelGiven>> labels;
  std::vector<Said<Closing>> closings;
  std::vector<Said<Withdrawal>> withdrawals;
  std::vector<Said<Merge>> merges;
  std::vector<Said<NightIntake>> intakes;
  std::vector<SetAside> set_aside;
};

Stamp stamp_of(const Entry& entry);
void add(Statements& statements, const Stamp& stamp, const Body& body);
// The same of an entry whose body has still to be read; one that cannot be is set aside. Errors: unsupported.
void add(Statements& statements, const Entry& entry);
Statements statements_of(std::span<const Entry> entries);

// What had been said by the end of `as_of`: a date ("2031-05-01": entries whose own date is not later) or a
// moment with offset. Errors: bad_input when it is neither.
Statements as_it_stood(const Statements& statements, const std::string& as_of);

}  // namespace evet
