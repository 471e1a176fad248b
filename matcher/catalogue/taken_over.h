// A database from elsewhere becomes one of this machine's before anything is added to it: what a process apart
// could read of it, entry by entry, written anew in its place, with the tables made from the ledger. So SQLite in
// this process never works on bytes that somebody else wrote, and what the tables say is what the ledger says.
#pragma once
#include <filesystem>

#include "matcher/base/env.h"
#include "matcher/catalogue/read_apart.h"
#include "matcher/catalogue/store.h"

namespace evet {

// What was read apart, in memory. With `tables` what is looked up there is made from the ledger. One entry that
// does not fit beside another (two under one id) is left out where `lenient`, for an audit, which is told of it
// otherwise. Errors: bad_input.
Store store_of(const std::filesystem::path& file, const LedgerApart& ledger, bool tables,
               bool lenient = false);

// Errors: those of ReadersApart::ledger; storage where another program keeps it busy. Then it is as it was.
void take_over(const std::filesystem::path& file, Env& env, const ReadersApart& readers, int busy_timeout_ms);

}  // namespace evet
