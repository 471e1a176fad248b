#include "tools/intake/sheet_values.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

#include "tools/words/text.h"

namespace evet {
namespace {

using std::chrono::year_month_day;

std::string iso(year_month_day date) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return text.data();
}

struct DateParts {
  std::array<int, 3> number{};
  std::array<std::size_t, 3> digits{};
  char sign = 0;
};

// Three runs of digits with the same sign between them: the shape of every date that people write.
std::optional<DateParts> date_parts(std::string_view text) {
  DateParts parts;
  std::size_t at = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const std::size_t start = at;
    while (at < text.size() && text[at] >= '0' && text[at] <= '9') ++at;
    parts.digits[i] = at - start;
    if (parts.digits[i] == 0 || parts.digits[i] > 4) return std::nullopt;
    std::from_chars(text.data() + start, text.data() + at, parts.number[i]);
    if (i == 2) break;
    if (at >= text.size() || std::string_view("-./").find(text[at]) == std::string_view::npos)
      return std::nullopt;
    if (i == 1 && text[at] != parts.sign) return std::nullopt;
    parts.sign = text[at++];
  }
  return at == text.size() ? std::optional(parts) : std::nullopt;
}

year_month_day make_date(int year, int month, int day) {
  return {std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
          std::chrono::day(static_cast<unsigned>(day))};
}

CellProblem impossible_date(std::string_view text, int year, int month) {
  static const std::array<const char*, 12> names{"January",   "February", "March",    "April",
                                                 "May",       "June",     "July",     "August",
                                                 "September", "October",  "November", "December"};
  if (month < 1 || month > 12)
    return {quoted(text) + " is not a date: there is no month " + std::to_string(month),
            "write year-month-day, as 2024-05-14"};
  const std::chrono::year_month_day_last last{
      std::chrono::year(year), std::chrono::month_day_last(std::chrono::month(static_cast<unsigned>(month)))};
  return {quoted(text) + " is not a date", std::string(names[static_cast<std::size_t>(month - 1)]) + " " +
                                               std::to_string(year) + " has " +
                                               std::to_string(static_cast<unsigned>(last.day())) + " days"};
}

CellProblem other_date_form(std::string_view text, const std::optional<DateParts>& parts) {
  const std::string wrong = quoted(text) + " is not written as year-month-day";
  if (parts && parts->digits[2] == 4) {
    const year_month_day day_first = make_date(parts->number[2], parts->number[1], parts->number[0]);
    const year_month_day month_first = make_date(parts->number[2], parts->number[0], parts->number[1]);
    if (day_first.ok() && month_first.ok())
      return {quoted(text) + " can be two days",
              "write " + iso(day_first) + " or " + iso(month_first) + ", whichever is meant"};
  }
  if (text.size() == 5 && text.find_first_not_of("0123456789") == std::string_view::npos)
    return {quoted(text) + " is a spreadsheet's own day number, not a date",
            "format the column as text or as YYYY-MM-DD and save the sheet again"};
  return {wrong, "write the date on which the night began, as 2024-05-14"};
}

// The one day that can be meant, whichever order people write it in: 22.05.2024, 5/14/2024, 2024/5/4. Nothing
// for 5.4.2024, which is two days.
std::optional<year_month_day> only_reading(const std::optional<DateParts>& parts) {
  if (!parts) return std::nullopt;
  const auto [a, b, c] = parts->number;
  const auto& digits = parts->digits;
  if (digits[0] == 4 && digits[1] <= 2 && digits[2] <= 2) {
    const year_month_day date = make_date(a, b, c);
    return date.ok() ? std::optional(date) : std::nullopt;
  }
  if (digits[2] != 4 || digits[0] > 2 || digits[1] > 2) return std::nullopt;
  const year_month_day day_first = make_date(c, b, a), month_first = make_date(c, a, b);
  if (day_first.ok() && month_first.ok() && day_first != month_first) return std::nullopt;
  if (day_first.ok()) return day_first;
  return month_first.ok() ? std::optional(month_first) : std::nullopt;
}

}  // namespace

