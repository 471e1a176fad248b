#include "tools/report/html.h"

#include <array>
#include <cmath>
#include <string>

#include "fmt/format.h"

#include "tools/report/messages.h"
#include "tools/words/in_words.h"

namespace evet::report {

std::string in_words(double probability) {
  probability =
      std::round(probability * 1000) / 1000;  // what percent() shows: 99.0 % reads the same everywhere
  if (probability >= 0.99) return in_words(messages::kVirtuallyCertain);
  if (probability >= 0.90) return in_words(messages::kVeryLikely);
  if (probability >= 0.66) return in_words(messages::kIsLikely);
  if (probability >= 0.33) return in_words(messages::kAboutAsLikelyAsNot);
  if (probability >= 0.10) return in_words(messages::kUnlikely);
  if (probability >= 0.01) return in_words(messages::kVeryUnlikely);
  return in_words(messages::kExceptionallyUnlikely);
}

std::string figure(double value) {
  if (std::isnan(value)) return in_words(messages::kNotDefined);
  if (std::isinf(value)) return in_words(messages::kNotBounded);
  const double size = std::abs(value);
  return fmt::format("{:.{}f}", value, size >= 100 ? 0 : size >= 10 ? 1 : 2);
}

std::string long_date(const std::string& date) {
  static constexpr std::array months = {messages::kInJanuary, messages::kInFebruary, messages::kInMarch,
                                        messages::kInApril,   messages::kInMay,      messages::kInJune,
                                        messages::kInJuly,    messages::kInAugust,   messages::kInSeptember,
                                        messages::kInOctober, messages::kInNovember, messages::kInDecember};
  const auto digit = [&](std::size_t i) { return date[i] >= '0' && date[i] <= '9'; };
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') return date;
  for (const std::size_t i : {0, 1, 2, 3, 5, 6, 8, 9})
    if (!digit(i)) return date;
  const int month = std::stoi(date.substr(5, 2));
  if (month < 1 || month > 12) return date;
  return in_words(months.at(static_cast<std::size_t>(month - 1)),
                  {{"day", std::to_string(std::stoi(date.substr(8, 2)))}, {"year", date.substr(0, 4)}});
}

}  // namespace evet::report
