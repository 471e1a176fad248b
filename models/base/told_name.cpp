#include "models/base/told_name.h"

namespace evet::models {
namespace {

// From one moment to the next, or at one moment.
bool is_of_interval(Quantity quantity) {
  switch (quantity) {
    case Quantity::survival:
    case Quantity::growth_rate:
    case Quantity::recruitment:
    case Quantity::seniority:
    case Quantity::births:
      return true;
    default:
      return false;
  }
}

// "2031-04-10 to 2031-04-14" begins on its first day.
std::string beginning(const std::string& moment) {
  return moment.substr(0, moment.find(' '));
}

// A label such as "3" says no more than the number itself.
bool is_date(const std::string& moment) {
  return moment.size() >= 10 && moment[4] == '-' && moment[7] == '-';
}

}  // namespace

std::string told_time(const Parameter& what, const std::vector<std::string>& moments) {
  if (!what.index) return {};
  const int from = what.index.value() - (what.quantity == Quantity::entry ? 0 : 1);
  if (from < 0 || from >= static_cast<int>(moments.size())) return {};
  const std::string& moment = moments[static_cast<std::size_t>(from)];
  if (!is_date(moment)) return {};
  if (!is_of_interval(what.quantity)) return moment;
  if (from + 1 >= static_cast<int>(moments.size())) return beginning(moment) + " on";
  return beginning(moment) + " to " + beginning(moments[static_cast<std::size_t>(from) + 1]);
}

std::string told_name(const Parameter& what, const std::vector<std::string>& moments) {
  const std::string time = told_time(what, moments);
  if (time.empty()) return what.name();
  Parameter bare = what;
  bare.index.reset();
  bare.groups.clear();
  std::string name = bare.name() + ", " + time;
  for (const auto& [group, level] : what.groups) name += ", " + level;
  return name;
}

}  // namespace evet::models
