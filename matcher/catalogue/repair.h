// Gets a catalogue whose database is damaged, or holds what the program does not run, back to work without
// losing an entry: every entry that can still be read, as it stands, into a new database, and the tables made
// anew from them. The old database stays beside the new one, under another name. Photos are not looked at: a
// merge puts those back.
//
// Not for a ledger that does not hold together: what an entry says is not touched, and the audit says after
// as before which were altered.
#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "matcher/base/env.h"

namespace evet {

struct RepairReport {
  size_t entries = 0;                  // in the new database
  size_t unread = 0;                   // places in the old one that cannot be read
  std::vector<std::string> left_out;   // entries that no database of this format can hold, and why
  size_t parts = 0;                    // half-written photo files that were taken away
  std::filesystem::path old_database;  // what it is called now
};

// Errors: not_found where there is no database; conflict while another program writes; storage when the disk
// fails, and then the catalogue is as it was.
RepairReport repair(const std::filesystem::path& folder, Env& env);

}  // namespace evet
