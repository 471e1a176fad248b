// How a place is written for people.
#pragma once
#include <string>

namespace evet {

// "Alder Fen, north", or "Alder Fen" without a pond.
inline std::string place_of(const std::string& site, const std::string& pond) {
  return pond.empty() ? site : site + ", " + pond;
}

}  // namespace evet
