#include "models/open/m_array.h"

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/open/messages.h"

namespace evet::models {

using Eigen::Index;

std::vector<MArray> m_arrays(const CaptureHistories& histories, const Units& units) {
  const Index k = static_cast<Index>(histories.occasion_count());
  if (k < 2) throw InputError(messages::kItemOpenPopulation, messages::kOneOccasionOnly, messages::kGiveTwo);
  MArray empty{Eigen::VectorXd::Zero(k - 1), Eigen::MatrixXd::Zero(k - 1, k), Eigen::VectorXd::Zero(k),
               Eigen::VectorXd::Zero(k)};
  std::vector<MArray> arrays(units.first_animal.size(), empty);
  for (std::size_t i = 0; i < histories.animal_count(); ++i) {
    MArray& array = arrays[units.unit_of_animal[i]];
    Index before = -1;
    for (Index j = 0; j < k; ++j) {
      if (!histories.was_caught(i, static_cast<std::size_t>(j))) continue;
      ++array.caught[j];
      if (before < 0) {
        ++array.newly[j];
      } else {
        ++array.released[before];
        ++array.next(before, j);
      }
      before = j;
    }
    if (before >= 0 && before < k - 1 && !histories.was_lost(i)) ++array.released[before];
  }
  return arrays;
}

MArray m_array(const CaptureHistories& histories) {
  histories.check();
  return m_arrays(histories, {std::vector<std::size_t>(histories.animal_count(), 0), {0}}).front();
}

std::vector<SplitReleases> split_releases(const CaptureHistories& histories, const Units& units) {
  const auto k = static_cast<Index>(histories.occasion_count());
  const MArray empty{Eigen::VectorXd::Zero(k - 1), Eigen::MatrixXd::Zero(k - 1, k), Eigen::VectorXd::Zero(k),
                     Eigen::VectorXd::Zero(k)};
  std::vector<SplitReleases> split(units.first_animal.size(), {empty, empty});
  for (std::size_t a = 0; a < histories.animal_count(); ++a) {
    SplitReleases& releases = split[units.unit_of_animal[a]];
    Index before = -1;
    bool is_first = true;
    const auto release = [&](Index next) {
      if (before < 0 || before >= k - 1) return;
      MArray& array = is_first ? releases.first : releases.again;
      ++array.released[before];
      if (next >= 0) ++array.next(before, next);
      is_first = false;
    };
    for (Index j = 0; j < k; ++j) {
      if (!histories.was_caught(a, static_cast<std::size_t>(j))) continue;
      release(j);
      before = j;
    }
    if (!histories.was_lost(a)) release(-1);
  }
  return split;
}

MArray m_array(const std::vector<double>& released, const std::vector<std::vector<double>>& next,
               const std::vector<double>& newly) {
  const std::size_t rows = released.size();
  if (rows < 1 || next.size() != rows || newly.size() != rows + 1)
    throw InputError(messages::kItemReleaseTable, messages::kPartsUnequal, messages::kGiveReleaseTable);
  const Index k = static_cast<Index>(newly.size());
  MArray array{Eigen::VectorXd::Zero(k - 1), Eigen::MatrixXd::Zero(k - 1, k), Eigen::VectorXd::Zero(k),
               Eigen::VectorXd::Zero(k)};
  for (Index i = 0; i < k; ++i) array.newly[i] = newly[static_cast<std::size_t>(i)];
  for (Index i = 0; i + 1 < k; ++i) {
    const auto& row = next[static_cast<std::size_t>(i)];
    if (row.size() != rows)
      throw InputError(Message(messages::kItemRelease, {{"n", std::to_string(i + 1)}}),
                       {messages::kRowHasCells, {{"cells", row.size()}}}, messages::kGiveKLess1);
    array.released[i] = released[static_cast<std::size_t>(i)];
    for (Index j = i + 1; j < k; ++j) array.next(i, j) = row[static_cast<std::size_t>(j - 1)];
  }
  array.caught = array.newly + array.next.colwise().sum().transpose();
  return array;
}

}  // namespace evet::models
