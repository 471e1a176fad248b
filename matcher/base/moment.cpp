#include "matcher/base/moment.h"

#include <cassert>
#include <chrono>
#include <cstdio>

namespace evet {
namespace {

using namespace std::chrono;

// The number written in text[at, at + n), or -1.
int number(std::string_view text, size_t at, size_t n) {
  if (at + n > text.size()) return -1;
  int value = 0;
  for (const char c : text.substr(at, n)) {
    if (c < '0' || c > '9') return -1;
    value = value * 10 + (c - '0');
  }
  return value;
}

std::optional<year_month_day> date_at(std::string_view text) {
  if (text.size() < 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const int y = number(text, 0, 4), m = number(text, 5, 2), d = number(text, 8, 2);
  if (y < 0 || m < 0 || d < 0) return std::nullopt;
  const year_month_day date{year{y}, month{static_cast<unsigned>(m)}, day{static_cast<unsigned>(d)}};
  if (!date.ok()) return std::nullopt;
  return date;
}

}  // namespace

std::string to_text(const Instant& instant) {
  const milliseconds local{instant.unix_ms + static_cast<std::int64_t>(instant.utc_offset_min) * 60000};
  const sys_days midnight = floor<days>(sys_time<milliseconds>(local));
  const year_month_day date{midnight};
  const auto ms = static_cast<int>((sys_time<milliseconds>(local) - midnight).count());
  const int offset = instant.utc_offset_min < 0 ? -instant.utc_offset_min : instant.utc_offset_min;
  char text[64];
  std::snprintf(text, sizeof text, "%04d-%02u-%02uT%02d:%02d:%02d.%03d%c%02d:%02d",
                static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                static_cast<unsigned>(date.day()), ms / 3600000, ms / 60000 % 60, ms / 1000 % 60, ms % 1000,
                instant.utc_offset_min < 0 ? '-' : '+', offset / 60, offset % 60);
  return text;
}

std::optional<Instant> parse_instant(std::string_view text) {
  const auto date = date_at(text);
  if (!date || text.size() < 20 || (text[10] != 'T' && text[10] != ' ')) return std::nullopt;
  const int h = number(text, 11, 2), m = number(text, 14, 2), s = number(text, 17, 2);
  if (h < 0 || h > 23 || m < 0 || m > 59 || s < 0 || s > 60 || text[13] != ':' || text[16] != ':')
    return std::nullopt;
  size_t at = 19;
  int ms = 0;
  if (text[at] == '.') {
    int scale = 100;
    for (++at; at < text.size() && text[at] >= '0' && text[at] <= '9'; ++at, scale /= 10)
      ms += (text[at] - '0') * scale;
  }
  int offset = 0;
  if (at < text.size() && text[at] == 'Z' && at + 1 == text.size()) {
    offset = 0;
  } else if (at + 6 == text.size() && (text[at] == '+' || text[at] == '-') && text[at + 3] == ':') {
    const int oh = number(text, at + 1, 2), om = number(text, at + 4, 2);
    if (oh < 0 || oh > 23 || om < 0 || om > 59) return std::nullopt;
    offset = (text[at] == '-' ? -1 : 1) * (oh * 60 + om);
  } else {
    return std::nullopt;
  }
  const milliseconds local =
      sys_days(*date).time_since_epoch() + hours(h) + minutes(m) + seconds(s) + milliseconds(ms);
  return Instant{local.count() - static_cast<std::int64_t>(offset) * 60000, offset};
}

bool is_date(std::string_view text) {
  return text.size() == 10 && date_at(text).has_value();
}

std::int64_t days_since_epoch(std::string_view date) {
  assert(is_date(date));
  return sys_days(*date_at(date)).time_since_epoch().count();
}

}  // namespace evet
