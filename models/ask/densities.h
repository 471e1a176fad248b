// Animals for each area of water, from the areas that a survey names.
#pragma once
#include <vector>

#include "models/ask/estimate_report.h"
#include "models/capture_histories.h"

namespace evet::models {

// After the numbers of an answer, their densities for each 100 square metres. Numbers of a pond take its own area;
// all others take `area_m2`, or the areas of all ponds in the histories together. Nothing where an area is not known.
// Throws InputError for an area that is none.
void add_densities(std::vector<Estimate>& answer, const CaptureHistories& histories,
                   const EstimateRequest& request);
void check_areas(const EstimateRequest& request);

}  // namespace evet::models