Cell<std::string> read_night(std::string_view text, year_month_day today) {
  if (text.empty())
    return {{}, CellProblem{"is empty", "write the date on which the night began, as 2024-05-14"}};
  const std::optional<DateParts> parts = date_parts(text);
  const std::optional<year_month_day> meant = only_reading(parts);
  if (!meant && parts && parts->sign == '-' && parts->digits == std::array<std::size_t, 3>{4, 2, 2})
    return {{}, impossible_date(text, parts->number[0], parts->number[1])};
  if (!meant) return {{}, other_date_form(text, parts)};
  const year_month_day date = *meant;
  if (date > today)
    return {{},
            CellProblem{quoted(text) + " is in the future (today is " + iso(today) + ")",
                        "write the date on which the night began"}};
  if (static_cast<int>(date.year()) < 1900)
    return {{}, CellProblem{quoted(text) + " is before 1900", "write the year with all four digits"}};
  return {iso(date), std::nullopt};
}

Cell<Sex> read_sex(std::string_view text) {
  static const std::vector<std::string> known{"female", "male", "unknown"};
  const std::string lower = lower_ascii(text);
  if (lower.empty() || lower == "unknown" || lower == "u" || lower == "?")
    return {Sex::unknown, std::nullopt};
  if (lower == "female" || lower == "f") return {Sex::female, std::nullopt};
  if (lower == "male" || lower == "m") return {Sex::male, std::nullopt};
  const std::optional<std::string> meant = near_miss(text, known);
  return {Sex::unknown, CellProblem{quoted(text) + " is not known",
                                    (meant ? "did you mean " + *meant + "? " : std::string()) +
                                        "write female, male or unknown, or leave it empty"}};
}

Cell<std::string> read_stage(std::string_view text) {
  static const std::vector<std::string> known{"adult", "subadult", "juvenile", "metamorph"};
  const std::string lower = lower_ascii(text);
  if (lower.empty()) return {};
  for (const std::string& stage : known)
    if (lower == stage) return {stage, std::nullopt};
  const std::optional<std::string> meant = near_miss(text, known);
  return {{},
          CellProblem{quoted(text) + " is not known",
                      (meant ? "did you mean " + *meant + "? " : std::string()) +
                          "write adult, subadult, juvenile or metamorph, or leave it empty"}};
}

Cell<std::optional<double>> read_number(std::string_view text, double low, double high,
                                        std::string_view unit) {
  if (text.empty()) return {};
  std::string pointed(text);
  if (pointed.find('.') == std::string::npos)
    if (const std::size_t comma = pointed.find(','); comma != std::string::npos) pointed[comma] = '.';
  double value = 0;
  const auto [end, status] = std::from_chars(pointed.data(), pointed.data() + pointed.size(), value);
  std::array<char, 96> range{};
  std::snprintf(range.data(), range.size(), "a number of %.*s from %g to %g", static_cast<int>(unit.size()),
                unit.data(), low, high);
  if (status != std::errc() || end != pointed.data() + pointed.size() || !std::isfinite(value))
    return {{},
            CellProblem{quoted(text) + " is not a number",
                        "write " + std::string(range.data()) + ", without the unit"}};
  if (value < low || value > high)
    return {{}, CellProblem{quoted(text) + " is out of range", "write " + std::string(range.data())}};
  return {value, std::nullopt};
}

Cell<std::optional<bool>> read_yes_or_no(std::string_view text) {
  const std::string lower = lower_ascii(text);
  if (lower.empty()) return {};
  if (lower == "yes" || lower == "y") return {true, std::nullopt};
  if (lower == "no" || lower == "n") return {false, std::nullopt};
  return {{},
          CellProblem{quoted(text) + " is neither yes nor no",
                      "write no if the animal died or was not released, yes or nothing if it was; more goes "
                      "into notes"}};
}

bool says_no_catch(std::string_view text) {
  return lower_ascii(text) == "none";
}

Cell<std::string> read_photo_name(std::string_view text) {
  const std::string right = "write the name of a file in the photos folder";
  if (text.empty())
    return {{}, CellProblem{"is empty", right + ", or none if nothing was caught that night"}};
  if (text.find('\0') != std::string_view::npos)
    return {{}, CellProblem{quoted(text) + " holds a zero byte", right}};
  bool climbs = text.front() == '/';
  for (std::size_t start = 0; start <= text.size();) {
    const std::size_t end = std::min(text.find('/', start), text.size());
    climbs = climbs || text.substr(start, end - start) == "..";
    start = end + 1;
  }
  if (climbs)
    return {{},
            CellProblem{quoted(text) + " leads out of the photos folder",
                        right + ", without '..' or a leading '/'"}};
  return {std::string(text), std::nullopt};
}

}  // namespace evet
