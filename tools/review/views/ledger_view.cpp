#include <algorithm>

#include "matcher/base/error.h"
#include "matcher/base/moment.h"
#include "tools/review/capture_words.h"
#include "tools/review/views/views.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::int64_t kOneScreen = 100;

nlohmann::json sentence_parts(const Entry& entry, const Identities& who) {
  nlohmann::json body = nlohmann::json::parse(entry.body);
  const auto named = [&](const char* field) -> nlohmann::json {
    if (!body.contains(field) || !body[field].is_string()) return nullptr;
    const CaptureState* capture = who.capture(CaptureId(body[field].get<std::string>()));
    return capture == nullptr ? nlohmann::json() : nlohmann::json(display_name(capture->facts));
  };
  nlohmann::json out = {{"capture_name", named("capture")}, {"other_name", named("other")}};
  for (const char* field : {"answer", "reason", "label", "title", "sheet", "target", "usable", "blind",
                            "capture", "other", "name", "entries", "photos"})
    if (body.contains(field)) out[field] = body[field];
  return out;
}

}  // namespace

nlohmann::json ledger_view(Call& call) {
  Catalogue& catalogue = call.desk.catalogue;
  const std::string as_of = call.query("as_of");
  if (!as_of.empty() && !is_date(as_of))
    throw Error(ErrorKind::bad_input, "as_of " + evet::quoted(as_of), "it is not a date",
                "write it as 2031-05-01");
  const std::string before_text = call.query("before");
  if (before_text.size() > 15 || before_text.find_first_not_of("0123456789") != std::string::npos)
    throw Error(ErrorKind::bad_input, "before " + evet::quoted(before_text),
                "it is not a position in the ledger");
  const std::int64_t newest = catalogue.ledger({.limit = 1, .newest_first = true}).front().position;
  const std::string head = catalogue.head_hash();
  // As of a day, all is shown as it was known then: what was taken back later still counts.
  const Identities& now = catalogue.identities();
  const Identities then = as_of.empty() ? Identities() : catalogue.identities_as_of(as_of);
  const Identities& asked = as_of.empty() ? now : then;
  nlohmann::json stood;
  if (!as_of.empty()) {
    std::size_t settled = 0;
    for (const CaptureState& capture : then.captures) settled += capture.individual ? 1 : 0;
    stood = {{"as_of", as_of},
             {"captures", then.captures.size()},
             {"settled", settled},
             {"individuals", then.individuals.size()},
             {"disputes", then.disputes.size()}};
  }
  // Newest first, one screen at a time.
  const LedgerQuery query{
      .kind = call.query("kind"),
      .actor = call.query("actor"),
      .until = as_of,
      .before_position = before_text.empty() ? newest + 1 : std::max(1LL, std::stoll(before_text)),
      .limit = kOneScreen,
      .newest_first = true};
  nlohmann::json list = nlohmann::json::array();
  for (const ListedEntry& one : catalogue.ledger(query)) {
    list.push_back({{"position", one.position},
                    {"entry", one.entry.id.value},
                    {"time", one.entry.time},
                    {"actor", one.entry.actor.name},
                    {"program", one.entry.actor.kind == ActorKind::program},
                    {"kind", one.entry.kind},
                    {"what", sentence_parts(one.entry, now)},
                    {"stands", asked.in_force(one.entry.id)},
                    {"hash", one.entry.hash.substr(0, 12)}});
  }
  return {
      {"entries", list}, {"newest", newest}, {"head_hash", head}, {"stood", stood}, {"screen", kOneScreen}};
}

}  // namespace evet::review
