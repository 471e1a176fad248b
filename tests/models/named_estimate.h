// An estimate by the name that people read.
#pragma once
#include <stdexcept>
#include <string>

#include "models/estimate.h"

namespace evet::models::testing {

// Throws where the model gives none of that name.
inline const Estimate& named(const FittedModel& model, const std::string& name) {
  for (const Estimate& estimate : model.estimates)
    if (estimate.parameter == name) return estimate;
  throw std::runtime_error("no estimate " + name);
}

}  // namespace evet::models::testing
