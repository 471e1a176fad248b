// The night sheet: what a surveyor wrote down beside the photographs, one row a photo, and one for a night on
// which nothing was caught.
//
// CSV (RFC 4180), UTF-8 with or without a byte order mark, ',', ';' or a tab between the columns, any line ends;
// or the first table of a spreadsheet (.xlsx, .ods), whose rows count as lines.
// Columns by name in any order, letter case free; `photo, site, night, licence` are needed.
#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "matcher/base/message.h"
#include "matcher/base/sex.h"

namespace evet {

struct SheetRow {
  std::size_t line = 0;  // in the file, from 1
  std::string photo;     // file name under the photos folder, '/' between folders
  std::string site;
  std::string pond;
  std::string night;  // the date on which the night began, "2031-05-14"
  std::string trap;
  std::string capture;  // label shared by the photos of one animal in hand; may be empty
  Sex sex = Sex::unknown;
  std::string stage;               // "adult", "subadult", "juvenile", "metamorph" or empty
  std::optional<double> svl_mm;    // snout-vent length
  std::optional<double> total_mm;  // snout to tail tip
  std::optional<double> mass_g;
  std::optional<bool> released;  // false: it died or was not released
  std::string observer;
  std::string licence;
  std::optional<double> latitude;   // WGS 84, degrees north
  std::optional<double> longitude;  // WGS 84, degrees east
  std::string individual;           // an identity already known by other means (a tag, an earlier catalogue)
  std::string notes;
  std::map<std::string, std::string> of_night{};  // what was done that night, by column: see sheet_nights.h
};

// A row whose photo is "none": the place, or one trap of it, was worked that night and nothing was caught.
struct NoCatch {
  std::size_t line = 0;
  std::string site, pond, night, trap;  // as in SheetRow
  std::map<std::string, std::string> of_night{};
  std::string licence{}, observer{};
};

// What was written of one place and night, by column.
struct SheetNight {
  struct Said {
    std::size_t line;
    std::string text;
  };
  std::string site, pond, night;
  std::map<std::string, Said> said;
};

Message at_photo(std::size_t line, const std::string& photo);  // "line 3, photo 'IMG 1.jpg'"

struct SheetProblem {
  std::size_t line = 0;
  std::string column;  // empty when it is not one column's fault
  Reason reason;
  bool whole_sheet = false;          // no row can be taken until this is mended
  std::string photo{};               // the file that the row names, where that is at fault
  std::string sentence() const;      // "line 7, sex: 'fermale' is not known; did you mean female?"
  std::string without_line() const;  // "sex: 'fermale' is not known; did you mean female?"
};

// One animal in hand: rows of one night and site that share a capture label, or a single row without one.
// Facts written on some of the rows only hold for all of them.
struct SheetCapture {
  SheetRow facts;  // of the first row, blanks filled from the others; `photo` and `notes` are the first row's
  std::vector<std::size_t> rows;  // into Sheet::rows, in the order of the sheet
};

struct Sheet {
  std::vector<SheetRow> rows;          // those without a problem
  std::vector<SheetCapture> captures;  // over `rows`, in the order of the sheet
  std::vector<NoCatch> no_catches;
  std::vector<SheetNight> nights;         // of which something was written, in the order of the sheet
  std::unordered_set<std::string> named;  // every photo that a row names, with a problem or without
  std::vector<SheetProblem> problems;     // in the order of the sheet
  bool readable() const;                  // false when a problem spoils the whole sheet
};

const std::vector<std::string>& sheet_columns();  // all names, in the order in which we write them

}  // namespace evet
