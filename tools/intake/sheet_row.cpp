#include "tools/intake/sheet_row.h"

#include <algorithm>

#include "tools/intake/messages.h"
#include "tools/intake/sheet_nights.h"
#include "tools/intake/sheet_values.h"
#include "tools/words/text.h"

namespace evet {
namespace {

// Plausible sizes of newts, wide enough for the largest European and Asian species and a new metamorph, and
// narrow enough to catch centimetres written for millimetres (common practice, no source).
constexpr double kSvlMm[] = {10, 150};
constexpr double kTotalMm[] = {15, 300};
constexpr double kMassG[] = {0.05, 60};

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

// Reads the cells of one record; remembers every problem rather than stopping at the first.
class RowReader {
 public:
  RowReader(const SheetColumns& columns, const CsvRecord& record, std::vector<SheetProblem>& problems)
      : columns_(columns), record_(record), problems_(problems) {}

  bool good() const { return good_; }

  std::string text(const std::string& column) {
    const auto found = columns_.find(column);
    std::string value = found == columns_.end() ? std::string() : record_.fields[found->second];
    if (column != "photo") value = trimmed(value);
    if (value.empty() && needed_column(column) && column != "night" && column != "photo")
      refuse(column, {messages::kCellEmpty, Message(messages::kWriteOnEveryRow, {{"column", column}})});
    return value;
  }
  // As text(), and of one line: names and labels appear in lists, file names and plots.
  std::string label(const std::string& column) {
    std::string value = text(column);
    const auto is_control = [](unsigned char c) { return c < 0x20 || c == 0x7F; };
    if (std::any_of(value.begin(), value.end(), is_control))
      refuse(column,
             {Message(messages::kControlCharacter, {{"text", in_quotes(value)}}), messages::kWriteOnOneLine});
    return value;
  }
  template <class Value>
  Value take(const std::string& column, Cell<Value> cell) {
    if (cell.problem) refuse(column, *cell.problem);
    return std::move(cell.value);
  }
  void refuse(const std::string& column, const Reason& reason) {
    good_ = false;
    problems_.push_back({record_.line, column, reason});
  }

 private:
  const SheetColumns& columns_;
  const CsvRecord& record_;
  std::vector<SheetProblem>& problems_;
  bool good_ = true;
};

// What a row that says that nothing was caught may not say besides.
void refuse_an_animal(RowReader& reader) {
  for (const char* column :
       {"capture", "sex", "stage", "svl_mm", "total_mm", "mass_g", "released", "individual"})
    if (!reader.text(column).empty())
      reader.refuse(column, {messages::kAnimalWithoutCatch, messages::kLeaveEmptyOrNamePhoto});
}

}  // namespace

std::variant<std::monostate, SheetRow, NoCatch> read_row(const SheetColumns& columns, const CsvRecord& record,
                                                         std::chrono::year_month_day today,
                                                         std::vector<SheetProblem>& problems) {
  RowReader reader(columns, record, problems);
  const bool nothing_caught = says_no_catch(reader.text("photo"));
  SheetRow row;
  row.line = record.line;
  if (!nothing_caught) row.photo = reader.take("photo", read_photo_name(reader.text("photo")));
  row.site = reader.label("site");
  row.pond = reader.label("pond");
  row.night = reader.take("night", read_night(reader.text("night"), today));
  row.trap = reader.label("trap");
  row.capture = reader.label("capture");
  row.sex = reader.take("sex", read_sex(reader.text("sex")));
  row.stage = reader.take("stage", read_stage(reader.text("stage")));
  row.released = reader.take("released", read_yes_or_no(reader.text("released")));
  row.svl_mm =
      reader.take("svl_mm", read_number(reader.text("svl_mm"), kSvlMm[0], kSvlMm[1], messages::kMillimetres));
  row.total_mm = reader.take(
      "total_mm", read_number(reader.text("total_mm"), kTotalMm[0], kTotalMm[1], messages::kMillimetres));
  row.mass_g =
      reader.take("mass_g", read_number(reader.text("mass_g"), kMassG[0], kMassG[1], messages::kGrams));
  row.observer = reader.label("observer");
  row.licence = reader.label("licence");
  row.latitude = reader.take("latitude", read_number(reader.text("latitude"), -90, 90, messages::kDegrees));
  row.longitude =
      reader.take("longitude", read_number(reader.text("longitude"), -180, 180, messages::kDegrees));
  row.individual = reader.label("individual");
  row.notes = reader.text("notes");
  for (const std::string& column : night_columns())
    if (std::string text = reader.label(column); !text.empty()) row.of_night[column] = std::move(text);
  if (reader.good() && row.latitude.has_value() != row.longitude.has_value())
    reader.refuse(row.latitude ? "longitude" : "latitude",
                  {messages::kCellEmpty, messages::kGiveBothDegrees});
  if (row.svl_mm && row.total_mm && *row.total_mm < *row.svl_mm)
    reader.refuse("total_mm", {messages::kTotalBelowSvl, messages::kAreTheySwapped});
  if (nothing_caught) refuse_an_animal(reader);
  if (!reader.good()) return {};
  if (nothing_caught)
    return NoCatch{row.line, row.site,     row.pond,    row.night,
                   row.trap, row.of_night, row.licence, row.observer};
  return row;
}

}  // namespace evet
