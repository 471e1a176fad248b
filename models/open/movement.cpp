#include "models/open/movement.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/fit/chance_estimates.h"
#include "models/fit/messages.h"
#include "models/fit/tape.h"
#include "models/open/messages.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

// Chances of one interval and of the occasion that ends it.
template <class T>
struct Step {
  std::vector<T> survival, recapture;
};

// moving[from * places + to]
template <class T>
T log_likelihood_of(const PlaceReleases& releases, const std::vector<Step<T>>& steps,
                    const std::vector<T>& moving) {
  using std::log;
  const std::size_t k = releases.occasions, n = releases.places.size();
  // Never caught again, by occasion and place of release.
  std::vector<std::vector<T>> never(k, std::vector<T>(n, T(1.0)));
  for (std::size_t i = k - 1; i-- > 0;)
    for (std::size_t r = 0; r < n; ++r) {
      T missed = T(0.0);
      for (std::size_t s = 0; s < n; ++s)
        missed += moving[r * n + s] * (1.0 - steps[i].recapture[s]) * never[i + 1][s];
      never[i][r] = 1.0 - steps[i].survival[r] + steps[i].survival[r] * missed;
    }
  T sum = T(0.0);
  for (std::size_t i = 0; i + 1 < k; ++i)
    for (std::size_t r = 0; r < n; ++r) {
      double left = releases.released[i][r];
      if (left == 0) continue;
      const std::vector<double>& next = releases.next[i][r];
      std::size_t last = 0;  // later occasions with any next capture
      for (std::size_t cell = 0; cell < next.size(); ++cell) {
        left -= next[cell];
        if (next[cell] > 0) last = cell / n;
      }
      if (left > 0) sum += left * log(never[i][r]);
      std::vector<T> at(n, T(0.0));  // alive and uncaught since release, by place
      at[r] = T(1.0);
      for (std::size_t j = i + 1; j <= last; ++j) {
        std::vector<T> here(n, T(0.0));
        for (std::size_t from = 0; from < n; ++from) {
          if (j == i + 1 && from != r) continue;
          const T alive = at[from] * steps[j - 1].survival[from];
          for (std::size_t s = 0; s < n; ++s) here[s] += alive * moving[from * n + s];
        }
        for (std::size_t s = 0; s < n; ++s) {
          const double caught = next[j * n + s];
          if (caught > 0) sum += caught * log(here[s] * steps[j - 1].recapture[s]);
          at[s] = here[s] * (1.0 - steps[j - 1].recapture[s]);
        }
      }
    }
  return sum;
}

// Where each parameter lies in theta.
struct MovementLayout {
  std::size_t intervals = 0, places = 0, recapture = 0, moving = 0;
  MovementChoice choice;
  std::vector<double> lengths;

  std::size_t of(const PlaceTerms& terms, std::size_t interval, std::size_t place) const {
    return (terms.by_occasion ? interval * (terms.by_place ? places : 1) : 0) + (terms.by_place ? place : 0);
  }
  std::size_t size(const PlaceTerms& terms) const {
    return (terms.by_occasion ? intervals : 1) * (terms.by_place ? places : 1);
  }
  template <class T>
  std::vector<Step<T>> steps(const std::vector<T>& theta) const {
    std::vector<Step<T>> all(intervals);
    for (std::size_t i = 0; i < intervals; ++i)
      for (std::size_t r = 0; r < places; ++r) {
        all[i].survival.push_back(
            logistic(over_time(theta[of(choice.survival, i, r)], length_of(lengths, i))));
        all[i].recapture.push_back(logistic(theta[recapture + of(choice.recapture, i, r)]));
      }
    return all;
  }
  // One after the other: the chance of going to the first other place, then to the next of those that are left.
  // With two places each coordinate is the logit of its chance.
  template <class T>
  std::vector<T> moves(const std::vector<T>& theta) const {
    std::vector<T> all(places * places, T(0.0));
    for (std::size_t r = 0; r < places; ++r) {
      T left = T(1.0);
      std::size_t coordinate = moving + r * (places - 1);
      for (std::size_t s = 0; s < places; ++s) {
        if (s == r) continue;
        if (choice.moving_by_place) {
          all[r * places + s] = left * logistic(theta[coordinate]);
          left = left * logistic(-theta[coordinate++]);
        } else {
          all[r * places + s] = logistic(theta[moving]) / static_cast<double>(places - 1);
        }
      }
      all[r * places + r] = choice.moving_by_place ? left : logistic(-theta[moving]);
    }
    return all;
  }
};

