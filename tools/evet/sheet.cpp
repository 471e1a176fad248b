#include "tools/evet/sheet.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <unordered_map>

#include "tools/evet/csv.h"
#include "tools/evet/sheet_values.h"
#include "tools/evet/text.h"

namespace evet {
namespace {

// Plausible sizes of newts, wide enough for the largest European and Asian species and a new metamorph, and
// narrow enough to catch centimetres written for millimetres (common practice, no source).
constexpr double kSvlMm[] = {10, 150};
constexpr double kTotalMm[] = {15, 300};
constexpr double kMassG[] = {0.05, 60};

const std::set<std::string> kNeeded{"photo", "site", "night", "licence"};

std::string line_item(std::size_t line) {
  return "line " + std::to_string(line);
}

std::optional<SheetProblem> wrong_encoding(std::string_view file) {
  SheetProblem problem{
      .line = 1, .column = {}, .wrong = {}, .right = "save the sheet as 'CSV UTF-8'", .whole_sheet = true};
  if (file.starts_with("\xFF\xFE") || file.starts_with("\xFE\xFF")) {
    problem.wrong = "the sheet is saved as UTF-16";
    return problem;
  }
  const std::optional<std::size_t> bad = first_not_utf8(file);
  if (!bad) {
    if (file.find('\0') == std::string_view::npos) return std::nullopt;
    problem.wrong = "the file holds zero bytes, so it is not a CSV sheet";
    problem.right = "save the night sheet from the spreadsheet program as CSV";
    return problem;
  }
  const std::string_view before = file.substr(0, *bad);
  problem.line += static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
  problem.wrong = "the text is not UTF-8 (it looks like Latin-1 or Windows-1252)";
  problem.right = "save the sheet again as 'CSV UTF-8', or convert it: iconv -f WINDOWS-1252 -t UTF-8";
  return problem;
}

// ',' or ';', whichever the header uses more, outside quotes; 0 when the columns are parted by tabs.
char find_separator(std::string_view file) {
  const std::string_view header = file.substr(0, file.find_first_of("\r\n"));
  std::size_t commas = 0, semicolons = 0, tabs = 0;
  bool in_quotes = false;
  for (const char c : header) {
    if (c == '"') in_quotes = !in_quotes;
    if (in_quotes) continue;
    commas += c == ',';
    semicolons += c == ';';
    tabs += c == '\t';
  }
  if (tabs > commas + semicolons) return 0;
  return semicolons > commas ? ';' : ',';
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

// Column name -> place in a record. Unknown, doubled and missing columns become problems.
std::map<std::string, std::size_t> read_header(const CsvRecord& header, std::vector<SheetProblem>& problems) {
  std::map<std::string, std::size_t> columns;
  std::map<std::string, std::string> meant_by;  // the column that an unknown name was probably meant to be
  for (std::size_t i = 0; i < header.fields.size(); ++i) {
    const std::string name = lower_ascii(header.fields[i]);
    const auto& known = sheet_columns();
    if (name.empty()) {
      problems.push_back({header.line,
                          {},
                          "column " + std::to_string(i + 1) + " has no name",
                          "name it, or take it out",
                          true});
    } else if (std::find(known.begin(), known.end(), name) == known.end()) {
      const std::optional<std::string> meant = near_miss(name, known);
      if (meant) meant_by[*meant] = header.fields[i];
      problems.push_back({header.line,
                          {},
                          "column " + quoted(header.fields[i]) + " is not known",
                          meant
                              ? "did you mean " + *meant + "?"
                              : "take it out, or put what it says into notes; columns are " + joined(known)});
    } else if (!columns.emplace(name, i).second) {
      problems.push_back({header.line, name, "this column is there twice", "keep one of the two", true});
    }
  }
  for (const std::string& name : kNeeded) {
    if (columns.contains(name)) continue;
    const auto meant = meant_by.find(name);
    problems.push_back({header.line, name, "this column is missing",
                        meant != meant_by.end() ? "rename column " + quoted(meant->second) + " to " + name
                                                : "add it; every sheet needs photo, site, night and licence",
                        true});
  }
  return columns;
}

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

// Reads the cells of one record; remembers every problem rather than stopping at the first.
class RowReader {
 public:
  RowReader(const std::map<std::string, std::size_t>& columns, const CsvRecord& record,
            std::vector<SheetProblem>& problems)
      : columns_(columns), record_(record), problems_(problems) {}

  bool good() const { return good_; }

  std::string text(const std::string& column) {
    const auto found = columns_.find(column);
    std::string value = found == columns_.end() ? std::string() : record_.fields[found->second];
    if (column != "photo") value = trimmed(value);
    if (value.empty() && kNeeded.contains(column) && column != "night" && column != "photo")
      refuse(column, {"is empty", "write the " + column + " on every row"});
    return value;
  }
  // As text(), and of one line: names and labels appear in lists, file names and plots.
  std::string label(const std::string& column) {
    std::string value = text(column);
    const auto is_control = [](unsigned char c) { return c < 0x20 || c == 0x7F; };
    if (std::any_of(value.begin(), value.end(), is_control))
      refuse(column,
             {quoted(value) + " holds a line end or another control character", "write it on one line"});
    return value;
  }
  template <class Value>
  Value take(const std::string& column, Cell<Value> cell) {
    if (cell.problem) refuse(column, *cell.problem);
    return std::move(cell.value);
  }
  void refuse(const std::string& column, const CellProblem& problem) {
    good_ = false;
    problems_.push_back({record_.line, column, problem.wrong, problem.right});
  }

 private:
  const std::map<std::string, std::size_t>& columns_;
  const CsvRecord& record_;
  std::vector<SheetProblem>& problems_;
  bool good_ = true;
};

std::optional<SheetRow> read_row(RowReader reader, std::size_t line, std::chrono::year_month_day today) {
  SheetRow row;
  row.line = line;
  row.photo = reader.take("photo", read_photo_name(reader.text("photo")));
  row.site = reader.label("site");
  row.pond = reader.label("pond");
  row.night = reader.take("night", read_night(reader.text("night"), today));
  row.trap = reader.label("trap");
  row.capture = reader.label("capture");
  row.sex = reader.take("sex", read_sex(reader.text("sex")));
  row.stage = reader.take("stage", read_stage(reader.text("stage")));
  row.svl_mm = reader.take("svl_mm", read_number(reader.text("svl_mm"), kSvlMm[0], kSvlMm[1], "millimetres"));
  row.total_mm =
      reader.take("total_mm", read_number(reader.text("total_mm"), kTotalMm[0], kTotalMm[1], "millimetres"));
  row.mass_g = reader.take("mass_g", read_number(reader.text("mass_g"), kMassG[0], kMassG[1], "grams"));
  row.observer = reader.label("observer");
  row.licence = reader.label("licence");
  row.latitude = reader.take("latitude", read_number(reader.text("latitude"), -90, 90, "degrees"));
  row.longitude = reader.take("longitude", read_number(reader.text("longitude"), -180, 180, "degrees"));
  row.individual = reader.label("individual");
  row.notes = reader.text("notes");
  if (reader.good() && row.latitude.has_value() != row.longitude.has_value())
    reader.refuse(row.latitude ? "longitude" : "latitude",
                  {"is empty", "give both latitude and longitude, or neither"});
  if (row.svl_mm && row.total_mm && *row.total_mm < *row.svl_mm)
    reader.refuse("total_mm",
                  {"is less than svl_mm", "the total length includes the tail: are the two swapped?"});
  return reader.good() ? std::optional(std::move(row)) : std::nullopt;
}

// Fills a fact that is blank so far; false when the two rows say different things.
template <class Value>
bool agree(Value& fact, const Value& said, const Value& blank) {
  if (said == blank) return true;
  if (fact == blank) fact = said;
  return fact == said;
}

// The first column on which a row disagrees with what its capture's other rows say, or nullptr.
const char* disagreement(SheetRow& facts, const SheetRow& row) {
  const std::string none;
  const std::optional<double> no_number;
  if (!agree(facts.night, row.night, none)) return "night";
  if (!agree(facts.site, row.site, none)) return "site";
  if (!agree(facts.pond, row.pond, none)) return "pond";
  if (!agree(facts.trap, row.trap, none)) return "trap";
  if (!agree(facts.sex, row.sex, Sex::unknown)) return "sex";
  if (!agree(facts.stage, row.stage, none)) return "stage";
  if (!agree(facts.svl_mm, row.svl_mm, no_number)) return "svl_mm";
  if (!agree(facts.total_mm, row.total_mm, no_number)) return "total_mm";
  if (!agree(facts.mass_g, row.mass_g, no_number)) return "mass_g";
  if (!agree(facts.observer, row.observer, none)) return "observer";
  if (!agree(facts.licence, row.licence, none)) return "licence";
  if (!agree(facts.latitude, row.latitude, no_number)) return "latitude";
  if (!agree(facts.longitude, row.longitude, no_number)) return "longitude";
  if (!agree(facts.individual, row.individual, none)) return "individual";
  return nullptr;
}

// Gathers rows into captures. Labels often begin again at 1 every night and at every site, so a label holds
// within those; but in neighbouring rows the same label is the same animal, and another night is a slip that
// would make it a recapture. Rows of a capture that contradict each other are taken out, all of them: which
// of them is right is not ours to say, and half a capture would be half a truth.
void gather_captures(Sheet& sheet) {
  std::map<std::tuple<std::string, std::string, std::string>, std::size_t> by_label;  // night, site, label
  std::vector<SheetCapture> captures;
  std::vector<std::size_t> capture_of;  // of each row so far
  std::set<std::size_t> mixed;
  for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
    const SheetRow& row = sheet.rows[i];
    const bool goes_on = i > 0 && sheet.rows[i - 1].capture == row.capture;
    const SheetRow& key = goes_on ? captures[capture_of.back()].facts : row;
    const auto [found, fresh] =
        row.capture.empty() ? std::pair(by_label.end(), true)
                            : by_label.try_emplace({key.night, key.site, row.capture}, captures.size());
    capture_of.push_back(fresh ? captures.size() : found->second);
    if (fresh) {
      captures.push_back({row, {i}});
      continue;
    }
    SheetCapture& capture = captures[found->second];
    const std::size_t first_line = capture.facts.line;
    capture.rows.push_back(i);
    if (const char* column = disagreement(capture.facts, row)) {
      mixed.insert(found->second);
      sheet.problems.push_back(
          {row.line, column,
           "differs from " + line_item(first_line) + ", which has the same capture " + quoted(row.capture),
           "photos of one animal in hand share all facts: mend the fact, or give this capture a label of its "
           "own"});
    }
  }
  std::vector<bool> keep(sheet.rows.size(), true);
  for (const std::size_t c : mixed)
    for (const std::size_t row : captures[c].rows) keep[row] = false;
  std::vector<SheetRow> kept;
  std::vector<std::size_t> place(sheet.rows.size());
  for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
    place[i] = kept.size();
    if (keep[i]) kept.push_back(std::move(sheet.rows[i]));
  }
  for (std::size_t c = 0; c < captures.size(); ++c) {
    if (mixed.contains(c)) continue;
    for (std::size_t& row : captures[c].rows) row = place[row];
    sheet.captures.push_back(std::move(captures[c]));
  }
  sheet.rows = std::move(kept);
}

Sheet spoiled(SheetProblem problem) {
  problem.whole_sheet = true;
  Sheet sheet;
  sheet.problems.push_back(std::move(problem));
  return sheet;
}

}  // namespace

