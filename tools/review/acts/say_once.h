// A retry never doubles. A write says how far its page had seen the ledger (`after`); when this reader has
// said the very same since then, and it stands, that entry is the answer. So an answer lost on the way, a
// server killed after the disk had it, a reload or a second tab do no harm, and no key has to be remembered.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "tools/review/desk.h"

namespace evet::review {

// The entry by which `actor` has said this since the page's `after`, if it stands.
std::optional<EntryId> said_before(Call& call, const Actor& actor, const Body& body);
// Writes what has not been said before, all or nothing, and answers {"entry", "position", "again"}.
nlohmann::json say_once(Call& call, const Actor& actor, const std::vector<Body>& bodies);

}  // namespace evet::review
