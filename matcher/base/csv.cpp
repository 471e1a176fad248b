#include "matcher/base/csv.h"

#include "matcher/base/messages.h"

#include <csv.h>

#include <charconv>
#include <new>

namespace evet {
namespace {

struct Collector {
  std::vector<CsvRecord> records;
  CsvRecord open;

  static void field(void* text, std::size_t length, void* self) {
    static_cast<Collector*>(self)->open.fields.emplace_back(static_cast<const char*>(text), length);
  }
  static void record_end(int, void* self) {
    auto& collector = *static_cast<Collector*>(self);
    collector.records.push_back(std::move(collector.open));
    collector.open = {};
  }
};

// libcsv keeps its state in a plain struct that must be freed.
class Parser {
 public:
  explicit Parser(char separator) {
    if (csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI) != 0) throw std::bad_alloc();
    csv_set_delim(&parser_, static_cast<unsigned char>(separator));
  }
  ~Parser() { csv_free(&parser_); }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;

  bool feed(std::string_view text, Collector& into) {
    return csv_parse(&parser_, text.data(), text.size(), Collector::field, Collector::record_end, &into) ==
           text.size();
  }
  bool finish(Collector& into) {
    return csv_fini(&parser_, Collector::field, Collector::record_end, &into) == 0;
  }

 private:
  csv_parser parser_{};
};

// The next physical line with its line end, whichever of the three kinds it is.
std::string_view take_line(std::string_view& rest) {
  const std::size_t end = rest.find_first_of("\r\n");
  std::size_t length = end == std::string_view::npos ? rest.size() : end + 1;
  if (end != std::string_view::npos && rest[end] == '\r' && end + 1 < rest.size() && rest[end + 1] == '\n')
    ++length;
  const std::string_view line = rest.substr(0, length);
  rest.remove_prefix(length);
  return line;
}

bool blank(std::string_view line) {
  return line.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

CsvProblem misplaced_quote(std::size_t began, std::size_t line) {
  if (line > began)
    return {began, {Message(messages::kQuoteNotClosed, {{"line", line}}), messages::kCloseTheQuote}};
  return {line, {messages::kQuoteInsideField, messages::kQuoteTheField}};
}

}  // namespace

CsvReading read_csv(std::string_view text, char separator) {
  Parser parser(separator);
  Collector collector;
  std::size_t line = 0;
  bool inside_record = false;  // a quoted field carries on over the line end
  while (!text.empty()) {
    const std::string_view physical = take_line(text);
    ++line;
    if (!inside_record) collector.open.line = line;
    const std::size_t began = collector.open.line;
    const std::size_t records = collector.records.size();
    if (!parser.feed(physical, collector)) return {{}, misplaced_quote(began, line)};
    const bool ended = collector.records.size() > records;
    inside_record = !ended && (inside_record || !blank(physical));
  }
  const std::size_t began = collector.open.line;
  if (!parser.finish(collector)) return {{}, misplaced_quote(began, line + 1)};
  return {std::move(collector.records), std::nullopt};
}

std::string csv_field(std::string_view text) {
  std::string field(text);
  if (!field.empty() && std::string_view("=+-@\t\r").find(field[0]) != std::string_view::npos) {
    double number = 0;
    const auto [end, status] = std::from_chars(field.data(), field.data() + field.size(), number);
    if (status != std::errc() || end != field.data() + field.size()) field.insert(field.begin(), '\'');
  }
  constexpr std::string_view kBlanks = " \t";  // readers drop them around what is not quoted
  const bool blank_ends = !field.empty() && (kBlanks.find(field.front()) != std::string_view::npos ||
                                             kBlanks.find(field.back()) != std::string_view::npos);
  if (field.find_first_of("\",;\r\n") == std::string::npos && !blank_ends) return field;
  std::string escaped = "\"";
  for (const char c : field) {
    if (c == '"') escaped += '"';
    escaped += c;
  }
  return escaped + '"';
}

}  // namespace evet
