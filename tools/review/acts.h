// What readers say, written to the ledger: every act of the page is here, and nothing else writes.
//
// A retry never doubles. A write says how far its page had seen the ledger (`after`); when this reader has
// said the very same since then, and it stands, that entry is the answer. So an answer lost on the way, a
// server killed after the disk had it, a reload or a second tab do no harm, and no key has to be remembered.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "tools/review/desk.h"

namespace evet::review {

// {"capture", "other"?, "answer", "reason", "generation"?, "after"}
nlohmann::json give_verdict(Call& call);
// {"captures": [ID], "generation", "after"}: the program's advice on these is taken, in the program's name.
nlohmann::json accept_advice(Call& call);
// {"target", "after"}: the entry is withdrawn; of a withdrawal: what it withdrew stands again.
nlohmann::json take_back(Call& call);
// {"photo", "capture", "points": [[x, y]...], "after"}: pixels of the full-size upright photo, throat first.
nlohmann::json draw_midline(Call& call);
// {"photo", "capture", "usable", "reason", "after"}: sets a photo aside, or takes it in again.
nlohmann::json set_usable(Call& call);
// {"capture", "usable", "reason", "after"}: a blind judgement of the photos, before the candidate is shown.
nlohmann::json read_photos(Call& call);
// {"capture", "other", "answer", "reason", "settles": [ENTRY], "after"}: by a reader who gave none of these.
nlohmann::json adjudicate(Call& call);

// What "undo" and "redo" would do now for this reader: {"undo": null | {"target", "sentence", "capture"},
// "redo": likewise}.
nlohmann::json steps_back(Catalogue& catalogue, const std::string& reader);

// The entry by which `actor` has said this since the page's `after`, if it stands.
std::optional<EntryId> said_before(Call& call, const Actor& actor, const Body& body);
// Writes what has not been said before, all or nothing, and answers {"entry", "position", "again"}.
nlohmann::json say_once(Call& call, const Actor& actor, const std::vector<Body>& bodies);
std::int64_t newest_position(const Catalogue& catalogue);

}  // namespace evet::review
