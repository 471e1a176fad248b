// One entry of the ledger: who said what, when, on which device, chained by SHA-256 to what
// that device said before.
//
// `hash` is the SHA-256 of the canonical JSON (RFC 8785) of the object
//   {"actor", "actor_kind", "body", "device", "id", "kind", "prev", "seq", "time"},
// `prev` the hash of the device's entry seq - 1, or empty for seq 1. See FORMAT.md.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <variant>

#include "matcher/base/ids.h"
#include "matcher/catalogue/capture.h"
#include "matcher/catalogue/closing.h"
#include "matcher/catalogue/night_facts.h"
#include "matcher/catalogue/photo_taken.h"
#include "matcher/catalogue/reading.h"
#include "matcher/catalogue/records.h"
#include "matcher/catalogue/verdict.h"

namespace evet {

enum class ActorKind { person, program };

// Who speaks: a person by the code they sign with, or the program by its name and version.
struct Actor {
  ActorKind kind = ActorKind::person;
  std::string name;
  friend auto operator<=>(const Actor&, const Actor&) = default;
};
const char* name(ActorKind kind);  // "person", "program"

using Body = std::variant<CatalogueMade, NightIntake, Capture, Correction, PhotoTaken, Reexamined, Verdict,
                          Reading, LabelGiven, Closing, Withdrawal, Merge, Calibration, NightFactsSaid>;

struct Entry {
  EntryId id;  // UUIDv7; sorts after every entry that its device knew
  DeviceId device;
  std::int64_t seq = 0;  // 1, 2, 3, ... on its device
  std::string time;      // ISO 8601 with offset
  Actor actor;
  std::string kind;
  std::string body;  // canonical JSON
  std::string prev, hash;
};

std::string kind_of(const Body& body);
std::string body_text(const Body& body);  // canonical JSON
// Errors: unsupported for a kind that this version does not know, bad_input for a body that
// does not fit its kind.
Body body_of(const Entry& entry);
// The body of an entry that the fold takes into account; nothing, and `why`, of one that it sets aside: a
// body that does not fit, or an id that is none or lies beyond any clock. Errors: unsupported, since to set
// aside what a newer version says might be wrong.
std::optional<Body> readable(const Entry& entry, std::string* why = nullptr);
// What is wrong with an entry's id and actor; empty when nothing is.
std::string wrong_with_signing(const EntryId& id, const Actor& actor);
// Every id that counts is smaller: of the year 2200. The greatest of all would leave none
// for what comes later.
inline constexpr const char* kIdBound = "0699e991-a800-7000-8000-000000000000";

std::string hash_of(const Entry& entry);  // from all other fields

}  // namespace evet
