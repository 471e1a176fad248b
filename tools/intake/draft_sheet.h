// A draft as a night sheet: the very text that is judged, and taken in.
#pragma once
#include <string>
#include <vector>

#include "matcher/catalogue/catalogue.h"
#include "tools/intake/draft.h"

namespace evet {

// What is proposed where nobody has written anything: the night by the camera's clock, the place, licence and
// observer of the last night.
struct Proposed {
  Cells common;
  std::map<std::string, Cells> captures;  // by key: only what differs from `common`
  int first_number = 1;  // of the captures that have no label: c1, c2 ..., going on where the night stands
};

// `observer`: who sits at the page, may be empty; `today`: the night of a photo whose camera has no clock.
Proposed proposed_for(const Draft& draft, Catalogue& catalogue, const std::string& observer,
                      const std::string& today);

// What holds in a cell: the capture's own, else what was written for the evening, else what is proposed.
// Empty `key`: of the whole evening.
std::string cell_of(const Draft& draft, const Proposed& proposed, const std::string& key,
                    const std::string& column);
// The capture's label: its own, or the number that it has among the captures.
std::string label_of(const Draft& draft, const Proposed& proposed, const std::string& key);

struct DraftSheet {
  struct Row {
    std::string capture, photo;  // key and name; no photo for a night without a catch
  };
  std::string csv;
  std::vector<Row> rows;  // rows[i] stands on line i + 2
};
DraftSheet sheet_of(const Draft& draft, const Proposed& proposed);

// "2024-05-14.csv"; "evening.csv" while there is no night.
std::string sheet_name(const Draft& draft, const Proposed& proposed);

}  // namespace evet
