// What every chart says beside its figures.
#pragma once
#include <string>

namespace evet::models {

struct ChartLabels {
  std::string title, description, across, up;
};

}  // namespace evet::models
