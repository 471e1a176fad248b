#include "tools/report/html.h"

#include <array>
#include <cmath>
#include <string>

#include "fmt/format.h"

namespace evet::report {

std::string in_words(double probability) {
  probability =
      std::round(probability * 1000) / 1000;  // what percent() shows: 99.0 % reads the same everywhere
  if (probability >= 0.99) return "virtually certain";
  if (probability >= 0.90) return "very likely";
  if (probability >= 0.66) return "likely";
  if (probability >= 0.33) return "about as likely as not";
  if (probability >= 0.10) return "unlikely";
  if (probability >= 0.01) return "very unlikely";
  return "exceptionally unlikely";
}

std::string figure(double value) {
  if (std::isnan(value)) return "not defined";
  if (std::isinf(value)) return "not bounded";
  const double size = std::abs(value);
  return fmt::format("{:.{}f}", value, size >= 100 ? 0 : size >= 10 ? 1 : 2);
}

std::string long_date(const std::string& date) {
  static constexpr std::array months = {"January",   "February", "March",    "April",
                                        "May",       "June",     "July",     "August",
                                        "September", "October",  "November", "December"};
  const auto digit = [&](std::size_t i) { return date[i] >= '0' && date[i] <= '9'; };
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') return date;
  for (const std::size_t i : {0, 1, 2, 3, 5, 6, 8, 9})
    if (!digit(i)) return date;
  const int month = std::stoi(date.substr(5, 2));
  if (month < 1 || month > 12) return date;
  return fmt::format("{} {} {}", std::stoi(date.substr(8, 2)), months.at(static_cast<std::size_t>(month - 1)),
                     date.substr(0, 4));
}

std::string count_of(std::size_t n, const std::string& one, const std::string& many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

}  // namespace evet::report