Parameter moving_of(const std::vector<std::string>& places, std::size_t from, std::size_t to) {
  return {Quantity::moving, {}, {{"from", places[from]}, {"to", places[to]}}};
}

Message words_of(const PlaceTerms& terms) {
  return terms.by_place && terms.by_occasion ? messages::kByPlaceAndOccasion
         : terms.by_place                    ? messages::kByPlace
         : terms.by_occasion                 ? messages::kByOccasion
                                             : messages::kConstant;
}

void add_terms(Likelihood& likelihood, const MovementLayout& at, Quantity quantity, const PlaceTerms& terms,
               double start, int first_index, const std::vector<std::string>& places) {
  for (std::size_t i = 0; i < (terms.by_occasion ? at.intervals : 1); ++i)
    for (std::size_t r = 0; r < (terms.by_place ? at.places : 1); ++r) {
      Parameter one{quantity};
      if (terms.by_occasion) one.index = static_cast<int>(i) + first_index;
      if (terms.by_place) one.groups = {{"place", places[r]}};
      likelihood.add(one, Link::logit, start);
    }
}

void add_moving(Likelihood& likelihood, const MovementLayout& at, const std::vector<std::string>& places) {
  if (!at.choice.moving_by_place) {
    likelihood.add({Quantity::moving, {}, {}, Parameter::Kind::inner, {}, &messages::kMovingAnywhere},
                   Link::logit, 0.1);
    return;
  }
  for (std::size_t r = 0; r < at.places; ++r)
    for (std::size_t s = 0; s < at.places; ++s)
      if (s != r) likelihood.add(moving_of(places, r, s), Link::logit, 0.1);
}

// A coordinate at its end has no standard error: its profile, over what the coordinates before it leave.
Estimate moving_estimate(const FittedModel& model, const MovementLayout& at,
                         const std::vector<std::string>& places, std::size_t from, std::size_t to,
                         const ModelOptions& options) {
  const std::size_t cell = from * at.places + to;
  const auto eta = [&](const VectorXd& x) {
    const double chance = at.moves(std::vector<double>(x.data(), x.data() + x.size()))[cell];
    return std::log(chance / (1 - chance));
  };
  const std::size_t step = to > from ? to - 1 : to;
  const auto coordinate =
      static_cast<Index>(at.choice.moving_by_place ? at.moving + from * (at.places - 1) + step : at.moving);
  double share = at.choice.moving_by_place ? 1 : 1.0 / static_cast<double>(at.places - 1);
  for (std::size_t before = 0; at.choice.moving_by_place && before < step; ++before)
    share *= logistic(-model.fit.theta[coordinate - 1 - static_cast<Index>(before)]);
  const bool own = !at.choice.moving_by_place || step == 0;
  Estimate estimate;
  if (own || model.fit.boundary[static_cast<std::size_t>(coordinate)]) {
    estimate = natural_estimate(model.likelihood, model.fit, coordinate, options.level, options.profile);
    estimate.value *= share;
    estimate.standard_error *= share;
    for (Interval& interval : estimate.intervals)
      interval = {interval.lower * share, interval.upper * share, interval.level, interval.method};
    estimate.what = moving_of(places, from, to);
    estimate.parameter = estimate.what.name();
    return estimate;
  }
  return chance_estimate(moving_of(places, from, to), model.fit, eta, options.level);
}

void describe_movement(FittedModel& model) {
  Estimate& first = model.estimates.front();
  first.warnings = model.fit.warnings();
  first.source =
      "Arnason (1973), Res. Popul. Ecol. 15:1-8; Brownie, Hines, Nichols, Pollock & Hestbeck (1993), "
      "Biometrics "
      "49:1173-1187";
  first.assumptions = {messages::kEqualInAPlace, messages::kMovedAtTheEnd, messages::kLeavingAllPlaces};
}

}  // namespace

double PlaceReleases::recaptures() const {
  double sum = 0;
  for (const auto& occasion : next)
    for (const auto& cells : occasion)
      for (const double count : cells) sum += count;
  return sum;
}

double PlaceReleases::moves() const {
  double sum = 0;
  const std::size_t n = places.size();
  for (const auto& occasion : next)
    for (std::size_t r = 0; r < n; ++r)
      for (std::size_t cell = 0; cell < occasion[r].size(); ++cell)
        sum += cell % n == r ? 0 : occasion[r][cell];
  return sum;
}

