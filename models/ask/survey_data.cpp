#include "models/ask/survey_data.h"

#include <algorithm>
#include <map>
#include <set>

namespace evet::models {
namespace {

constexpr std::size_t kMostLevels = 6;
constexpr int kEnoughAnimals = 5;

bool worth_numbers(const std::vector<std::string>& levels) {
  std::map<std::string, int> animals;
  for (const std::string& level : levels) ++animals[level];
  const auto large = std::count_if(animals.begin(), animals.end(),
                                   [](const auto& level) { return level.second >= kEnoughAnimals; });
  return animals.size() <= kMostLevels && large >= 2;
}

// Animals by combination of levels.
std::map<std::vector<std::string>, int> combinations(const CaptureHistories& histories,
                                                     const std::vector<std::string>& groups) {
  std::map<std::vector<std::string>, int> animals;
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    std::vector<std::string> key;
    for (const std::string& group : groups) key.push_back(histories.groups.at(group)[i]);
    ++animals[key];
  }
  return animals;
}

}  // namespace

const std::vector<std::string>& SurveyData::usual_groups() {
  if (usual_groups_) return *usual_groups_;
  constexpr std::size_t kMostCombinations = 12;
  std::vector<std::string> names = {"sex", "stage"}, chosen;
  for (const auto& [name, levels] : histories_.groups)
    if (name != "sex" && name != "stage") names.push_back(name);
  std::size_t divided = 1;
  for (const std::string& name : names) {
    const auto group = histories_.groups.find(name);
    if (group == histories_.groups.end() || !worth_numbers(group->second)) continue;
    std::vector<std::string> with = chosen;
    with.push_back(name);
    const std::size_t count = combinations(histories_, with).size();
    if (count > kMostCombinations || count == divided) continue;
    chosen = with;
    divided = count;
  }
  usual_groups_ = chosen;
  return *usual_groups_;
}

const ClosedCounts& SurveyData::closed() {
  if (!closed_) closed_ = closed_counts(histories_);
  return *closed_;
}
const BatchCounts& SurveyData::batch() {
  if (!batch_) batch_ = batch_counts(histories_);
  return *batch_;
}
const MArray& SurveyData::releases() {
  if (!releases_) releases_ = m_array(histories_);
  return *releases_;
}
const PlaceReleases& SurveyData::places(bool by_period) {
  std::optional<PlaceReleases>& one = places_[by_period ? 1 : 0];
  if (!one) one = place_releases(histories_, by_period);
  return *one;
}
bool SurveyData::tells_movement(bool by_period) {
  constexpr double kEnoughReleases = 5, kEnoughRecaptures = 10;
  if (histories_.places.size() < 2 || histories_.places.size() > kMostLevels ||
      histories_.occasion_count() < 3)
    return false;
  const PlaceReleases& releases = places(by_period);
  std::size_t enough = 0;
  for (std::size_t r = 0; r < releases.places.size(); ++r) {
    double sum = 0;
    for (const auto& occasion : releases.released) sum += occasion[r];
    enough += sum >= kEnoughReleases ? 1 : 0;
  }
  return releases.occasions >= 3 && enough >= 2 && releases.recaptures() >= kEnoughRecaptures;
}
const RobustCounts& SurveyData::robust() {
  if (!robust_) robust_ = robust_counts(histories_);
  return *robust_;
}

}  // namespace evet::models
