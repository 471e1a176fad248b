#include "tools/intake/camera_clock.h"

#include <cstdlib>
#include <map>
#include <utility>

#include "matcher/base/moment.h"
#include "tools/intake/messages.h"
#include "tools/words/text.h"

namespace evet {
namespace {

constexpr std::int64_t kNeverSetDays = 400;
constexpr const char* kTrapsAreEmptiedBy = "15";  // hours of the next day
constexpr size_t kDateChars = 10, kHourAt = 11;   // of 2031-05-14T22:41:07

std::string date_of(const TimedPhoto& photo) {
  return photo.taken_at.substr(0, kDateChars);
}

}  // namespace

bool fits_night(const TimedPhoto& photo) {
  const std::string date = date_of(photo);
  if (photo.taken_at.size() < kHourAt + 2 || !is_date(date)) return true;
  const std::int64_t later = days_since_epoch(date) - days_since_epoch(photo.night);
  if (std::abs(later) > kNeverSetDays) return true;
  return later == 0 || (later == 1 && photo.taken_at.substr(kHourAt, 2) < kTrapsAreEmptiedBy);
}

std::vector<Message> camera_clock_hints(const std::vector<TimedPhoto>& photos) {
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> apart;  // of night and date
  for (const TimedPhoto& photo : photos)
    if (!fits_night(photo)) apart[{photo.night, date_of(photo)}].push_back(photo.photo);
  std::vector<Message> hints;
  hints.reserve(apart.size());
  for (const auto& [dates, names] : apart)
    hints.emplace_back(messages::kClockDisagrees,
                       std::vector<Message::Argument>{{"n", names.size()},
                                                      {"night", dates.first},
                                                      {"date", dates.second},
                                                      {"photo", in_quotes(names.front())}});
  return hints;
}

}  // namespace evet
