#include "models/base/parameter_words.h"

#include "models/base/messages.h"

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

std::string about_words(const Parameter& what) {
  const auto* text = std::get_if<const MessageText*>(&what.about);
  return text != nullptr ? Message(**text).words() : std::get<std::string>(what.about);
}

}  // namespace

Message words_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::number:
      return messages::kQuantityNumber;
    case Quantity::number_ever:
      return messages::kQuantityNumberEver;
    case Quantity::births:
      return messages::kQuantityBirths;
    case Quantity::entry:
      return messages::kQuantityEntry;
    case Quantity::survival:
      return messages::kQuantitySurvival;
    case Quantity::recapture:
      return messages::kQuantityRecapture;
    case Quantity::capture:
      return messages::kQuantityCapture;
    case Quantity::growth_rate:
      return messages::kQuantityGrowthRate;
    case Quantity::mean_growth:
      return messages::kQuantityMeanGrowth;
    case Quantity::passing:
      return messages::kQuantityPassing;
    case Quantity::moving:
      return messages::kQuantityMoving;
    case Quantity::density:
      return messages::kQuantityDensity;
    case Quantity::yearly_trend:
      return messages::kQuantityYearlyTrend;
    case Quantity::spread_between_years:
      return messages::kQuantitySpreadBetweenYears;
    case Quantity::recruitment:
      return messages::kQuantityRecruitment;
    case Quantity::seniority:
      return messages::kQuantitySeniority;
    case Quantity::leaving:
      return messages::kQuantityLeaving;
    case Quantity::staying_away:
      return messages::kQuantityStayingAway;
    case Quantity::other:
      break;
  }
  return messages::kQuantityOther;
}

std::string parameter_words(const Parameter& what) {
  if (what.quantity == Quantity::moving && what.groups.size() == 2)
    return Message(messages::kMovingFromTo, {{"from", what.groups[0].second}, {"to", what.groups[1].second}})
        .words();
  std::string text = (what.word == nullptr ? words_of(what.quantity) : Message(*what.word)).words();
  const auto said = [&](const MessageText& how, const char* name, const std::string& more) {
    text = Message(how, {{"quantity", text}, {name, more}}).words();
  };
  if (what.index) said(messages::kQuantityAt, "index", std::to_string(*what.index));
  std::string levels;
  for (const auto& [group, level] : what.groups)
    levels += (levels.empty() ? "" : " ") + (has_total(what.quantity) ? group + " " : "") + level;
  if (!levels.empty()) said(messages::kQuantityOf, "levels", levels);
  if (what.kind == Parameter::Kind::slope) said(messages::kSlopeOn, "about", about_words(what));
  if (what.kind == Parameter::Kind::shift) said(messages::kShiftFor, "about", about_words(what));
  return text;
}

std::string time_words(const Parameter& what, const std::vector<Moment>& moments) {
  if (!what.index) return {};
  const int from = what.index.value() - (what.quantity == Quantity::entry ? 0 : 1);
  if (from < 0 || from >= static_cast<int>(moments.size())) return {};
  const Moment& moment = moments[static_cast<std::size_t>(from)];
  if (!moment.dated()) return {};
  if (!is_of_interval(what.quantity)) return moment.words();
  if (from + 1 >= static_cast<int>(moments.size()))
    return Message(messages::kFromOn, {{"first", moment.first}}).words();
  return Moment(moment.first, moments[static_cast<std::size_t>(from) + 1].first).words();
}

std::string dated_words(const Parameter& what, const std::vector<Moment>& moments) {
  const std::string time = time_words(what, moments);
  if (time.empty()) return parameter_words(what);
  Parameter plain = what;
  plain.index.reset();
  plain.groups.clear();
  std::string words =
      Message(messages::kQuantityWhen, {{"quantity", parameter_words(plain)}, {"time", time}}).words();
  for (const auto& [group, level] : what.groups) words += ", " + level;
  return words;
}

}  // namespace evet::models
