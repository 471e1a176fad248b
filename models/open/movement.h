// Movement between places (ponds): survival, capture and the chance of moving, by the place of each capture.
//
// The multi-state model given release: Arnason (1973), Res. Popul. Ecol. 15:1-8; Schwarz, Schweigert & Arnason
// (1993), Biometrics 49:177-193; Brownie, Hines, Nichols, Pollock & Hestbeck (1993), Biometrics 49:1173-1187.
// An animal that survives an interval moves once, at its end, to a place that depends on the one it was in and on
// nothing before. With one place it is the survival model (survival.h). Survival is for the time between occasions
// in the unit of the report, moving for each interval, long or short.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "models/capture_histories.h"
#include "models/fit/fitted_model.h"

namespace evet::models {

// Releases and next captures by place. Occasions and places from 0; next[i][r] holds (occasions x places) counts.
struct PlaceReleases {
  std::size_t occasions = 0;
  std::vector<std::string> places;
  std::vector<std::vector<double>> released;           // [occasion][place]
  std::vector<std::vector<std::vector<double>>> next;  // [occasion][place][later occasion * places + place]
  double recaptures() const;
  double moves() const;  // recaptures in another place than that of the release
};

// By primary period where the histories have some and `by_period`: then an animal is where it was caught last.
PlaceReleases place_releases(const CaptureHistories& histories, bool by_period);

struct PlaceTerms {
  bool by_place = false, by_occasion = false;
};
struct MovementChoice {
  PlaceTerms survival, recapture;
  bool moving_by_place = true;  // else one chance of going to any other place
};

// Needs two occasions and two places. Estimates: survival and recapture, each for all places or by place; moving
// from each place to each other one.
FittedModel fit_movement(const PlaceReleases& releases, const MovementChoice& choice,
                         const ModelOptions& options = {});

// Log-likelihood for given chances, all on their natural scale: of survival [interval][place], recapture
// [interval][place] on the occasion that ends it, and moving [from][to] with staying on the diagonal.
double movement_log_likelihood(const PlaceReleases& releases,
                               const std::vector<std::vector<double>>& survival,
                               const std::vector<std::vector<double>>& recapture,
                               const std::vector<std::vector<double>>& moving);

}  // namespace evet::models
