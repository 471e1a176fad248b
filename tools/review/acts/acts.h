// What readers say, written to the ledger: every act of the page is here, and nothing else writes. What is
// said twice is written once: see say_once.h.
#pragma once
#include <nlohmann/json.hpp>

#include "tools/review/desk.h"
#include "tools/verdicts/messages.h"

namespace evet::review {

// What a refusal for want of a reason says would be right.
inline constexpr MessageText kSayWhy = messages::kLookAtPicturesAgain;

// {"capture", "other"?, "answer", "reason", "in_spite_of"?: [CODE], "generation"?, "after"}. What speaks
// against it has to be among those codes, and needs the reason: see tools/verdicts/objections.h.
nlohmann::json give_verdict(Call& call);
// {"capture", "as": "no_animal" | "not_identifiable" | "same_capture", "other"?, "reason", "in_spite_of"?,
// "after"}: an unusable capture is closed.
nlohmann::json close_capture(Call& call);
// {"captures": [ID], "generation", "after"}: the program's advice on these is taken, in the program's name.
nlohmann::json accept_advice(Call& call);
// {"target", "after"}: the entry is withdrawn; of a withdrawal: what it withdrew stands again.
nlohmann::json take_back(Call& call);
// {"photo", "capture", "points": [[x, y]...], "reason"?, "in_spite_of"?, "after"}: pixels of the full-size
// upright photo, throat first. A line that lies off the body needs a reason.
nlohmann::json draw_midline(Call& call);
// {"photo", "capture", "after"}: the strip is read from its other end.
nlohmann::json turn_strip(Call& call);
// {"photo", "capture", "usable", "reason", "after"}: sets a photo aside, or takes it in again.
nlohmann::json set_usable(Call& call);
// {"capture", "usable", "reason", "after"}: a blind judgement of the photos, before the candidate is shown.
nlohmann::json read_photos(Call& call);
// {"capture", "other", "answer", "reason", "settles": [ENTRY], "after"}: by a reader who gave none of these.
nlohmann::json adjudicate(Call& call);

// {"individual", "label", "after"}: its name from now on; the old one stays in the ledger.
nlohmann::json give_label(Call& call);
// {"capture", "notes", "after"}: a correction of its notes; empty takes them away.
nlohmann::json give_notes(Call& call);
// {"site", "pond", "night", "texts": {KEY: TEXT}, "reason"?, "after"}: see tools/words/night_fields.h.
nlohmann::json give_night_facts(Call& call);
// {"from": {"site", "pond", "night"}, "to": the same, "reason", "after"}: all that was said of that night.
nlohmann::json move_night(Call& call);
// {"wrong_join", "look", "after"}: in missed joins; what advice is given by from now on.
nlohmann::json set_costs(Call& call);
// Of an evening that is not taken in yet; nothing of these is in the ledger. Each answers what evening_view does.
Response take_piece(Call& call);      // bytes; ?upload=, ?name=, ?at=, ?size=, ?modified=: see Evening
Response write_cells(Call& call);     // {"cells": [{"capture", "column", "text"}]}
Response move_photos(Call& call);     // {"photos": [NAME], "to": KEY or ""}
Response set_gap(Call& call);         // {"seconds"}
Response leave_out(Call& call);       // {"photos": [NAME], "out"}
Response remove_photos(Call& call);   // {"photos": [NAME]}: for good, of those left out
Response nothing_caught(Call& call);  // {"nothing"}
Response watch_folder(Call& call);    // {}: a folder that photos are taken from
Response take_night(Call& call);      // {"in_spite"?}: begins to take the night in

}  // namespace evet::review
