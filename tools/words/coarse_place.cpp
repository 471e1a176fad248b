#include "tools/words/coarse_place.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "fmt/format.h"

#include "tools/words/in_words.h"
#include "tools/words/messages.h"

namespace evet {
namespace {

constexpr double kMetresADegree = 111'320;  // of latitude, and of longitude at the equator
constexpr double kCellsADegree = 10;        // whole: 0.1 itself cannot be written exactly

double radians(double degrees) {
  return degrees * std::numbers::pi / 180;
}

// The middle of the cell, as a number of halves of a tenth: exact in binary until the one division.
double middle(double degrees, double most) {
  const double cell =
      std::clamp(std::floor(degrees * kCellsADegree), -most * kCellsADegree, most * kCellsADegree - 1);
  return (2 * cell + 1) / (2 * kCellsADegree);
}

std::string degrees_in_words(double value, const MessageText& side, int decimals) {
  return in_words(side, {{"degrees", fmt::format("{:.{}f}", std::abs(value), decimals)}});
}

std::string both(double latitude, double longitude, int decimals) {
  return degrees_in_words(latitude, latitude < 0 ? messages::kDegreesSouth : messages::kDegreesNorth,
                          decimals) +
         ", " +
         degrees_in_words(longitude, longitude < 0 ? messages::kDegreesWest : messages::kDegreesEast,
                          decimals);
}

}  // namespace

CoarsePlace coarse_place(double latitude, double longitude) {
  CoarsePlace place{middle(latitude, 90), middle(longitude, 180), 0};
  const double half = kCoarseCellDeg / 2;
  // A cell is widest on its side towards the equator.
  const double towards_equator = std::max(0.0, std::abs(place.latitude) - half);
  place.uncertainty_m = std::ceil(
      std::hypot(half * kMetresADegree, half * kMetresADegree * std::cos(radians(towards_equator))));
  return place;
}

std::string in_words(const CoarsePlace& place) {
  const double high_km = kCoarseCellDeg * kMetresADegree / 1000;
  return in_words(
      messages::kWithinTheCell,
      {{"degrees", fmt::format("{:g}", kCoarseCellDeg)},
       {"middle", both(place.latitude, place.longitude, 2)},
       {"high", fmt::format("{:.0f}", high_km)},
       {"wide", fmt::format("{:.0f}", std::max(1.0, high_km * std::cos(radians(place.latitude))))}});
}

std::string exact_place(double latitude, double longitude) {
  return both(latitude, longitude, 5);
}

}  // namespace evet
