// Of an animal, as the person who had it in hand says.
#pragma once
#include <optional>
#include <string>

namespace evet {

enum class Sex { unknown, female, male };

const char* name(Sex sex);                              // "unknown", "female", "male"
std::optional<Sex> sex_named(const std::string& text);  // empty: unknown

}  // namespace evet
