#include "tools/intake/workbook.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <map>
#include <pugixml.hpp>
#include <set>

#include "tools/intake/messages.h"
#include "tools/intake/packed_parts.h"
#include "tools/words/text.h"

namespace evet {
namespace {

using Node = pugi::xml_node;
using Records = std::vector<CsvRecord>;

// Why a workbook cannot be read as a sheet.
struct Unreadable {
  Reason reason;
};

std::string_view local(const char* name) {
  const std::string_view whole(name);
  const std::size_t colon = whole.find(':');
  return colon == std::string_view::npos ? whole : whole.substr(colon + 1);
}
bool is(const Node& node, std::string_view name) {
  return local(node.name()) == name;
}
// Whatever prefix the file gives to the namespace.
Node child(const Node& node, std::string_view name) {
  for (const Node& one : node.children())
    if (is(one, name)) return one;
  return {};
}
std::string attribute(const Node& node, std::string_view name) {
  for (const pugi::xml_attribute& one : node.attributes())
    if (local(one.name()) == name) return one.value();
  return {};
}
std::size_t number_in(const std::string& text, std::size_t otherwise) {
  std::size_t value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  return status == std::errc() && end == text.data() + text.size() ? value : otherwise;
}

std::string shortest(const std::string& text) {
  double value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (status != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return text;
  char out[40];
  std::snprintf(out, sizeof out, "%.12g", value);  // 71.3 was stored as 71.299999999999997
  return out;
}

pugi::xml_document parsed(const std::string& xml) {
  pugi::xml_document document;
  if (!document.load_buffer(xml.data(), xml.size(), pugi::parse_default | pugi::parse_ws_pcdata_single))
    throw Unreadable{{messages::kSpreadsheetDamaged, messages::kOpenAndSaveAsCsv}};
  return document;
}

// Every piece of text below, in order.
std::string text_below(const Node& node, std::size_t at_most = 32'000) {
  std::string out;
  for (Node at = node.first_child(); at && out.size() < at_most;) {
    if (at.type() == pugi::node_pcdata || at.type() == pugi::node_cdata) out += at.value();
    if (is(at, "s")) out += std::string(std::min<std::size_t>(number_in(attribute(at, "c"), 1), 100), ' ');
    if (is(at, "tab")) out += ' ';
    const bool phonetic = is(at, "rPh") || is(at, "annotation");  // said beside the text, no part of it
    if (at.first_child() && !phonetic) {
      at = at.first_child();
      continue;
    }
    while (at && at != node && !at.next_sibling()) at = at.parent();
    if (!at || at == node) break;
    at = at.next_sibling();
  }
  return out;
}

// Puts cells at their places, within bounds.
class Filling {
 public:
  explicit Filling(const WorkbookLimits& limits) : limits_(limits) {}

  void put(std::size_t row, std::size_t column, std::string text) {
    if (text.empty()) return;
    if (column >= limits_.max_columns)
      throw Unreadable{
          {Message(messages::kSomethingInColumn, {{"column", column + 1}}), messages::kTakeOutToTheRight}};
    if (records_.empty() || records_.back().line != row + 1) {
      if (records_.size() > limits_.max_rows)
        throw Unreadable{
            {Message(messages::kTooManyRows, {{"rows", limits_.max_rows}}), messages::kSplitByNight}};
      records_.push_back({row + 1, {}});
    }
    auto& fields = records_.back().fields;
    if (fields.size() <= column) fields.resize(column + 1);
    fields[column] = std::move(text);
    width_ = std::max(width_, column + 1);
  }
  Records take() {
    for (CsvRecord& record : records_) record.fields.resize(width_);
    return std::move(records_);
  }

 private:
  const WorkbookLimits& limits_;
  Records records_;
  std::size_t width_ = 0;
};

std::string part_of(const PackedParts& parts, const std::string& name, const WorkbookLimits& limits) {
  auto part = parts.part(name, limits.max_part_bytes);
  if (!part)
    throw Unreadable{{parts.locked() ? messages::kSpreadsheetLocked : messages::kSpreadsheetDamagedOrLarge,
                      messages::kOpenAndSaveAsCsv}};
  return std::move(*part);
}

// ECMA-376 part 1, 18.8.30: the numbers of the formats that are built in, and the letters of those that are not.
bool shows_a_date(std::size_t id, const std::string& code) {
  if ((id >= 14 && id <= 17) || id == 22 || (id >= 27 && id <= 36) || (id >= 50 && id <= 58)) return true;
  bool quoted_text = false, bracketed = false;
  for (std::size_t i = 0; i < code.size(); ++i) {
    const char c = code[i];
    if (c == '\\' || c == '_' || c == '*') {
      ++i;
    } else if (c == '"') {
      quoted_text = !quoted_text;
    } else if (c == '[' || c == ']') {
      bracketed = c == '[';
    } else if (!quoted_text && !bracketed && std::string_view("dDyY").find(c) != std::string_view::npos) {
      return true;
    }
  }
  return false;
}

// Styles whose cells are dates, by number.
std::set<std::size_t> date_styles(const PackedParts& parts, const WorkbookLimits& limits) {
  std::set<std::size_t> out;
  if (!parts.has("xl/styles.xml")) return out;
  const pugi::xml_document document = parsed(part_of(parts, "xl/styles.xml", limits));
  const Node sheet = document.document_element();
  std::map<std::size_t, std::string> codes;
  for (const Node& one : child(sheet, "numFmts").children())
    codes[number_in(attribute(one, "numFmtId"), 0)] = attribute(one, "formatCode");
  std::size_t number = 0;
  for (const Node& one : child(sheet, "cellXfs").children()) {
    if (!is(one, "xf")) continue;
    const std::size_t id = number_in(attribute(one, "numFmtId"), 0);
    if (shows_a_date(id, codes.contains(id) ? codes[id] : std::string())) out.insert(number);
    ++number;
  }
  return out;
}

// Days since the end of 1899 (or since 1904) as a date. The first has a 29 February 1900 that never was, so what
// lies before March 1900 is off by one; no night of ours does.
std::string date_of_serial(const std::string& text, bool from_1904) {
  double serial = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), serial);
  constexpr double kLast = 2'958'465;  // 31 December 9999
  if (status != std::errc() || end != text.data() + text.size() || !(serial >= 61) || serial > kLast)
    return text;
  using std::chrono::sys_days, std::chrono::year, std::chrono::days;
  const sys_days zero = from_1904 ? sys_days(year(1904) / 1 / 1) : sys_days(year(1899) / 12 / 30);
  const std::chrono::year_month_day date(zero + days(static_cast<int>(serial)));
  char out[32];
  std::snprintf(out, sizeof out, "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return out;
}

struct Xlsx {
  std::vector<std::string> shared;
  std::set<std::size_t> dates;
  bool from_1904 = false;
  std::string sheet = "xl/worksheets/sheet1.xml";
};

// The first sheet is named in the workbook, and its file in the workbook's relations.
void find_first_sheet(const PackedParts& parts, const WorkbookLimits& limits, Xlsx& book) {
  const pugi::xml_document workbook = parsed(part_of(parts, "xl/workbook.xml", limits));
  const std::string from = attribute(child(workbook.document_element(), "workbookPr"), "date1904");
  book.from_1904 = from == "1" || from == "true";
  const Node first = child(child(workbook.document_element(), "sheets"), "sheet");
  const std::string id = first.attribute("r:id").value();
  if (!parts.has("xl/_rels/workbook.xml.rels")) return;
  const pugi::xml_document relations = parsed(part_of(parts, "xl/_rels/workbook.xml.rels", limits));
  for (const Node& one : relations.document_element().children()) {
    if (id.empty() || attribute(one, "Id") != id) continue;
    const std::string target = attribute(one, "Target");
    book.sheet = target.starts_with('/') ? target.substr(1) : "xl/" + target;
  }
}

std::string xlsx_value(const Node& cell, const Xlsx& book) {
  const std::string type = attribute(cell, "t"), value = child(cell, "v").text().get();
  if (type == "s") {
    const std::size_t i = number_in(value, book.shared.size());
    if (i >= book.shared.size())
      throw Unreadable{{messages::kSpreadsheetDamaged, messages::kOpenAndSaveAsCsv}};
    return book.shared[i];
  }
  if (type == "inlineStr") return text_below(child(cell, "is"));
  if (type == "str" || type == "e" || type == "d") return type == "d" ? value.substr(0, 10) : value;
  if (type == "b") return value == "1" ? "yes" : "no";
  if (value.empty()) return value;
  if (book.dates.contains(number_in(attribute(cell, "s"), std::string::npos)))
    return date_of_serial(value, book.from_1904);
  return shortest(value);
}

// "AB7" -> 27; nothing of a column: `otherwise`.
std::size_t column_of(const std::string& place, std::size_t otherwise) {
  std::size_t column = 0, letters = 0;
  for (; letters < place.size() && letters < 4 && place[letters] >= 'A' && place[letters] <= 'Z'; ++letters)
    column = column * 26 + static_cast<std::size_t>(place[letters] - 'A' + 1);
  return letters == 0 ? otherwise : column - 1;
}

Records read_xlsx(const PackedParts& parts, const WorkbookLimits& limits) {
  Xlsx book;
  find_first_sheet(parts, limits, book);
  book.dates = date_styles(parts, limits);
  if (parts.has("xl/sharedStrings.xml")) {
    const pugi::xml_document strings = parsed(part_of(parts, "xl/sharedStrings.xml", limits));
    for (const Node& one : strings.document_element().children())
      if (is(one, "si")) book.shared.push_back(text_below(one));
  }
  const pugi::xml_document sheet = parsed(part_of(parts, book.sheet, limits));
  Filling filling(limits);
  std::size_t row = 0;
  for (const Node& one : child(sheet.document_element(), "sheetData").children()) {
    if (!is(one, "row")) continue;
    const std::size_t said = number_in(attribute(one, "r"), row + 1);
    if (said <= row) throw Unreadable{{messages::kSpreadsheetDamaged, messages::kOpenAndSaveAsCsv}};
    row = said;
    std::size_t column = 0;
    for (const Node& cell : one.children()) {
      if (!is(cell, "c")) continue;
      column = column_of(attribute(cell, "r"), column);
      filling.put(row - 1, column, xlsx_value(cell, book));
      ++column;
    }
  }
  return filling.take();
}

std::string ods_value(const Node& cell) {
  const std::string type = attribute(cell, "value-type");
  if (type == "date") return attribute(cell, "date-value").substr(0, 10);
  if (type == "float" || type == "percentage" || type == "currency")
    return shortest(attribute(cell, "value"));
  if (type == "boolean") return attribute(cell, "boolean-value") == "true" ? "yes" : "no";
  std::string out;
  for (const Node& one : cell.children()) {
    if (!is(one, "p")) continue;
    if (!out.empty()) out += '\n';
    out += text_below(one);
  }
  return out;
}

void read_ods_row(const Node& row, std::size_t at, Filling& filling, const WorkbookLimits& limits) {
  std::size_t column = 0;
  for (const Node& cell : row.children()) {
    if (!is(cell, "table-cell") && !is(cell, "covered-table-cell")) continue;
    const std::size_t repeated =
        std::max<std::size_t>(number_in(attribute(cell, "number-columns-repeated"), 1), 1);
    const std::string value = ods_value(cell);
    if (!value.empty())
      for (std::size_t i = 0; i < std::min(repeated, limits.max_columns + 1); ++i)
        filling.put(at, column + i, value);
    if (repeated > (1U << 20)) return;
    column += repeated;
  }
}

// Rows may lie in groups and under headers.
void read_ods_rows(const Node& table, std::size_t& at, int depth, Filling& filling,
                   const WorkbookLimits& limits) {
  for (const Node& one : table.children()) {
    if (is(one, "table-row")) {
      const std::size_t repeated =
          std::max<std::size_t>(number_in(attribute(one, "number-rows-repeated"), 1), 1);
      const bool any =
          std::any_of(one.begin(), one.end(), [](const Node& cell) { return !ods_value(cell).empty(); });
      if (any)
        for (std::size_t i = 0; i < std::min(repeated, limits.max_rows + 2); ++i)
          read_ods_row(one, at + i, filling, limits);
      at += std::min<std::size_t>(repeated, 1U << 24);
    } else if (depth < 8 &&
               (is(one, "table-header-rows") || is(one, "table-rows") || is(one, "table-row-group"))) {
      read_ods_rows(one, at, depth + 1, filling, limits);
    }
  }
}

Records read_ods(const PackedParts& parts, const WorkbookLimits& limits) {
  const pugi::xml_document content = parsed(part_of(parts, "content.xml", limits));
  const Node book = child(child(content.document_element(), "body"), "spreadsheet");
  const Node table = child(book, "table");
  if (!table) throw Unreadable{{messages::kNoTable, messages::kOpenAndSaveAsCsv}};
  Filling filling(limits);
  std::size_t at = 0;
  read_ods_rows(table, at, 0, filling, limits);
  return filling.take();
}

}  // namespace

bool is_workbook(std::string_view file) {
  return file.starts_with("PK\x03\x04");
}

std::variant<Records, SheetProblem> read_workbook(std::string_view file, const WorkbookLimits& limits) {
  const auto problem = [](const Unreadable& why) { return SheetProblem{1, {}, why.reason, true}; };
  if (file.size() > limits.max_bytes)
    return problem({{Message(messages::kSheetTooLarge, {{"megabytes", limits.max_bytes >> 20}}),
                     messages::kIsItTheSmallSheet}});
  try {
    const auto parts = PackedParts::open(file);
    if (parts && parts->has("xl/workbook.xml")) return read_xlsx(*parts, limits);
    if (parts && parts->has("content.xml")) return read_ods(*parts, limits);
    throw Unreadable{{parts ? messages::kPackedWithoutSpreadsheet : messages::kSpreadsheetDamaged,
                      messages::kSaveAsSheet}};
  } catch (const Unreadable& why) {
    return problem(why);
  }
}

}  // namespace evet
