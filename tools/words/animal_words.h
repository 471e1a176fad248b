// An animal in a few words.
#pragma once
#include <string>

namespace evet {

// "female, adult": sex and stage as the sheet has them (tools/intake/sheet_values.h), of which an unknown sex and
// an empty stage are left out. What is no word of the sheet is said as it is.
std::string animal_in_words(const std::string& sex, const std::string& stage);

}  // namespace evet
