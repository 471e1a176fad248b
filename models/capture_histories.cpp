#include "models/capture_histories.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <set>

#include "models/base/input_error.h"
#include "models/base/messages.h"

namespace evet::models {
namespace {

void check_length(const Message& item, std::size_t length, std::size_t wanted, const Message& of_what) {
  if (length == wanted) return;
  throw InputError(item, {messages::kHasEntries, {{"entries", length}}},
                   {messages::kGiveOneForEach, {{"count", wanted}, {"what", of_what}}});
}

void check_unique(const std::vector<std::string>& labels, const MessageText& named,
                  const Message& name_each) {
  std::set<std::string> seen;
  for (const std::string& label : labels)
    if (!seen.insert(label).second)
      throw InputError(Message(named, {{"name", label}}), messages::kStandsTwice, name_each);
}

// Every capture has a place, and nothing else has one.
void check_places(const CaptureHistories& histories) {
  if (histories.places.empty() && histories.place.empty()) return;
  constexpr std::size_t kMostPlaces = 250;
  check_unique(histories.places, messages::kItemPlaceNamed, messages::kGiveEachPlaceAName);
  if (histories.places.size() > kMostPlaces)
    throw InputError(messages::kItemPlaces, {messages::kThereAre, {{"count", histories.places.size()}}},
                     {messages::kAtMost, {{"most", kMostPlaces}}});
  check_length(messages::kItemPlacesOfCaptures, histories.place.size(), histories.caught.size(),
               messages::kAnimalsTimesOccasions);
  const std::size_t k = histories.occasion_count();
  for (std::size_t cell = 0; cell < histories.place.size(); ++cell) {
    if ((histories.place[cell] > 0) == (histories.caught[cell] == 1) &&
        histories.place[cell] <= histories.places.size())
      continue;
    throw InputError(Message(messages::kItemCellOf, {{"animal", histories.animals[cell / k]},
                                                     {"occasion", histories.occasions[cell % k]}}),
                     messages::kPlaceNotOfCapture, messages::kGiveEachCaptureAPlace);
  }
}

std::chrono::sys_days parse_date(const std::string& text) {
  const auto number = [&](std::size_t at, std::size_t length) {
    int value = -1;
    if (text.size() >= at + length) std::from_chars(text.data() + at, text.data() + at + length, value);
    return value;
  };
  const bool shaped = text.size() >= 10 && text[4] == '-' && text[7] == '-';
  const std::chrono::year_month_day date{std::chrono::year(number(0, 4)),
                                         std::chrono::month(static_cast<unsigned>(number(5, 2))),
                                         std::chrono::day(static_cast<unsigned>(number(8, 2)))};
  if (!shaped || !date.ok())
    throw InputError(Message(messages::kItemDateNamed, {{"name", text}}), messages::kDateNotRead,
                     messages::kWriteDateLike);
  return date;
}

}  // namespace

std::size_t CaptureHistories::first_unsettled() const {
  const auto open =
      std::find_if(unsettled.begin(), unsettled.end(), [](int captures) { return captures > 0; });
  return unsettled.empty() ? occasions.size() : static_cast<std::size_t>(open - unsettled.begin());
}

int CaptureHistories::primary_count() const {
  return primary.empty() ? static_cast<int>(occasions.size()) : primary.back() + 1;
}

void CaptureHistories::check() const {
  const std::size_t k = occasions.size();
  const std::size_t n = animals.size();
  if (k == 0) throw InputError(messages::kItemOccasions, messages::kThereAreNone, messages::kGiveAnOccasion);
  check_unique(occasions, messages::kItemOccasionNamed, messages::kGiveEachOccasionAName);
  check_unique(animals, messages::kItemAnimalNamed, messages::kGiveEachAnimalAName);
  check_length(messages::kItemCaptureTable, caught.size(), n * k, messages::kAnimalsTimesOccasions);
  if (!dates.empty()) {
    check_length(messages::kItemDates, dates.size(), k, messages::kOccasions);
    for (std::size_t j = 0; j + 1 < k; ++j)
      if (days_between(dates[j], dates[j + 1]) < 0)
        throw InputError(Message(messages::kItemOccasionNamed, {{"name", occasions[j + 1]}}),
                         messages::kDateBeforeLast, messages::kPutInTimeOrder);
    if (k == 1) parse_date(dates[0]);
  }
  if (!primary.empty()) {
    check_length(messages::kItemPrimaryPeriods, primary.size(), k, messages::kOccasions);
    for (std::size_t j = 0; j < k; ++j) {
      const int before = j == 0 ? -1 : primary[j - 1];
      if (primary[j] != before && primary[j] != before + 1)
        throw InputError(Message(messages::kItemOccasionNamed, {{"name", occasions[j]}}),
                         messages::kPeriodOutOfOrder, messages::kNumberPeriods);
      if (j == 0 && primary[0] != 0)
        throw InputError(Message(messages::kItemOccasionNamed, {{"name", occasions[0]}}),
                         messages::kPeriodNotFirst, messages::kStartWith0);
    }
  }
  if (!unsettled.empty())
    check_length(messages::kItemUnsettledCaptures, unsettled.size(), k, messages::kOccasions);
  for (const auto& [name, values] : occasion_covariates)
    check_length(bare(name), values.size(), k, messages::kOccasions);
  if (!lost.empty()) check_length(messages::kItemLossesOnCapture, lost.size(), n, messages::kAnimals);
  for (const auto& [name, levels] : groups) check_length(bare(name), levels.size(), n, messages::kAnimals);
  for (const auto& [name, values] : covariates)
    check_length(bare(name), values.size(), n, messages::kAnimals);
  check_places(*this);
  for (std::size_t i = 0; i < n; ++i) {
    bool ever = false;
    for (std::size_t j = 0; j < k; ++j) {
      const int cell = caught[i * k + j];
      if (cell > 1)
        throw InputError(Message(messages::kItemCellOf, {{"animal", animals[i]}, {"occasion", occasions[j]}}),
                         {messages::kCellIs, {{"cell", std::to_string(cell)}}}, messages::kWrite1And0);
      ever = ever || cell == 1;
    }
    if (!ever)
      throw InputError(Message(messages::kItemAnimalNamed, {{"name", animals[i]}}), messages::kWasNeverCaught,
                       messages::kLeaveOutUncaught);
  }
}

CaptureHistories histories_from_counts(const std::map<std::string, int>& animals_by_history) {
  CaptureHistories histories;
  if (animals_by_history.empty())
    throw InputError(messages::kItemTheHistories, messages::kThereAreNone, messages::kGiveAHistory);
  const std::size_t k = animals_by_history.begin()->first.size();
  for (std::size_t j = 0; j < k; ++j) histories.occasions.push_back(std::to_string(j + 1));
  for (const auto& [history, count] : animals_by_history) {
    if (history.size() != k || history.find_first_not_of("01") != std::string::npos)
      throw InputError(Message(messages::kItemHistoryNamed, {{"name", history}}),
                       {messages::kNotSoManySigns, {{"count", k}}}, messages::kOneSignAnOccasion);
    for (int copy = 0; copy < count; ++copy) {
      histories.animals.push_back(std::to_string(histories.animals.size() + 1));
      for (const char sign : history) histories.caught.push_back(sign == '1' ? 1 : 0);
    }
  }
  histories.check();
  return histories;
}

CaptureHistories select_animals(const CaptureHistories& histories, const std::vector<std::size_t>& chosen) {
  CaptureHistories part = histories;
  const std::size_t k = histories.occasion_count();
  const auto pick = [&](auto& values, const auto& from) {
    values.clear();
    for (const std::size_t i : chosen) values.push_back(from[i]);
  };
  pick(part.animals, histories.animals);
  if (!histories.lost.empty()) pick(part.lost, histories.lost);
  for (auto& [name, levels] : part.groups) pick(levels, histories.groups.at(name));
  for (auto& [name, values] : part.covariates) pick(values, histories.covariates.at(name));
  const auto pick_rows = [&](auto& cells, const auto& from) {
    cells.clear();
    if (from.empty()) return;
    for (const std::size_t i : chosen)
      cells.insert(cells.end(), from.begin() + static_cast<std::ptrdiff_t>(i * k),
                   from.begin() + static_cast<std::ptrdiff_t>((i + 1) * k));
  };
  pick_rows(part.caught, histories.caught);
  pick_rows(part.place, histories.place);
  return part;
}

CaptureHistories select_occasions(const CaptureHistories& histories, std::size_t first, std::size_t last) {
  const std::size_t k = histories.occasion_count();
  std::vector<std::size_t> chosen;
  std::vector<std::uint8_t> lost;
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    bool inside = false;
    bool later = false;
    for (std::size_t j = first; j < k; ++j) (j < last ? inside : later) |= histories.was_caught(i, j);
    if (!inside) continue;
    chosen.push_back(i);
    lost.push_back(histories.was_lost(i) && !later ? 1 : 0);
  }
  CaptureHistories part = select_animals(histories, chosen);
  if (!histories.lost.empty()) part.lost = lost;
  const auto cut = [&](auto& values) {
    if (!values.empty())
      values = {values.begin() + static_cast<std::ptrdiff_t>(first),
                values.begin() + static_cast<std::ptrdiff_t>(last)};
  };
  cut(part.occasions);
  cut(part.dates);
  cut(part.primary);
  cut(part.unsettled);
  if (!part.primary.empty()) {
    const int base = part.primary.front();
    for (int& period : part.primary) period -= base;
  }
  for (auto& [name, values] : part.occasion_covariates) cut(values);
  part.caught.clear();
  part.place.clear();
  for (const std::size_t i : chosen)
    for (std::size_t j = first; j < last; ++j) {
      part.caught.push_back(histories.caught[i * k + j]);
      if (!histories.place.empty()) part.place.push_back(histories.place[i * k + j]);
    }
  return part;
}

double days_between(const std::string& from, const std::string& to) {
  return static_cast<double>((parse_date(to) - parse_date(from)).count());
}

}  // namespace evet::models
