#include "tools/intake/time_groups.h"

#include <algorithm>
#include <chrono>
#include <cstdio>

#include "matcher/base/moment.h"

namespace evet {
namespace {

constexpr long long kDaySeconds = 86'400;
constexpr long long kNightEndsAt = 15 * 3600LL;  // of the next day
constexpr std::size_t kTimeChars = 19;           // 2024-05-14T22:41:07

bool digit(char c) {
  return c >= '0' && c <= '9';
}

// Two digits at `at`, at most `most`; -1 otherwise.
int two_digits(std::string_view text, std::size_t at, int most) {
  if (!digit(text[at]) || !digit(text[at + 1])) return -1;
  const int value = (text[at] - '0') * 10 + (text[at + 1] - '0');
  return value <= most ? value : -1;
}

}  // namespace

long long clock_seconds(std::string_view time) {
  if (time.size() < kTimeChars || !is_date(time.substr(0, 10)) || time[10] != 'T' || time[13] != ':' ||
      time[16] != ':')
    return -1;
  const int hours = two_digits(time, 11, 23), minutes = two_digits(time, 14, 59),
            seconds = two_digits(time, 17, 60);
  if (hours < 0 || minutes < 0 || seconds < 0) return -1;
  return days_since_epoch(time.substr(0, 10)) * kDaySeconds + hours * 3600LL + minutes * 60LL + seconds;
}

std::string night_of(std::string_view time) {
  const long long seconds = clock_seconds(time);
  if (seconds < 0) return {};
  const std::chrono::sys_days day{std::chrono::days((seconds - kNightEndsAt) / kDaySeconds)};
  const std::chrono::year_month_day date{day};
  char text[32];
  std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return text;
}

bool counted_before(std::string_view a, std::string_view b) {
  std::size_t i = 0, j = 0;
  while (i < a.size() && j < b.size()) {
    if (!digit(a[i]) || !digit(b[j])) {
      if (a[i] != b[j]) return a[i] < b[j];
      ++i, ++j;
      continue;
    }
    while (i < a.size() && a[i] == '0') ++i;
    while (j < b.size() && b[j] == '0') ++j;
    const std::size_t from_i = i, from_j = j;
    while (i < a.size() && digit(a[i])) ++i;
    while (j < b.size() && digit(b[j])) ++j;
    const std::string_view x = a.substr(from_i, i - from_i), y = b.substr(from_j, j - from_j);
    if (x.size() != y.size()) return x.size() < y.size();
    if (x != y) return x < y;
  }
  if ((a.size() - i == 0) != (b.size() - j == 0)) return a.size() - i == 0;
  return a < b;  // differ in leading zeros alone, or not at all
}

std::vector<std::vector<std::string>> groups_by_time(std::vector<TakenAt> photos, int gap_seconds) {
  const auto before = [](const TakenAt& a, const TakenAt& b) {
    const long long x = clock_seconds(a.time), y = clock_seconds(b.time);
    if ((x < 0) != (y < 0)) return y < 0;
    return x != y ? x < y : counted_before(a.photo, b.photo);
  };
  std::sort(photos.begin(), photos.end(), before);
  std::vector<std::vector<std::string>> groups;
  long long last = -1;
  for (const TakenAt& photo : photos) {
    const long long now = clock_seconds(photo.time);
    if (groups.empty() || now < 0 || last < 0 || now - last > gap_seconds) groups.emplace_back();
    groups.back().push_back(photo.photo);
    last = now;
  }
  return groups;
}

}  // namespace evet
