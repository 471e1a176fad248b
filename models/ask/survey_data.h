// What the families of models need of the histories, each made when first asked for.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "models/closed/closed_counts.h"
#include "models/closed/schnabel.h"
#include "models/open/m_array.h"
#include "models/open/movement.h"
#include "models/robust/robust_design.h"

namespace evet::models {

class SurveyData {
 public:
  explicit SurveyData(const CaptureHistories& histories) : histories_(histories) {}
  const CaptureHistories& histories() const { return histories_; }
  const ClosedCounts& closed();
  const BatchCounts& batch();
  const MArray& releases();
  const RobustCounts& robust();
  // By period where `by_period`. Throws InputError where the captures do not tell two places.
  const PlaceReleases& places(bool by_period);
  // Two to six places, two of them with releases enough, and recaptures enough to say where animals went.
  bool tells_movement(bool by_period);
  // Groups whose numbers are given unasked: two to six levels, at least two of them with five animals, not the
  // same division twice, and no more than twelve combinations in all. Sex and stage come first.
  const std::vector<std::string>& usual_groups();

 private:
  const CaptureHistories& histories_;
  std::optional<ClosedCounts> closed_;
  std::optional<BatchCounts> batch_;
  std::optional<MArray> releases_;
  std::optional<RobustCounts> robust_;
  std::optional<PlaceReleases> places_[2];
  std::optional<std::vector<std::string>> usual_groups_;
};

}  // namespace evet::models
