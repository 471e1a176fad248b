#include "models/ask/survey_data.h"

namespace evet::models {

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
const RobustCounts& SurveyData::robust() {
  if (!robust_) robust_ = robust_counts(histories_);
  return *robust_;
}

}  // namespace evet::models
