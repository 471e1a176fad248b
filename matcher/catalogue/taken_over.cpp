#include "matcher/catalogue/taken_over.h"

#include <spdlog/spdlog.h>

#include "matcher/base/error.h"
#include "matcher/catalogue/messages.h"
#include "matcher/catalogue/own_databases.h"

namespace evet {

Store store_of(const std::filesystem::path& file, const LedgerApart& ledger, bool tables, bool lenient) {
  Store store = Store::in_memory(file);
  store.transaction([&] {
    for (const StoredEntry& stored : ledger.entries) try {
        store.insert(stored.entry);
      } catch (const Error& error) {
        if (!lenient || error.kind() != ErrorKind::bad_input) throw;
      }
    store.set_here("device", ledger.device);
    store.set_here("device_file", ledger.device_file);
    if (tables) store.rebuild_projections();
  });
  return store;
}

void take_over(const std::filesystem::path& file, Env& env, const ReadersApart& readers,
               int busy_timeout_ms) {
  constexpr int kAttempts = 5;  // another program may add an entry meanwhile
  for (int attempt = 0; attempt < kAttempts; ++attempt) {
    const LedgerApart ledger = readers.ledger(file, false, busy_timeout_ms);
    if (!store_of(file, ledger, true).put_into(file, ledger.state, busy_timeout_ms)) continue;
    remember_as_own(file, env);
    spdlog::info(Message(messages::kWrittenAnew, {{"file", file.string()}}).words());
    return;
  }
  throw Error(ErrorKind::storage, file.string(), messages::kAnotherProgramIsWritingCatalogue,
              messages::kWaitUntilIsDoneAnd);
}

}  // namespace evet