std::string SheetProblem::sentence() const {
  std::string text = line_item(line);
  if (!column.empty()) text += ", " + column;
  text += ": " + wrong;
  if (!right.empty()) text += "; " + right;
  return text;
}

bool Sheet::readable() const {
  return std::none_of(problems.begin(), problems.end(), [](const SheetProblem& p) { return p.whole_sheet; });
}

const std::vector<std::string>& sheet_columns() {
  static const std::vector<std::string> names{
      "photo",    "site",   "pond",     "night",   "trap",     "capture",   "sex",        "stage", "svl_mm",
      "total_mm", "mass_g", "observer", "licence", "latitude", "longitude", "individual", "notes"};
  return names;
}

Sheet read_sheet(std::string_view file, const SheetOptions& options) {
  if (file.size() > options.max_bytes)
    return spoiled({1,
                    {},
                    "the sheet is larger than " + std::to_string(options.max_bytes >> 20) + " MB",
                    "is it the sheet at all? A night sheet is a small CSV file"});
  if (const auto problem = wrong_encoding(file)) return spoiled(*problem);
  if (file.starts_with("\xEF\xBB\xBF")) file.remove_prefix(3);
  const char separator = find_separator(file);
  if (separator == 0)
    return spoiled({1, {}, "the columns are parted by tabs", "save the sheet as CSV with ',' or ';'"});

  const auto [records, misplaced] = read_csv(file, separator);
  if (misplaced) return spoiled({misplaced->line, {}, misplaced->wrong, misplaced->right});
  if (records.empty())
    return spoiled(
        {1, {}, "the sheet is empty", "the first line names the columns; each other line is a photo"});
  if (records.size() - 1 > options.max_rows)
    return spoiled({1,
                    {},
                    "the sheet has more than " + std::to_string(options.max_rows) + " rows",
                    "split it by night"});

  Sheet sheet;
  const auto columns = read_header(records.front(), sheet.problems);
  if (!sheet.readable()) return sheet;
  const std::size_t width = records.front().fields.size();
  std::unordered_map<std::string, std::size_t> line_of_photo;
  for (std::size_t i = 1; i < records.size(); ++i) {
    const CsvRecord& record = records[i];
    if (std::all_of(record.fields.begin(), record.fields.end(), [](const auto& f) { return f.empty(); }))
      continue;
    if (record.fields.size() != width) {
      sheet.problems.push_back(
          {record.line,
           {},
           "has " + counted(record.fields.size(), "field") + " where the header has " + std::to_string(width),
           std::string("put a field that holds '") + separator + "' in double quotes"});
      continue;
    }
    std::optional<SheetRow> row =
        read_row(RowReader(columns, record, sheet.problems), record.line, options.today);
    const std::string& photo = record.fields[columns.at("photo")];
    const auto [first, fresh] = line_of_photo.try_emplace(photo, record.line);
    if (!fresh && !photo.empty()) {
      sheet.problems.push_back({record.line, "photo",
                                quoted(photo) + " is already on " + line_item(first->second),
                                "name each photo once"});
      continue;
    }
    if (row) sheet.rows.push_back(std::move(*row));
  }
  if (sheet.rows.empty() && sheet.problems.empty())
    return spoiled({2, {}, "the sheet names no photo", "write one row for each photo"});
  gather_captures(sheet);
  std::stable_sort(sheet.problems.begin(), sheet.problems.end(),
                   [](const SheetProblem& a, const SheetProblem& b) { return a.line < b.line; });
  return sheet;
}

}  // namespace evet
