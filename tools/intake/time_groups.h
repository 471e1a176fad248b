// Photos of an evening gathered by when they were taken: those of one animal in hand follow each other within
// seconds, the next animal comes after a pause (common practice, no source).
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace evet {

inline constexpr int kUsualGapSeconds = 30;

struct TakenAt {
  std::string photo;
  std::string time;  // the camera's local clock, "2024-05-14T22:41:07"; empty or no time: it stands alone
};

// Groups in order of time, photos in order within each; a pause longer than `gap_seconds` parts two groups.
// What has no time comes last, each photo by itself, by name.
std::vector<std::vector<std::string>> groups_by_time(std::vector<TakenAt> photos, int gap_seconds);

// Seconds since 1970 as if the clock showed UTC; -1 where the text is no time.
long long clock_seconds(std::string_view time);

// The date on which the night of a photo began: until three in the afternoon it is still the night before
// (see camera_clock.h). Empty where the text is no time.
std::string night_of(std::string_view time);

// By name as people count: "IMG 9" before "IMG 10".
bool counted_before(std::string_view a, std::string_view b);

}  // namespace evet
