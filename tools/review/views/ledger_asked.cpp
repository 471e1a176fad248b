#include "tools/review/views/ledger_asked.h"

#include <algorithm>
#include <map>

#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "matcher/base/uuid.h"
#include "matcher/catalogue/messages.h"
#include "tools/review/messages.h"
#include "tools/words/items.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::int64_t kAtOnce = 500;  // entries read before those that do not fit are left out

std::string date_in(const Call& call, const char* field) {
  const std::string text = call.query(field);
  if (!text.empty() && !is_date(text))
    throw Error(ErrorKind::bad_input, std::string(field) + " " + in_quotes(text), messages::kIsNotDateReview,
                messages::kWriteAs0501);
  return text;
}
std::string uuid_in(const Call& call, const char* field) {
  const std::string text = call.query(field);
  if (!text.empty() && !is_uuid7(text))
    throw Error(ErrorKind::bad_input, std::string(field) + " " + in_quotes(text), messages::kIsNotIdentifier);
  return text;
}

bool fits(const LedgerAsked& asked, const ListedEntry& one) {
  const std::string date = one.entry.time.substr(0, 10);
  return (asked.day.empty() || date == asked.day) && (asked.as_of.empty() || date <= asked.as_of) &&
         (asked.kind.empty() || one.entry.kind == asked.kind) &&
         (asked.actor.empty() || one.entry.actor.name == asked.actor) &&
         (asked.before == 0 || one.position < asked.before);
}

// Of an individual: what speaks of any of its captures, each entry once.
std::vector<ListedEntry> of_individual(Catalogue& catalogue, const LedgerAsked& asked, std::int64_t at_most) {
  const Individual* individual = catalogue.identities().individual(asked.individual);
  if (individual == nullptr)
    throw Error(ErrorKind::not_found, individual_item(asked.individual.value), messages::kIsNotInCatalogue);
  const std::vector<CaptureId> captures = individual->captures;
  std::map<std::int64_t, ListedEntry> by_position;
  for (const CaptureId& capture : captures)
    for (ListedEntry& one : catalogue.ledger({.kind = asked.kind, .capture = capture}))
      if (fits(asked, one)) by_position.emplace(-one.position, std::move(one));
  std::vector<ListedEntry> out;
  for (auto& [position, one] : by_position) {
    if (at_most >= 0 && static_cast<std::int64_t>(out.size()) == at_most) break;
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace

LedgerAsked ledger_asked(const Call& call) {
  const std::string before = call.query("before");
  if (before.size() > 15 || before.find_first_not_of("0123456789") != std::string::npos)
    throw Error(ErrorKind::bad_input, "before " + in_quotes(before), messages::kIsNotPositionInLedger);
  LedgerAsked asked;
  asked.as_of = date_in(call, "as_of"), asked.day = date_in(call, "day");
  asked.kind = call.query("kind"), asked.actor = call.query("actor");
  asked.capture = CaptureId(uuid_in(call, "capture"));
  asked.individual = IndividualId(uuid_in(call, "individual"));
  asked.before = before.empty() ? 0 : std::max(1LL, std::stoll(before));
  return asked;
}

std::vector<ListedEntry> entries_asked(Catalogue& catalogue, const LedgerAsked& asked, std::int64_t at_most) {
  if (!asked.individual.empty()) return of_individual(catalogue, asked, at_most);
  LedgerQuery query{.kind = asked.kind,
                    .capture = asked.capture,
                    .actor = asked.actor,
                    .until = asked.day.empty() ? asked.as_of : asked.day,
                    .before_position = asked.before == 0 ? newest_position(catalogue) + 1 : asked.before,
                    .limit = kAtOnce,
                    .newest_first = true};
  std::vector<ListedEntry> out;
  for (;;) {
    const std::vector<ListedEntry> some = catalogue.ledger(query);
    for (const ListedEntry& one : some) {
      if (!fits(asked, one)) continue;
      out.push_back(one);
      if (at_most >= 0 && static_cast<std::int64_t>(out.size()) == at_most) return out;
    }
    if (static_cast<std::int64_t>(some.size()) < kAtOnce) return out;
    query.before_position = some.back().position;
  }
}

}  // namespace evet::review
