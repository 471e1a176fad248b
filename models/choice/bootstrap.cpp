#include "models/choice/bootstrap.h"

#include <algorithm>
#include <cmath>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/catch_groups.h"
#include "models/closed/full_likelihood.h"
#include "models/simulate/simulate.h"

namespace evet::models {

Bootstrap bootstrap(const std::function<double(Random&)>& replicate, int replicates, std::uint64_t seed,
                    double level) {
  normal_point(level);
  Random random(seed);
  std::vector<double> finite;
  Bootstrap result;
  result.replicates = replicates;
  for (int b = 0; b < replicates; ++b)
    if (const double value = replicate(random); std::isfinite(value)) finite.push_back(value);
  result.usable = static_cast<int>(finite.size());
  result.percentile = {-kInfinity, kInfinity, level, messages::kIntervalParametricBootstrap};
  if (finite.size() < 2) {
    result.mean = result.standard_error = kUndefined;
    return result;
  }
  for (const double value : finite) result.mean += value / result.usable;
  for (const double value : finite)
    result.standard_error += (value - result.mean) * (value - result.mean) / (result.usable - 1);
  result.standard_error = std::sqrt(result.standard_error);
  std::sort(finite.begin(), finite.end());
  // Replicates without a finite estimate count as infinitely large ones.
  const auto at = [&](double share) {
    const double place = share * (replicates - 1);
    const std::size_t below = static_cast<std::size_t>(place);
    if (below >= finite.size()) return kInfinity;
    const double above = below + 1 < finite.size()
                             ? finite[below + 1]
                             : (static_cast<int>(finite.size()) == replicates ? finite[below] : kInfinity);
    const double part = place - static_cast<double>(below);
    return part == 0 ? finite[below] : finite[below] + part * (above - finite[below]);
  };
  result.percentile.lower = at((1 - level) / 2);
  result.percentile.upper = at((1 + level) / 2);
  return result;
}

Bootstrap bootstrap_population(const FittedModel& model, int occasions, int replicates, std::uint64_t seed,
                               double level) {
  FittedModel (*refit)(const ClosedCounts&, const ModelOptions&) = nullptr;
  for (const FullModel& full : full_models())
    if (model.name == full.name) refit = full.fit;
  if (!refit)
    throw InputError(Message(messages::kItemBootstrapOfModelNamed, {{"name", model.name}}),
                     messages::kNotDrawnFrom, messages::kUseFullLikelihood);
  const Estimate& n = model.estimates.at(0);
  if (!(n.value < 1e6))
    throw InputError(Message(messages::kItemBootstrapOfModelNamed, {{"name", model.name}}),
                     messages::kNoFiniteEstimate, messages::kNothingCanBeDrawn);
  const std::vector<CatchGroup> groups = catch_groups(model, occasions);
  const ModelOptions quick{level, seed, false};
  return bootstrap(
      [&](Random& random) {
        const CaptureHistories drawn =
            draw_histories(groups, static_cast<int>(std::lround(n.value)), [&] { return random.uniform(); });
        return drawn.animals.empty() ? kInfinity : refit(closed_counts(drawn), quick).estimates[0].value;
      },
      replicates, seed, level);
}

}  // namespace evet::models
