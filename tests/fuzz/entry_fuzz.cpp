// Any bytes as the body of an entry, and any ledger made of such: an Error or a value that says the same
// again when written and read back; a fold that does not care for the order; never a crash.
//
// The first byte chooses: any text at all as JSON; a right body of some kind with some bytes of it changed;
// or a ledger, three bytes a verdict.
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>

#include "matcher/base/error.h"
#include "matcher/catalogue/agreement.h"
#include "matcher/catalogue/canonical_json.h"
#include "matcher/catalogue/histories.h"
#include "matcher/catalogue/ledger_check.h"
#include "tests/matcher/catalogue/every_kind.h"
#include "tests/matcher/catalogue/hand_ledger.h"
#include "tests/matcher/catalogue/sample_pond.h"

namespace {

using namespace evet;

void require(bool holds) {
  if (!holds) std::abort();
}

void any_text(const std::string& text) {
  try {
    const std::string once = canonical_json(read_json(text));
    require(canonical_json(read_json(once)) == once);
  } catch (const Error&) {
  }
}

void any_body(const std::vector<Body>& samples, std::uint8_t which, const std::uint8_t* data,
              std::size_t size) {
  const Body& sample = samples[which % samples.size()];
  Entry entry;
  entry.kind = kind_of(sample);
  entry.body = body_text(sample);
  for (std::size_t i = 0; i + 3 <= size; i += 3) {
    const std::size_t at = (data[i] | (data[i + 1] & 3u) << 8) % (entry.body.size() + 1);
    const char byte = static_cast<char>(data[i + 2]);
    switch (data[i + 1] >> 6) {
      case 0:
        entry.body.insert(at, 1, byte);
        break;
      case 1:
        if (at < entry.body.size()) entry.body[at] = byte;
        break;
      case 2:
        entry.body.erase(at, 1 + data[i + 2] % 16);
        break;
      default:
        entry.body.insert(at, entry.body.substr(data[i + 2] % (entry.body.size() + 1), 8));
    }
  }
  entry.hash = hash_of(entry);
  LedgerCheck check;
  check.take(entry);
  check.findings();
  try {
    const Body body = body_of(entry);
    const std::string text = body_text(body);
    Entry again = entry;
    again.body = text;
    require(body_text(body_of(again)) == text);
    const Statements statements = statements_of({&entry, 1});
    const Identities who = fold(statements);
    agreement(statements, who);
    capture_histories(statements, who);
  } catch (const Error&) {
  }
}

void any_ledger(const std::uint8_t* data, std::size_t size) {
  try_out::HandLedger ledger;
  std::vector<CaptureId> captures;
  for (int i = 0; i < 6; ++i)
    captures.push_back(ledger.capture("2031-05-0" + std::to_string(1 + i % 4), "c" + std::to_string(i),
                                      i < 2 ? "TAG-" + std::to_string(i) : ""));
  for (std::size_t i = 0; i + 3 <= size && i < 150; i += 3) {
    const CaptureId &a = captures[data[i] % 6], &b = captures[data[i] / 6 % 6];
    const std::string device(1, static_cast<char>('a' + data[i + 1] % 3));
    const Actor actor = data[i + 1] & 4 ? try_out::program() : try_out::person(data[i + 1] & 8 ? "R1" : "R2");
    const EntryId& target = ledger.entries[data[i + 2] / 8 % ledger.entries.size()].id;
    Verdict verdict{.capture = a, .other = b, .answer = static_cast<Answer>(data[i + 2] & 3)};
    verdict.blind = data[i + 1] & 16, verdict.planted = (data[i + 1] & 224) == 224;
    if (verdict.answer == Answer::new_individual) verdict.other = CaptureId();
    if (data[i + 1] & 32) verdict.settles = {target};
    switch (data[i + 2] & 7) {
      case 7:
        ledger.say(actor, Withdrawal{target}, device);
        break;
      case 6:
        ledger.hear(device);
        break;
      default:
        if (a != verdict.other) ledger.say(actor, verdict, device);
    }
  }
  const Statements statements = ledger.statements();
  const Identities who = ledger.fold();
  std::reverse(ledger.entries.begin(), ledger.entries.end());
  require(try_out::told(ledger.fold()) == try_out::told(who));
  agreement(statements, who);
  try {
    capture_histories(statements, who).histories.check();
  } catch (const Error&) {
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const std::vector<Body> samples = try_out::EveryKind().bodies();
  if (size < 2) return 0;
  if (data[0] % 3 == 0)
    any_text(std::string(reinterpret_cast<const char*>(data + 1), size - 1));
  else if (data[0] % 3 == 1)
    any_body(samples, data[1], data + 2, size - 2);
  else
    any_ledger(data + 1, size - 1);
  return 0;
}
