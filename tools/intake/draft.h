// An evening before it is taken in: photos that have come, gathered into captures, and what was written of them.
//
// A plain value. Nothing here is judged: what is written stays text until draft_check.h holds it to the rules
// of every night sheet. Photos come in any order and are gathered by time; a capture on which a person has put
// a hand (a photo dragged, a cell written) keeps its photos, all others are gathered anew.
#pragma once
#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "matcher/base/ids.h"
#include "matcher/belly/quality.h"
#include "tools/intake/time_groups.h"

namespace evet {

inline constexpr std::size_t kMostDraftPhotos = 2000;
inline constexpr std::size_t kLongestCell = 1000;  // bytes

struct DraftPhoto {
  std::string name;  // of its file in the draft's photos folder, and on the sheet
  std::string from;  // what it was called where it came from
  PhotoId id;
  std::int64_t bytes = 0;
  std::int64_t modified_ms = 0;  // of the file, as the sender says: tells it again without reading it
  std::string taken_at;          // by the camera's clock; empty when it wrote none
  bool left_out = false;         // not of this evening: kept, and on no capture
  bool judged = false;           // whether it can be matched is known
  bool usable = false;
  std::vector<QualityNote> notes;
};

using Cells = std::map<std::string, std::string>;  // column of the sheet -> text as it was written

struct DraftCapture {
  std::string key;                  // "k7": stays while the capture does
  std::vector<std::string> photos;  // names
  Cells cells;
  bool by_hand = false;         // a person chose its photos
  bool nothing_caught = false;  // no animal: the place was worked and nothing was caught
};

struct Draft {
  std::int64_t revision = 0;
  int next_key = 1;
  int gap_seconds = kUsualGapSeconds;
  Cells common;  // written for the whole evening: holds where a capture says nothing else
  std::vector<DraftPhoto> photos;
  std::vector<DraftCapture> captures;  // in order of time

  const DraftPhoto* photo(const std::string& name) const;
  const DraftPhoto* photo(const PhotoId& id) const;
  const DraftCapture* capture(const std::string& key) const;
};

// Acts on a draft. Errors: not_found for a photo or capture that is not there, bad_input for a value that
// cannot be, too_large beyond a bound; the draft is as it was then.
void add_photo(Draft& draft, DraftPhoto photo);
void set_gap(Draft& draft, int seconds);  // gathers anew
// Into the capture `key`; into one of their own where it is empty.
void move_photos(Draft& draft, const std::vector<std::string>& photos, const std::string& key);
void leave_out(Draft& draft, const std::vector<std::string>& photos, bool out);
void forget_photos(Draft& draft, const std::vector<std::string>& photos);
// `key` empty: for the whole evening. Of a capture an empty text means: as the whole evening.
void write_cell(Draft& draft, const std::string& key, const std::string& column, const std::string& text);
void set_nothing_caught(Draft& draft, bool nothing);
// What may stand in a cell at all: one line of text in a column of the sheet. Errors: as write_cell().
void check_cell(const std::string& column, const std::string& text);

// A file name from outside as one that is safe on every disk and plain on a sheet: without folders, control
// characters and leading dots, 100 bytes at most. Errors: bad_input where nothing of it is left.
std::string safe_photo_name(std::string_view name);
// `name`, or "IMG 1 (2).jpg" where a photo of another content has it.
std::string free_name(const Draft& draft, const std::string& name);

void to_json(nlohmann::json& json, const Draft& draft);
// Parsed and bounded: the folder may come from elsewhere. Errors: bad_input.
Draft draft_from(const nlohmann::json& json);

}  // namespace evet
