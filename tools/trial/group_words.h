// How groups and their values are called: sites and observers by their own names, what the trial names itself by
// the catalogue of messages.
#pragma once
#include <string>

namespace evet::trial {

// "site", "years apart", "same year", "a photo without remarks": as JSON has them, in words for people. Any other
// text is a name and stays as it is.
std::string group_in_words(const std::string& name);

}  // namespace evet::trial
