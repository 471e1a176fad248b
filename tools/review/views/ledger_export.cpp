#include <algorithm>

#include "matcher/base/csv.h"
#include "matcher/base/printable.h"
#include "tools/review/views/ledger_asked.h"
#include "tools/review/views/views.h"

namespace evet::review {

// All entries that the page's filters let through, oldest first, each with its body and hash whole.
Response ledger_export(Call& call) {
  const std::lock_guard lock(call.desk.mutex);
  Catalogue& catalogue = call.desk.catalogue;
  std::vector<ListedEntry> entries = entries_asked(catalogue, ledger_asked(call), -1);
  std::reverse(entries.begin(), entries.end());
  const Identities& who = catalogue.identities();
  std::string csv = "position,entry,time,actor,actor_kind,kind,stands,device,seq,prev,hash,body\r\n";
  for (const ListedEntry& one : entries) {
    const Entry& entry = one.entry;
    csv += std::to_string(one.position);
    for (const std::string& text :
         {entry.id.value, entry.time, entry.actor.name, std::string(name(entry.actor.kind)), entry.kind,
          std::string(who.in_force(entry.id) ? "yes" : "no"), entry.device.value, std::to_string(entry.seq),
          entry.prev, entry.hash, entry.body})
      csv += "," + csv_field(printable(text));
    csv += "\r\n";
  }
  return {.type = "text/csv; charset=utf-8",
          .body = std::move(csv),
          .headers = {{"Content-Disposition", "attachment; filename=\"ledger.csv\""}}};
}

}  // namespace evet::review
