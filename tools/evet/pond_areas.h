// Areas of ponds, from a CSV with the columns pond and area_m2.
#pragma once
#include <map>
#include <string>
#include <string_view>

namespace evet {

// Square metres by pond. Errors: bad_input naming the line.
std::map<std::string, double> read_pond_areas(std::string_view text, const std::string& item);

}  // namespace evet