PlaceReleases place_releases(const CaptureHistories& histories, bool by_period) {
  histories.check();
  if (histories.places.size() < 2)
    throw InputError(messages::kItemMovement, messages::kNoTwoPlaces, messages::kGiveSeveralPonds);
  const bool periods = by_period && !histories.primary.empty();
  PlaceReleases out;
  out.occasions = periods ? static_cast<std::size_t>(histories.primary_count()) : histories.occasion_count();
  out.places = histories.places;
  if (out.occasions < 2)
    throw InputError(messages::kItemMovement, messages::kOneOccasionOnly, messages::kGiveTwo);
  const std::size_t n = out.places.size();
  out.released.assign(out.occasions, std::vector<double>(n, 0.0));
  out.next.assign(out.occasions,
                  std::vector<std::vector<double>>(n, std::vector<double>(out.occasions * n, 0.0)));
  for (std::size_t a = 0; a < histories.animal_count(); ++a) {
    std::vector<std::size_t> where(out.occasions, n);  // n: not caught
    for (std::size_t j = 0; j < histories.occasion_count(); ++j)
      if (histories.was_caught(a, j))
        where[periods ? static_cast<std::size_t>(histories.primary[j]) : j] = histories.place_of(a, j);
    std::size_t before = out.occasions;
    for (std::size_t i = 0; i < out.occasions; ++i) {
      if (where[i] == n) continue;
      if (before < out.occasions) {
        ++out.released[before][where[before]];
        ++out.next[before][where[before]][i * n + where[i]];
      }
      before = i;
    }
    if (before + 1 < out.occasions && !histories.was_lost(a)) ++out.released[before][where[before]];
  }
  return out;
}

FittedModel fit_movement(const PlaceReleases& releases, const MovementChoice& choice,
                         const ModelOptions& options) {
  const auto kept = std::make_shared<const PlaceReleases>(releases);
  MovementLayout at;
  at.intervals = releases.occasions - 1;
  at.places = releases.places.size();
  at.choice = choice;
  at.lengths = options.interval_lengths;
  FittedModel model;
  model.name = "movement";
  model.description =
      Message(
          messages::kMovementModel,
          {{"survival", words_of(choice.survival)},
           {"recapture", words_of(choice.recapture)},
           {"moving", Message(choice.moving_by_place ? messages::kByPlace : messages::kSameBetweenPlaces)}})
          .words();
  Likelihood& likelihood = model.likelihood;
  add_terms(likelihood, at, Quantity::survival, choice.survival, start_per_unit(0.7, at.lengths), 1,
            releases.places);
  at.recapture = likelihood.parameters.size();
  add_terms(likelihood, at, Quantity::recapture, choice.recapture, 0.5, 2, releases.places);
  at.moving = likelihood.parameters.size();
  add_moving(likelihood, at, releases.places);
  likelihood.minus_log_likelihood = [kept, at](const VectorXd& x, VectorXd* gradient) {
    return evaluate(
        [&](const auto& theta) { return -log_likelihood_of(*kept, at.steps(theta), at.moves(theta)); }, x,
        gradient);
  };
  model.fit = fit(likelihood, {options.seed, true, options.overdispersion});
  model.parameters = model.fit.rank;
  model.log_likelihood = model.fit.log_likelihood;
  for (std::size_t i = 0; i + 1 < releases.occasions; ++i)
    for (const double count : releases.released[i]) model.sample_size += count;
  for (std::size_t from = 0; from < at.places; ++from)
    for (std::size_t to = 0; to < at.places; ++to)
      if (to != from)
        model.estimates.push_back(moving_estimate(model, at, releases.places, from, to, options));
  // The one chance of all pairs comes with its own name, so that a reader of the row sees that there is but one.
  const std::size_t others = at.moving + (choice.moving_by_place ? 0 : 1);
  for (Index i = 0; i < static_cast<Index>(others); ++i)
    model.estimates.push_back(natural_estimate(likelihood, model.fit, i, options.level, options.profile));
  describe_movement(model);
  return model;
}

double movement_log_likelihood(const PlaceReleases& releases,
                               const std::vector<std::vector<double>>& survival,
                               const std::vector<std::vector<double>>& recapture,
                               const std::vector<std::vector<double>>& moving) {
  std::vector<Step<double>> steps;
  for (std::size_t i = 0; i < survival.size(); ++i) steps.push_back({survival[i], recapture[i]});
  std::vector<double> moves;
  for (const std::vector<double>& row : moving) moves.insert(moves.end(), row.begin(), row.end());
  return log_likelihood_of(releases, steps, moves);
}

}  // namespace evet::models
