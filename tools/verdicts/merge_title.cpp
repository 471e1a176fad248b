#include "tools/verdicts/merge_title.h"

#include <set>

#include "tools/verdicts/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

std::set<EntryId> beginnings(const Catalogue& catalogue) {
  std::set<EntryId> out;
  for (const ListedEntry& one : catalogue.ledger({.kind = CatalogueMade::kKind})) out.insert(one.entry.id);
  return out;
}

}  // namespace

std::vector<Against> objections_to_merge(const Catalogue& into, const Catalogue& other) {
  if (into.title() == other.title()) return {};
  const std::set<EntryId> ours = beginnings(into);
  for (const EntryId& theirs : beginnings(other))
    if (ours.contains(theirs)) return {};  // a copy, or merged before
  return {{{"another_title",
            Message(messages::kOtherTitle,
                    {{"title", in_quotes(into.title())}, {"other", in_quotes(other.title())}})
                .words(),
            {}},
           {},
           {}}};
}

}  // namespace evet
