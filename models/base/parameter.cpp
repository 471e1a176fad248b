#include "models/base/parameter.h"

#include <algorithm>

namespace evet::models {

const char* code_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::number:
      return "N";
    case Quantity::number_ever:
      return "N ever";
    case Quantity::births:
      return "births";
    case Quantity::entry:
      return "entry";
    case Quantity::survival:
      return "survival";
    case Quantity::recapture:
      return "recapture";
    case Quantity::capture:
      return "capture";
    case Quantity::growth_rate:
      return "growth rate";
    case Quantity::mean_growth:
      return "mean growth";
    case Quantity::passing:
      return "passing through";
    case Quantity::moving:
      return "moving";
    case Quantity::density:
      return "density";
    case Quantity::yearly_trend:
      return "yearly trend";
    case Quantity::spread_between_years:
      return "spread between years";
    case Quantity::recruitment:
      return "recruitment";
    case Quantity::seniority:
      return "seniority";
    case Quantity::leaving:
      return "leaving";
    case Quantity::staying_away:
      return "staying away";
    case Quantity::other:
      break;
  }
  return "other";
}

bool is_count(Quantity quantity) {
  return quantity == Quantity::number || quantity == Quantity::number_ever || quantity == Quantity::births;
}

bool has_total(Quantity quantity) {
  return is_count(quantity) || quantity == Quantity::growth_rate || quantity == Quantity::mean_growth;
}

std::string Parameter::about_name() const {
  const auto* text = std::get_if<const MessageText*>(&about);
  return text != nullptr ? (*text)->english : std::get<std::string>(about);
}

std::string Parameter::name() const {
  if (quantity == Quantity::moving && groups.size() == 2)
    return "moving from " + groups[0].second + " to " + groups[1].second;
  std::string text = word == nullptr ? code_of(quantity) : word->english;
  if (index) text += " " + std::to_string(*index);
  for (std::size_t i = 0; i < groups.size(); ++i)
    text += (i == 0 ? ": " : " ") + (has_total(quantity) ? groups[i].first + " " : "") + groups[i].second;
  if (kind == Kind::slope) text += ": slope on " + about_name();
  if (kind == Kind::shift) text += ": shift for " + about_name();
  return text;
}

bool answers(const Parameter& told, const Parameter& wanted) {
  if (told.quantity != wanted.quantity || told.kind != wanted.kind) return false;
  if (is_count(told.quantity)) return told.index == wanted.index && told.groups == wanted.groups;
  if (told.index && told.index != wanted.index) return false;
  if (has_total(told.quantity)) return told.groups == wanted.groups;
  return std::all_of(told.groups.begin(), told.groups.end(), [&](const auto& level) {
    return std::find(wanted.groups.begin(), wanted.groups.end(), level) != wanted.groups.end();
  });
}

}  // namespace evet::models
