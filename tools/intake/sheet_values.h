// The values that a cell of the night sheet may hold. Each reader gives the value or says what is wrong.
#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "matcher/base/message.h"
#include "matcher/base/sex.h"

namespace evet {

// A value, or why there is none.
template <class Value>
struct Cell {
  Value value{};
  std::optional<Reason> problem;
};

// A calendar date from 1900 to `today`, as ISO 8601 has it, "2024-05-14"; written in another order where that
// leaves one reading alone: 22.05.2024, not 5.4.2024.
Cell<std::string> read_night(std::string_view text, std::chrono::year_month_day today);

// female, male or unknown; f, m and u for short; letter case free; empty is unknown.
Cell<Sex> read_sex(std::string_view text);

// adult, subadult, juvenile or metamorph; empty stays empty.
Cell<std::string> read_stage(std::string_view text);

// A number within [low, high] in `unit`, with a point or a comma as the decimal sign; empty is no number.
Cell<std::optional<double>> read_number(std::string_view text, double low, double high, const Message& unit);

// yes or no, y or n for short; letter case free; empty is neither.
Cell<std::optional<bool>> read_yes_or_no(std::string_view text);

// Whether a photo cell says "none": nothing was caught. Letter case free.
bool says_no_catch(std::string_view text);

// A file name below the photos folder.
Cell<std::string> read_photo_name(std::string_view text);

}  // namespace evet
