// Whether the camera's clock agrees with the night that the sheet gives: a slip of the pen in the date is
// found while the photos and the evening are still at hand.
//
// A photo fits a night when it was taken on the date on which the night began, or on the next day until three
// in the afternoon: traps of a night are emptied the next morning (common practice, no source). A clock that
// is more than 400 days off was never set, or the picture is an archive's and bears the date of its scan:
// nothing is said then. What is said is never more than a hint, since clocks are wrong as often as pens.
#pragma once
#include <string>
#include <vector>

#include "matcher/base/message.h"

namespace evet {

struct TimedPhoto {
  std::string photo;     // as on the sheet
  std::string night;     // as on the sheet, a date
  std::string taken_at;  // the camera's local time, "2031-05-14T22:41:07"
};

// True also where the time is no date, or too far off to mean anything.
bool fits_night(const TimedPhoto& photo);

// One for each night and date that do not fit, in order.
std::vector<Message> camera_clock_hints(const std::vector<TimedPhoto>& photos);

}  // namespace evet
