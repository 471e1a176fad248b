#include "models/histories_csv.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <iomanip>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <sstream>

#include "matcher/base/csv.h"
#include "models/base/estimate_value.h"
#include "models/base/input_error.h"
#include "models/base/messages.h"

namespace evet::models {
namespace {

constexpr std::size_t kMostColumns = 4000;
constexpr std::size_t kMostComplaints = 50;  // as many as a person mends in one go

struct OccasionColumn {
  std::size_t column;
  std::string label;
  std::string date;
  std::optional<int> period;
  int number = 0;  // of the occasion, within its period where there is one; not of a date
};

bool all_digits(const std::string& text) {
  return !text.empty() && text.size() < 9 && text.find_first_not_of("0123456789") == std::string::npos;
}

bool looks_like_date(const std::string& text) {
  return text.size() == 10 && text[4] == '-' && text[7] == '-' && all_digits(text.substr(0, 4)) &&
         all_digits(text.substr(5, 2)) && all_digits(text.substr(8, 2));
}

bool has_control_sign(const std::string& text) {
  return std::any_of(text.begin(), text.end(),
                     [](char sign) { return static_cast<unsigned char>(sign) < 0x20 || sign == 0x7f; });
}

// Meant for a number, and none that can be used: "NaN", "inf", "60,5", "1e999".
bool looks_like_number(const std::string& text) {
  std::string low;
  for (const char sign : text) low += static_cast<char>(std::tolower(static_cast<unsigned char>(sign)));
  if (low.starts_with('-') || low.starts_with('+')) low.erase(0, 1);
  if (low == "nan" || low == "inf" || low == "infinity") return true;
  return !low.empty() && std::isdigit(static_cast<unsigned char>(low[0])) &&
         low.find_first_not_of("0123456789,.e+-") == std::string::npos;
}

std::optional<OccasionColumn> occasion_of(const std::string& header, std::size_t column) {
  std::string name = header;
  for (const std::string word : {"night", "occasion"})
    if (name.starts_with(word))
      name = name.substr(std::min(name.size(), name.find_first_not_of(" _", word.size())));
  OccasionColumn occasion{column, header, {}, {}};
  const std::size_t dot = name.find('.');
  if (looks_like_date(name))
    occasion.date = name;
  else if (dot != std::string::npos && all_digits(name.substr(0, dot)) && all_digits(name.substr(dot + 1)))
    occasion.period = std::stoi(name.substr(0, dot)), occasion.number = std::stoi(name.substr(dot + 1));
  else if (!all_digits(name))
    return std::nullopt;
  else
    occasion.number = std::stoi(name);
  return occasion;
}

std::optional<double> number_of(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

// Collects every complaint, so that a sheet is mended in one go.
class Complaints {
 public:
  void add(std::size_t line, const Message& what, const Message& right) {
    if (count_++ < kMostComplaints)
      first_.push_back({Message(messages::kItemLine, {{"n", line}}).words(), what, right});
  }
  void raise() const {
    if (count_ == 0) return;
    std::string text;
    for (const Complaint& one : first_) text += (text.empty() ? "" : "\n") + one.words();
    if (count_ > kMostComplaints)
      text += "\n" + Message(messages::kMoreComplaints, {{"more", count_ - kMostComplaints}}).words();
    throw InputError(messages::kItemCaptureHistories, first_, text, messages::kNothingTaken);
  }

 private:
  std::vector<Complaint> first_;
  std::size_t count_ = 0;
};

// The separator (comma or semicolon) is read off the header.
std::vector<CsvRecord> records_of(std::istream& input) {
  std::string text{std::istreambuf_iterator<char>(input), {}};
  if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
  const std::string header = text.substr(0, text.find_first_of("\r\n"));
  const bool semicolons = header.find(',') == std::string::npos && header.find(';') != std::string::npos;
  CsvReading read = read_csv(text, semicolons ? ';' : ',');
  if (read.problem)
    throw InputError(Message(messages::kItemLine, {{"n", std::to_string(read.problem->line)}}),
                     read.problem->reason.wrong, read.problem->reason.right.value());
  return std::move(read.records);
}

struct Sheet {
  CsvRecord header;
  std::vector<CsvRecord> about_occasions;
  std::vector<CsvRecord> animals;
  std::vector<OccasionColumn> occasions;
  std::size_t animal_column = 0;
  std::optional<std::size_t> lost_column;
};

Sheet split(const std::vector<CsvRecord>& rows, Complaints& complaints) {
  if (rows.empty())
    throw InputError(messages::kItemCaptureHistories, messages::kTextEmpty, messages::kGiveHeader);
  if (rows[0].fields.size() > kMostColumns)
    throw InputError(messages::kItemCaptureHistories,
                     {messages::kTooManyColumns, {{"columns", rows[0].fields.size()}}},
                     {messages::kGiveAtMost, {{"most", kMostColumns}}});
  Sheet sheet;
  sheet.header = rows[0];
  std::optional<std::size_t> animal;
  std::map<std::string, int> times;
  for (const std::string& name : sheet.header.fields) ++times[name];
  for (std::size_t c = 0; c < sheet.header.fields.size(); ++c) {
    const std::string& name = sheet.header.fields[c];
    if (has_control_sign(name)) complaints.add(1, messages::kColumnNameUnprintable, messages::kWriteWithout);
    if (times[name] > 1)
      complaints.add(1, {messages::kColumnStandsTwice, {{"column", name}}}, messages::kGiveEachColumnAName);
    if (name == "animal")
      animal = c;
    else if (name == "lost")
      sheet.lost_column = c;
    else if (auto occasion = occasion_of(name, c))
      sheet.occasions.push_back(*occasion);
  }
  if (!animal) complaints.add(1, messages::kNoAnimalColumn, messages::kAddAnimalColumn);
  if (sheet.occasions.empty()) complaints.add(1, messages::kNoOccasionColumn, messages::kHeadAnOccasion);
  complaints.raise();
  sheet.animal_column = *animal;
  for (std::size_t r = 1; r < rows.size(); ++r) {
    if (rows[r].fields.size() != sheet.header.fields.size()) {
      complaints.add(rows[r].line, {messages::kHasCells, {{"cells", rows[r].fields.size()}}},
                     {messages::kHeaderHas, {{"cells", sheet.header.fields.size()}}});
      continue;
    }
    (rows[r].fields[sheet.animal_column].starts_with('#') ? sheet.about_occasions : sheet.animals)
        .push_back(rows[r]);
  }
  return sheet;
}

// Time order, and one way of naming occasions.
void check_headers(const Sheet& sheet, Complaints& complaints) {
  const auto is_number = [](const OccasionColumn& one) { return one.date.empty() && !one.period; };
  for (std::size_t j = 1; j < sheet.occasions.size(); ++j) {
    const OccasionColumn &before = sheet.occasions[j - 1], &one = sheet.occasions[j];
    if (before.date.empty() != one.date.empty() || before.period.has_value() != one.period.has_value()) {
      complaints.add(1, {messages::kHeadedDifferently, {{"first", before.label}, {"second", one.label}}},
                     messages::kHeadAllAlike);
      return;
    }
    const bool falls = is_number(one) ? one.number <= before.number
                       : one.period   ? *one.period < *before.period ||
                                          (*one.period == *before.period && one.number <= before.number)
                                    : one.date < before.date;
    if (falls)
      complaints.add(1, {messages::kOccasionAfter, {{"occasion", one.label}, {"before", before.label}}},
                     messages::kPutInTimeOrder);
  }
}

// The numbers of a row about the occasions; 0 where one cannot be read.
std::vector<double> numbers_of(const CsvRecord& row, const Sheet& sheet, const std::string& name,
                               Complaints& complaints) {
  std::vector<double> values;
  for (const OccasionColumn& occasion : sheet.occasions) {
    const std::string& cell = row.fields[occasion.column];
    const auto value = number_of(cell);
    if (!value)
      complaints.add(row.line, {messages::kCellIsNoNumber, {{"cell", cell}}},
                     {messages::kGiveForEachOccasion, {{"row", name}}});
    values.push_back(value.value_or(0));
  }
  return values;
}

std::vector<std::string> dates_of(const CsvRecord& row, const Sheet& sheet, Complaints& complaints) {
  std::vector<std::string> dates;
  for (const OccasionColumn& occasion : sheet.occasions) {
    dates.push_back(row.fields[occasion.column]);
    if (!looks_like_date(dates.back()))
      complaints.add(row.line, {messages::kCellIsNoDate, {{"cell", dates.back()}}}, messages::kWriteAsYmd);
  }
  return dates;
}

std::vector<int> periods_of(const CsvRecord& row, const Sheet& sheet, Complaints& complaints) {
  std::vector<int> periods;
  const std::vector<double> values = numbers_of(row, sheet, "period", complaints);
  for (std::size_t j = 0; j < values.size(); ++j) {
    const bool whole = values[j] >= 0 && values[j] < 100000 && values[j] == std::floor(values[j]);
    if (!whole)
      complaints.add(row.line, {messages::kCellIsNoPeriod, {{"cell", row.fields[sheet.occasions[j].column]}}},
                     messages::kWriteWholeFrom0);
    periods.push_back(whole ? static_cast<int>(values[j]) : 0);
  }
  return periods;
}

std::vector<int> unsettled_of(const CsvRecord& row, const Sheet& sheet, Complaints& complaints) {
  std::vector<int> counts;
  for (const double value : numbers_of(row, sheet, "unsettled", complaints)) {
    if (!(value >= 0 && value < 1e6 && value == std::floor(value)))
      complaints.add(row.line, messages::kUnsettledIsNoCount, messages::kWrite0OrWhole);
    counts.push_back(static_cast<int>(std::clamp(value, 0.0, 1e6)));
  }
  return counts;
}

// Numbered from 0 without gaps.
std::vector<int> primary_of(const std::vector<int>& periods, Complaints& complaints) {
  std::vector<int> primary;
  int number = -1;
  for (std::size_t j = 0; j < periods.size(); ++j) {
    if (j > 0 && periods[j] < periods[j - 1])
      complaints.add(1,
                     {messages::kPeriodAfter,
                      {{"period", std::to_string(periods[j])}, {"before", std::to_string(periods[j - 1])}}},
                     messages::kPutInTimeOrder);
    number += j == 0 || periods[j] != periods[j - 1];
    primary.push_back(number);
  }
  return primary;
}

void read_about_occasions(const Sheet& sheet, CaptureHistories& histories, Complaints& complaints) {
  const std::size_t k = sheet.occasions.size();
  std::vector<int> periods;
  for (const OccasionColumn& occasion : sheet.occasions) {
    histories.occasions.push_back(occasion.label);
    if (!occasion.date.empty()) histories.dates.push_back(occasion.date);
    if (occasion.period) periods.push_back(*occasion.period);
  }
  if (histories.dates.size() != k) histories.dates.clear();
  std::set<std::string> seen;
  for (const CsvRecord& row : sheet.about_occasions) {
    const std::string name = row.fields[sheet.animal_column].substr(1);
    if (!seen.insert(name).second)
      complaints.add(row.line, {messages::kRowTwice, {{"row", name}}}, messages::kKeepOne);
    else if (name == "date")
      histories.dates = dates_of(row, sheet, complaints);
    else if (name == "period")
      periods = periods_of(row, sheet, complaints);
    else if (name == "unsettled")
      histories.unsettled = unsettled_of(row, sheet, complaints);
    else
      histories.occasion_covariates[name] = numbers_of(row, sheet, name, complaints);
  }
  if (periods.size() == k) histories.primary = primary_of(periods, complaints);
}

// Cells may hold the place of a capture instead of 1: all that are not 0 do, and there are two places or more.
std::vector<std::string> places_in(const Sheet& sheet) {
  constexpr std::size_t kMostPlaces = 250;
  std::set<std::string> names;
  bool missed = false;
  for (const CsvRecord& row : sheet.animals)
    for (const OccasionColumn& occasion : sheet.occasions) {
      const std::string& cell = row.fields[occasion.column];
      if (cell == "0")
        missed = true;
      else if (cell.empty() || looks_like_number(cell) || has_control_sign(cell))
        return {};
      else
        names.insert(cell);
    }
  if (!missed || names.size() < 2 || names.size() > kMostPlaces) return {};
  return {names.begin(), names.end()};
}

void read_animals(const Sheet& sheet, CaptureHistories& histories, Complaints& complaints) {
  histories.places = places_in(sheet);
  const auto place_number = [&](const std::string& cell) -> std::size_t {
    const auto at = std::lower_bound(histories.places.begin(), histories.places.end(), cell);
    return at != histories.places.end() && *at == cell
               ? static_cast<std::size_t>(at - histories.places.begin()) + 1
               : 0;
  };
  for (const CsvRecord& row : sheet.animals) {
    const std::string& label = row.fields[sheet.animal_column];
    if (has_control_sign(label))
      complaints.add(row.line, messages::kAnimalNameUnprintable, messages::kWriteWithout);
    if (label.empty()) complaints.add(row.line, messages::kAnimalWithoutName, messages::kFillInAnimal);
    histories.animals.push_back(label);
    bool ever = false;
    for (const OccasionColumn& occasion : sheet.occasions) {
      const std::string& cell = row.fields[occasion.column];
      const std::size_t place = place_number(cell);
      if (cell != "0" && cell != "1" && place == 0)
        complaints.add(row.line, {messages::kColumnHolds, {{"column", occasion.label}, {"cell", cell}}},
                       messages::kWrite1Or0);
      const bool caught = cell == "1" || place > 0;
      histories.caught.push_back(caught ? 1 : 0);
      if (!histories.places.empty()) histories.place.push_back(static_cast<std::uint8_t>(place));
      ever = ever || caught;
    }
    if (!ever)
      complaints.add(row.line, {messages::kAnimalNeverCaught, {{"animal", label}}}, messages::kLeaveItOut);
    if (!sheet.lost_column) continue;
    const std::string& cell = row.fields[*sheet.lost_column];
    if (cell != "0" && cell != "1" && !cell.empty())
      complaints.add(row.line, {messages::kColumnHolds, {{"column", "lost"}, {"cell", cell}}},
                     messages::kWrite1IfLost);
    histories.lost.push_back(cell == "1" ? 1 : 0);
  }
}

void read_further_columns(const Sheet& sheet, const HistoriesCsvOptions& options, CaptureHistories& histories,
                          Complaints& complaints) {
  for (std::size_t c = 0; c < sheet.header.fields.size(); ++c) {
    const std::string& name = sheet.header.fields[c];
    const bool is_occasion = std::any_of(sheet.occasions.begin(), sheet.occasions.end(),
                                         [&](const OccasionColumn& o) { return o.column == c; });
    if (is_occasion || c == sheet.animal_column || (sheet.lost_column && c == *sheet.lost_column) ||
        name.empty())
      continue;
    bool numbers = std::count(options.group_columns.begin(), options.group_columns.end(), name) == 0;
    const bool may_be_numbers = numbers;
    bool any = false, any_number = false, any_word = false;
    for (const CsvRecord& row : sheet.animals) {
      const std::string& cell = row.fields[c];
      if (cell.empty()) continue;
      any = true;
      numbers = numbers && number_of(cell);
      any_number = any_number || number_of(cell) || looks_like_number(cell);
      any_word = any_word || !looks_like_number(cell);
    }
    if (!any) continue;
    // A column of numbers with a cell that is none must not become a group without a word.
    if (may_be_numbers && !numbers && any_number && !any_word)
      for (const CsvRecord& row : sheet.animals)
        if (!row.fields[c].empty() && !number_of(row.fields[c]))
          complaints.add(row.line, {messages::kColumnHolds, {{"column", name}, {"cell", row.fields[c]}}},
                         messages::kWriteNumberLike);
    for (const CsvRecord& row : sheet.animals) {
      if (numbers)
        histories.covariates[name].push_back(number_of(row.fields[c]).value_or(kUndefined));
      else
        histories.groups[name].push_back(row.fields[c].empty() ? "unknown" : row.fields[c]);
    }
  }
}

std::string shortest(double value) {
  if (std::isnan(value)) return {};
  char text[32];
  const auto end = std::to_chars(text, text + sizeof text, value).ptr;
  return {text, end};
}

}  // namespace

CaptureHistories read_histories_csv(std::istream& input, const HistoriesCsvOptions& options) {
  Complaints complaints;
  const Sheet sheet = split(records_of(input), complaints);
  CaptureHistories histories;
  check_headers(sheet, complaints);
  read_about_occasions(sheet, histories, complaints);
  read_animals(sheet, histories, complaints);
  read_further_columns(sheet, options, histories, complaints);
  complaints.raise();
  histories.check();
  return histories;
}

void write_histories_csv(const CaptureHistories& histories, std::ostream& output) {
  histories.check();
  const std::size_t further =
      (histories.lost.empty() ? 0 : 1) + histories.groups.size() + histories.covariates.size();
  output << "animal";
  for (const std::string& occasion : histories.occasions) output << ',' << csv_field(occasion);
  if (!histories.lost.empty()) output << ",lost";
  for (const auto& [name, levels] : histories.groups) output << ',' << csv_field(name);
  for (const auto& [name, values] : histories.covariates) output << ',' << csv_field(name);
  output << "\r\n";
  const auto about = [&](const std::string& name, const auto& values, const auto& text) {
    output << '#' << name;
    for (const auto& value : values) output << ',' << text(value);
    output << std::string(further, ',') << "\r\n";
  };
  if (!histories.dates.empty()) about("date", histories.dates, [](const std::string& date) { return date; });
  if (!histories.primary.empty())
    about("period", histories.primary, [](int period) { return std::to_string(period + 1); });
  if (histories.first_unsettled() < histories.occasion_count())
    about("unsettled", histories.unsettled, [](int captures) { return std::to_string(captures); });
  for (const auto& [name, values] : histories.occasion_covariates) about(name, values, shortest);
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    output << csv_field(histories.animals[i]);
    for (std::size_t j = 0; j < histories.occasion_count(); ++j)
      output << ','
             << (!histories.was_caught(i, j) ? "0"
                 : histories.places.empty()  ? "1"
                                             : csv_field(histories.places[histories.place_of(i, j)]));
    if (!histories.lost.empty()) output << (histories.was_lost(i) ? ",1" : ",0");
    for (const auto& [name, levels] : histories.groups) output << ',' << csv_field(levels[i]);
    for (const auto& [name, values] : histories.covariates) output << ',' << shortest(values[i]);
    output << "\r\n";
  }
}

}  // namespace evet::models
