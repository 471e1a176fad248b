#include "tools/intake/read_sheet.h"

#include <algorithm>
#include <unordered_map>

#include "matcher/base/csv.h"
#include "tools/intake/messages.h"
#include "tools/intake/sheet_captures.h"
#include "tools/intake/sheet_header.h"
#include "tools/intake/sheet_nights.h"
#include "tools/intake/sheet_row.h"
#include "tools/intake/sheet_text.h"
#include "tools/intake/sheet_values.h"
#include "tools/intake/workbook.h"
#include "tools/words/text.h"

namespace evet {
namespace {

Sheet sheet_spoiled_by(SheetProblem problem) {
  problem.whole_sheet = true;
  Sheet sheet;
  sheet.problems.push_back(std::move(problem));
  return sheet;
}

SheetProblem wrong_width(const CsvRecord& record, std::size_t width, char separator) {
  const Message sign = separator == '\t' ? Message(messages::kTab)
                                         : Message(messages::kSign, {{"sign", std::string(1, separator)}});
  const MessageText& right = record.fields.size() < width ? messages::kCutShort : messages::kQuoteSeparator;
  return {record.line,
          {},
          {Message(messages::kWrongWidth, {{"n", record.fields.size()}, {"width", width}}),
           Message(right, {{"sign", sign}})}};
}

// Spreadsheets write columns that nobody filled, to the right of the last one.
void drop_empty_columns(std::vector<CsvRecord>& records) {
  std::vector<std::string>& header = records.front().fields;
  while (header.size() > 1 && header.back().empty()) header.pop_back();
  for (CsvRecord& record : records)
    while (record.fields.size() > header.size() && record.fields.back().empty()) record.fields.pop_back();
}

// Every row after the header, each photo once.
void read_rows(const std::vector<CsvRecord>& records, const SheetColumns& columns, char separator,
               std::chrono::year_month_day today, Sheet& sheet) {
  const std::size_t width = records.front().fields.size();
  std::unordered_map<std::string, std::size_t> line_of_photo;
  for (std::size_t i = 1; i < records.size(); ++i) {
    const CsvRecord& record = records[i];
    if (std::all_of(record.fields.begin(), record.fields.end(), [](const auto& f) { return f.empty(); }))
      continue;
    if (record.fields.size() != width) {
      sheet.problems.push_back(wrong_width(record, width, separator));
      continue;
    }
    auto row = read_row(columns, record, today, sheet.problems);
    if (auto* none = std::get_if<NoCatch>(&row)) {
      sheet.no_catches.push_back(std::move(*none));
      continue;
    }
    const std::string& photo = record.fields[columns.at("photo")];
    sheet.named.insert(photo);
    const auto [first, fresh] = line_of_photo.try_emplace(photo, record.line);
    if (!fresh && !photo.empty() && !says_no_catch(photo)) {
      const Message wrong(messages::kPhotoTwice, {{"photo", in_quotes(photo)}, {"line", first->second}});
      sheet.problems.push_back({record.line, "photo", {wrong, messages::kNameEachPhotoOnce}});
      continue;
    }
    if (auto* good = std::get_if<SheetRow>(&row)) sheet.rows.push_back(std::move(*good));
  }
}

// The sheet as records, whatever it was saved as.
struct Table {
  std::vector<CsvRecord> records;
  char separator = ',';
};
std::variant<Table, SheetProblem> table_of(std::string_view file, const SheetOptions& options) {
  if (is_workbook(file)) {
    auto read = read_workbook(file, {.max_bytes = options.max_bytes, .max_rows = options.max_rows});
    if (auto* problem = std::get_if<SheetProblem>(&read)) return std::move(*problem);
    return Table{std::move(std::get<std::vector<CsvRecord>>(read))};
  }
  const auto opened = sheet_text(file, options.max_bytes);
  if (const auto* problem = std::get_if<SheetProblem>(&opened)) return *problem;
  const auto& [text, separator] = std::get<SheetText>(opened);
  auto [records, misplaced] = read_csv(text, separator);
  if (misplaced) return SheetProblem{misplaced->line, {}, misplaced->reason};
  return Table{std::move(records), separator};
}

}  // namespace

Sheet read_sheet(std::string_view file, const SheetOptions& options) {
  auto opened = table_of(file, options);
  if (auto* problem = std::get_if<SheetProblem>(&opened)) return sheet_spoiled_by(std::move(*problem));
  auto& [records, separator] = std::get<Table>(opened);
  if (records.empty())
    return sheet_spoiled_by({1, {}, {messages::kSheetEmpty, messages::kFirstLineNamesColumns}});
  if (records.size() - 1 > options.max_rows)
    return sheet_spoiled_by(
        {1, {}, {Message(messages::kTooManyRows, {{"rows", options.max_rows}}), messages::kSplitByNight}});

  drop_empty_columns(records);
  Sheet sheet;
  const auto columns = read_header(records.front(), sheet.problems);
  if (!sheet.readable()) return sheet;
  read_rows(records, columns, separator, options.today, sheet);
  if (sheet.rows.empty() && sheet.no_catches.empty() && sheet.problems.empty())
    return sheet_spoiled_by({2, {}, {messages::kNoPhotoNamed, messages::kWriteRowForEachPhoto}});
  gather_nights(sheet);
  gather_captures(sheet);
  refuse_contradicted(sheet);
  std::stable_sort(sheet.problems.begin(), sheet.problems.end(),
                   [](const SheetProblem& a, const SheetProblem& b) { return a.line < b.line; });
  return sheet;
}

}  // namespace evet
