// Capture histories from and to plain CSV (RFC 4180, UTF-8 with or without BOM, comma or semicolon).
//
// One row an animal, one column an occasion, further columns by name, in any order:
//   animal   the animal's label (needed)
//   lost     1 if it was not released after its last capture, else 0
//   an occasion column is headed by a date (2026-04-12), a whole number (3), period.occasion (2.1), or
//   "night"/"occasion" and one of these; cells are 1 (caught) or 0 (not caught); where
//   every catch is a name instead (of two ponds or more), it is the place of the capture. Periods written as 2.1, 2.2
//   become primary periods, the nights within them secondary occasions.
//   every other column is a covariate when all its cells are numbers or empty, else a group (sex, site,
//   stage).
// Rows may stand before the animals that describe the occasions: their `animal` cell starts with '#':
//   #date, #period (primary period, a whole number), #unsettled (captures of the night that nobody has
//   settled: estimates stop before it), and any other name (#effort, #temperature) as a number.
//
//   animal,2026-04-12,2026-04-13,sex,svl_mm
//   #effort,20,24,,
//   N-001,1,0,female,71.5
#pragma once
#include <istream>
#include <ostream>
#include <string>
#include <vector>

#include "models/capture_histories.h"

namespace evet::models {

struct HistoriesCsvOptions {
  std::vector<std::string> group_columns;  // read as groups even when every cell is a number (a site code)
};

// Throws InputError whose text lists every bad cell with its line, one a line of text.
CaptureHistories read_histories_csv(std::istream& input, const HistoriesCsvOptions& options = {});
void write_histories_csv(const CaptureHistories& histories, std::ostream& output);

}  // namespace evet::models
