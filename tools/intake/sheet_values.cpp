#include "tools/intake/sheet_values.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

#include "matcher/base/messages.h"
#include "tools/intake/messages.h"
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

Message said_of(const MessageText& text, std::string_view cell) {
  return {text, {{"text", in_quotes(cell)}}};
}

// What would be right where a word is not known: the word that was probably meant first.
Message near_or(std::string_view text, const std::vector<std::string>& known, const MessageText& otherwise) {
  const std::optional<std::string> meant = near_miss(text, known);
  if (!meant) return otherwise;
  return {messages::kDidYouMeanElse, {{"meant", *meant}, {"else", Message(otherwise)}}};
}

Reason impossible_date(std::string_view text, int year, int month) {
  if (month < 1 || month > 12)
    return {Message(messages::kNoSuchMonth, {{"text", in_quotes(text)}, {"month", std::to_string(month)}}),
            messages::kWriteYearMonthDay};
  const std::chrono::year_month_day_last last{
      std::chrono::year(year), std::chrono::month_day_last(std::chrono::month(static_cast<unsigned>(month)))};
  return {said_of(messages::kNotADate, text),
          Message(messages::kMonthHasDays,
                  {{"month", Message(messages::kMonths[static_cast<std::size_t>(month - 1)])},
                   {"year", std::to_string(year)},
                   {"days", std::to_string(static_cast<unsigned>(last.day()))}})};
}

Reason other_date_form(std::string_view text, const std::optional<DateParts>& parts) {
  if (parts && parts->digits[2] == 4) {
    const year_month_day day_first = make_date(parts->number[2], parts->number[1], parts->number[0]);
    const year_month_day month_first = make_date(parts->number[2], parts->number[0], parts->number[1]);
    if (day_first.ok() && month_first.ok())
      return {said_of(messages::kTwoDays, text),
              Message(messages::kWriteEitherDate, {{"date", iso(day_first)}, {"other", iso(month_first)}})};
  }
  if (text.size() == 5 && text.find_first_not_of("0123456789") == std::string_view::npos)
    return {said_of(messages::kSpreadsheetDay, text), messages::kFormatAsText};
  return {said_of(messages::kNotYearMonthDay, text), messages::kWriteNight};
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
  if (text.empty()) return {{}, Reason{messages::kCellEmpty, messages::kWriteNight}};
  const std::optional<DateParts> parts = date_parts(text);
  const std::optional<year_month_day> meant = only_reading(parts);
  if (!meant && parts && parts->sign == '-' && parts->digits == std::array<std::size_t, 3>{4, 2, 2})
    return {{}, impossible_date(text, parts->number[0], parts->number[1])};
  if (!meant) return {{}, other_date_form(text, parts)};
  const year_month_day date = *meant;
  if (date > today)
    return {{},
            Reason{Message(messages::kInTheFuture, {{"text", in_quotes(text)}, {"today", iso(today)}}),
                   messages::kWriteNightOnly}};
  if (static_cast<int>(date.year()) < 1900)
    return {{}, Reason{said_of(messages::kBefore1900, text), messages::kWriteFullYear}};
  return {iso(date), std::nullopt};
}

Cell<Sex> read_sex(std::string_view text) {
  static const std::vector<std::string> known{"female", "male", "unknown"};
  const std::string lower = lower_ascii(text);
  if (lower.empty() || lower == "unknown" || lower == "u" || lower == "?")
    return {Sex::unknown, std::nullopt};
  if (lower == "female" || lower == "f") return {Sex::female, std::nullopt};
  if (lower == "male" || lower == "m") return {Sex::male, std::nullopt};
  return {Sex::unknown,
          Reason{said_of(messages::kNotKnown, text), near_or(text, known, messages::kWriteSex)}};
}

Cell<std::string> read_stage(std::string_view text) {
  static const std::vector<std::string> known{"adult", "subadult", "juvenile", "metamorph"};
  const std::string lower = lower_ascii(text);
  if (lower.empty()) return {};
  for (const std::string& stage : known)
    if (lower == stage) return {stage, std::nullopt};
  return {{}, Reason{said_of(messages::kNotKnown, text), near_or(text, known, messages::kWriteStage)}};
}

Cell<std::optional<double>> read_number(std::string_view text, double low, double high, const Message& unit) {
  if (text.empty()) return {};
  std::string pointed(text);
  if (pointed.find('.') == std::string::npos)
    if (const std::size_t comma = pointed.find(','); comma != std::string::npos) pointed[comma] = '.';
  double value = 0;
  const auto [end, status] = std::from_chars(pointed.data(), pointed.data() + pointed.size(), value);
  const Message range(
      messages::kNumberFromTo,
      {{"unit", unit}, {"low", fmt::format("{:g}", low)}, {"high", fmt::format("{:g}", high)}});
  if (status != std::errc() || end != pointed.data() + pointed.size() || !std::isfinite(value))
    return {
        {},
        Reason{said_of(messages::kNotANumber, text), Message(messages::kWriteNumber, {{"range", range}})}};
  if (value < low || value > high)
    return {
        {},
        Reason{said_of(messages::kOutOfRange, text), Message(messages::kWriteWithin, {{"range", range}})}};
  return {value, std::nullopt};
}

Cell<std::optional<bool>> read_yes_or_no(std::string_view text) {
  const std::string lower = lower_ascii(text);
  if (lower.empty()) return {};
  if (lower == "yes" || lower == "y") return {true, std::nullopt};
  if (lower == "no" || lower == "n") return {false, std::nullopt};
  return {{}, Reason{said_of(messages::kNeitherYesNorNo, text), messages::kWriteReleased}};
}

bool says_no_catch(std::string_view text) {
  return lower_ascii(text) == "none";
}

Cell<std::string> read_photo_name(std::string_view text) {
  if (text.empty()) return {{}, Reason{messages::kCellEmpty, messages::kWritePhotoOrNone}};
  if (text.find('\0') != std::string_view::npos)
    return {{}, Reason{said_of(messages::kHoldsZeroByte, text), messages::kWritePhoto}};
  bool climbs = text.front() == '/';
  for (std::size_t start = 0; start <= text.size();) {
    const std::size_t end = std::min(text.find('/', start), text.size());
    climbs = climbs || text.substr(start, end - start) == "..";
    start = end + 1;
  }
  if (climbs) return {{}, Reason{said_of(messages::kLeadsOutOfFolder, text), messages::kWritePhotoInside}};
  return {std::string(text), std::nullopt};
}

}  // namespace evet
