// Rows of the coverage benchmark on default answers: whole surveys with dates, drawn animal by
// animal, given to estimate() as a user would give them, every figure of the answer held to what was
// so in that very survey.
#include <algorithm>
#include <cstdio>
#include <optional>

#include "coverage_tally.h"
#include "models/estimate.h"
#include "models/fit/tape.h"
#include "models/open/entry_models.h"
#include "models/open/time_between.h"

namespace evet::models {
namespace {

int poisson(Random& random, double mean) {
  int count = -1;
  for (double sum = 0; sum < mean; ++count) sum -= std::log1p(-random.uniform());
  return count;
}

std::string date_after(int days) {
  static const int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int year = 2031, month = 2, day = days;  // from 1 March
  while (day >= lengths[month]) {
    day -= lengths[month];
    if (++month == 12) month = 0, ++year;
  }
  char text[40];
  std::snprintf(text, sizeof text, "%04d-%02d-%02d", year, month + 1, day + 1);
  return text;
}

// A survey to draw: what is expected of animals that come in, live and are caught.
struct Season {
  std::vector<double> entrants;  // mean of a Poisson count before each occasion
  std::vector<double> survival;  // k - 1
  std::vector<double> capture;   // k
  std::vector<int> days = {};    // of each occasion; empty: 30 apart
  double lost = 0;               // share of captures that are not released
  double passing = 0;            // share of entrants that are gone after their first occasion
  bool sexes = false;            // males survive better by 0.5 on the logit scale, in a group of their own
  double again = 0;              // on the logit scale, recapture on the occasion just after a capture
  double misread = 0;            // share of recaptures taken for animals never seen before
  bool lengths = false;          // animals have a length, on which nothing depends
};

struct Drawn {
  CaptureHistories histories;
  std::vector<double> present;  // just before each occasion
  std::vector<double> females;  // of these
  double ever = 0;
};

Drawn drawn(const Season& season, Random& r) {
  const std::size_t k = season.capture.size();
  Drawn out;
  out.present.assign(k, 0.0);
  out.females.assign(k, 0.0);
  CaptureHistories& h = out.histories;
  for (std::size_t j = 0; j < k; ++j) {
    h.occasions.push_back(date_after(season.days.empty() ? 30 * static_cast<int>(j) : season.days[j]));
    h.dates.push_back(h.occasions.back());
  }
  const auto keep = [&](const std::vector<std::uint8_t>& row, bool male, bool lost) {
    if (std::find(row.begin(), row.end(), 1) == row.end()) return;
    h.animals.push_back(std::to_string(h.animals.size() + 1));
    h.caught.insert(h.caught.end(), row.begin(), row.end());
    if (season.lost > 0) h.lost.push_back(lost ? 1 : 0);
    if (season.sexes) h.groups["sex"].push_back(male ? "male" : "female");
    if (season.lengths) h.covariates["svl_mm"].push_back(70 + 5 * r.normal());
  };
  const auto shifted = [](double p, double by) { return logistic(std::log(p / (1 - p)) + by); };
  for (std::size_t entry = 0; entry < k; ++entry)
    for (int left = poisson(r, season.entrants[entry]); left > 0; --left) {
      ++out.ever;
      const bool male = r.chance(0.5), passes = r.chance(season.passing);
      std::vector<std::uint8_t> row(k, 0);
      bool lost = false, caught = false;
      for (std::size_t j = entry; j < k && !lost; ++j) {
        if (j > entry) {
          const double s = season.survival[j - 1];
          if (passes || !r.chance(season.sexes ? shifted(s, male ? 0.5 : -0.5) : s)) break;
        }
        ++out.present[j];
        out.females[j] += male ? 0 : 1;
        const bool just_caught = j > entry && row[j - 1];
        if (!r.chance(just_caught ? shifted(season.capture[j], season.again) : season.capture[j])) continue;
        lost = r.chance(season.lost);
        if (caught && r.chance(season.misread)) {
          std::vector<std::uint8_t> alone(k, 0);
          alone[j] = 1;
          keep(alone, male, lost);
        } else {
          row[j] = 1;
        }
        caught = true;
      }
      keep(row, male, lost);
    }
  return out;
}

// Growth is of what is expected, numbers and survival are of the survey that was drawn.
struct Expected {
  std::vector<double> numbers, left;  // just before, and just after an occasion
};
Expected expected(const Season& season) {
  Expected out;
  double residents = 0, passing = 0;
  for (std::size_t j = 0; j < season.capture.size(); ++j) {
    residents += season.entrants[j] * (1 - season.passing);
    passing = season.entrants[j] * season.passing;
    const double released = 1 - season.capture[j] * season.lost;
    out.numbers.push_back(residents + passing);
    out.left.push_back(released * (residents + passing));
    if (j < season.survival.size()) residents *= released * season.survival[j];
  }
  return out;
}

// What a chance taken for alike in all intervals stands for: of survival, what is left after all of them.
double overall(const std::vector<double>& chances) {
  double sum = 0;
  for (const double chance : chances) sum += std::log(chance);
  return std::exp(sum / static_cast<double>(chances.size()));
}

std::optional<double> truth_of(const Parameter& what, const Season& season, const Drawn& survey) {
  const auto at = static_cast<std::size_t>(what.index.value_or(1)) - 1;
  switch (what.quantity) {
    case Quantity::number_ever:
      return what.groups.empty() ? std::optional(survey.ever) : std::nullopt;
    case Quantity::number:
      if (what.groups.empty()) return survey.present[at];
      return what.groups.front().second == "female" ? survey.females[at]
                                                    : survey.present[at] - survey.females[at];
    case Quantity::survival:
      if (what.groups.empty() && season.sexes) return std::nullopt;
      if (what.groups.empty()) return what.index ? season.survival[at] : overall(season.survival);
      return logistic(std::log(season.survival[at] / (1 - season.survival[at])) +
                      (what.groups.front().second == "male" ? 0.5 : -0.5));
    case Quantity::recapture:
      return what.index ? season.capture[at] : overall({season.capture.begin() + 1, season.capture.end()});
    case Quantity::growth_rate: {
      // Survival of the sexes differs, and with it their share.
      if (season.sexes) return std::nullopt;
      const Expected means = expected(season);
      return means.numbers[at + 1] / means.left[at];
    }
    case Quantity::mean_growth:
      if (!what.groups.empty() || season.sexes) return std::nullopt;
      return std::exp(log_slope(expected(season).numbers, {}));
    default:
      return std::nullopt;
  }
}

// Each model alone holds 93 to 96 % where the constant ones are true, their average more.
constexpr const char* kAveraged = "averaged limits carry the doubt about the model";

Family season_family(const std::string& name, const std::string& truth, const Season& season,
                     const std::string& theory = "", const nlohmann::json& card = nullptr) {
  return {name, truth, theory,
          [=](Random& r, Tally& tally) {
            const Drawn survey = drawn(season, r);
            EstimateRequest request;
            request.plots = false;
            request.card = card;
            for (const Estimate& estimate : estimate(survey.histories, request).answer)
              if (const auto value = truth_of(estimate.what, season, survey))
                tally.add_answer(estimate.parameter, estimate, *value);
          },
          kAveraged};
}

// One model alone, quick to fit: in one season of seven a survival is estimated as 1.
Family one_model_family(const std::string& truth, const Season& season) {
  return {"super-population, survival by occasion, no late entry", truth, "", [=](Random& r, Tally& tally) {
            const Drawn survey = drawn(season, r);
            EntryChoice choice;
            choice.survival.occasion = true;
            for (const Estimate& estimate : fit_super_population(survey.histories, choice).estimates) {
              const bool wanted = estimate.what.quantity == Quantity::growth_rate ||
                                  estimate.what.quantity == Quantity::number;
              if (const auto value = truth_of(estimate.what, season, survey); wanted && value)
                tally.add_answer(estimate.parameter, estimate, *value);
            }
          }};
}

// A survey too small to tell the sexes apart, and the models of the default answer that tell of survival but for those
// with animals passing through: quick, for most of the time goes into those and into numbers.
Family small_survey_by_sex() {
  Season season{{80, 25, 25, 25, 25, 25}, repeated(0.7, 5), repeated(0.4, 6)};
  season.sexes = true;
  nlohmann::json card = {{"design", "open"}, {"models", nlohmann::json::array()}};
  for (const char* survival : {"", "occasion", "sex"})
    for (const char* recapture : {"", "occasion"}) {
      nlohmann::json model = {{"model", "survival"}};
      if (*survival) model["survival"] = {{"varies_by", {survival}}};
      if (*recapture) model["recapture"] = {{"varies_by", {recapture}}};
      card["models"].push_back(model);
    }
  return season_family(
      "answer, open, survival by sex, small",
      "80 at first, 25 more before each of 6, males survive better by 1 on the logit scale, p 0.4", season,
      "", card);
}

// Periods of four nights; animals may stay away for a period.
Family robust_family(const std::string& name, const std::string& truth, double leaving, double staying,
                     const std::string& theory = "") {
  return {name, truth, theory,
          [=](Random& r, Tally& tally) {
            constexpr std::size_t kPeriods = 6, kNights = 4;
            constexpr double kSurvival = 0.8, kCapture = 0.3;
            CaptureHistories h;
            std::vector<double> present(kPeriods, 0.0);
            for (std::size_t i = 0; i < kPeriods; ++i)
              for (std::size_t j = 0; j < kNights; ++j) {
                h.occasions.push_back(date_after(static_cast<int>(365 * i + j)));
                h.dates.push_back(h.occasions.back());
              }
            for (std::size_t entry = 0; entry < kPeriods; ++entry)
              for (int left = poisson(r, entry == 0 ? 150 : 40); left > 0; --left) {
                std::vector<std::uint8_t> row(kPeriods * kNights, 0);
                bool there = true, caught = false;
                for (std::size_t i = entry; i < kPeriods; ++i) {
                  if (i > entry && !r.chance(kSurvival)) break;
                  there = i == entry || !r.chance(there ? leaving : staying);
                  if (!there) continue;
                  ++present[i];
                  for (std::size_t j = 0; j < kNights; ++j) {
                    row[i * kNights + j] = r.chance(kCapture) ? 1 : 0;
                    caught = caught || row[i * kNights + j];
                  }
                }
                if (!caught) continue;
                h.animals.push_back(std::to_string(h.animals.size() + 1));
                h.caught.insert(h.caught.end(), row.begin(), row.end());
              }
            EstimateRequest request;
            request.plots = false;
            for (const Estimate& estimate : estimate(h, request).answer) {
              if (estimate.what.quantity == Quantity::survival)
                tally.add_answer(estimate.parameter, estimate, kSurvival);
              else if (estimate.what.quantity == Quantity::mean_growth)
                tally.add_answer(estimate.parameter, estimate, std::exp(log_slope(present, {})));
              else if (estimate.what.quantity == Quantity::number && estimate.what.index)
                tally.add_answer(estimate.parameter, estimate,
                                 present[static_cast<std::size_t>(*estimate.what.index) - 1]);
            }
          },
          kAveraged};
}

}  // namespace

std::vector<Family> answer_families() {
  std::vector<Family> all;
  const auto closed = [&](const std::string& name, const std::string& truth, std::vector<double> p,
                          double again, double spread) {
    all.push_back({"answer, closed, " + name, truth, "",
                   [=](Random& r, Tally& tally) {
                     CaptureHistories h;
                     const int animals = 150;
                     for (std::size_t j = 0; j < p.size(); ++j) h.occasions.push_back(std::to_string(j + 1));
                     for (int i = 0; i < animals; ++i) {
                       const double shift = spread * r.normal();
                       std::vector<std::uint8_t> row(p.size(), 0);
                       bool caught = false;
                       for (std::size_t j = 0; j < p.size(); ++j) {
                         const double eta = std::log(p[j] / (1 - p[j])) + shift + (caught ? again : 0);
                         row[j] = r.chance(logistic(eta)) ? 1 : 0;
                         caught = caught || row[j];
                       }
                       if (!caught) continue;
                       h.animals.push_back(std::to_string(i));
                       h.caught.insert(h.caught.end(), row.begin(), row.end());
                     }
                     EstimateRequest request;
                     request.plots = false;
                     tally.add_answer("N", estimate(h, request).answer.at(0), animals);
                   },
                   kAveraged});
  };
  const std::vector<double> nights = {0.15, 0.25, 0.2, 0.3, 0.1, 0.25};
  closed("all alike", "N 150, 6 nights, p 0.25", repeated(0.25, 6), 0, 0);
  closed("unequal nights", "N 150, p 0.15 0.25 0.2 0.3 0.1 0.25", nights, 0, 0);
  closed("response", "N 150, 6 nights, p 0.25, 0.8 more on the logit scale once caught", repeated(0.25, 6),
         0.8, 0);
  closed("unequal animals", "N 150, 8 nights, p 0.2, normal on the logit scale with SD 0.8", repeated(0.2, 8),
         0, 0.8);

  const Season steady{{200, 60, 60, 60, 60, 60}, repeated(0.7, 5), repeated(0.4, 6)};
  all.push_back(
      season_family("answer, open", "200 at first, 60 more before each of 6, survival 0.7, p 0.4", steady));
  const Season early{{200, 40, 30, 0, 0, 0}, repeated(0.8, 5), repeated(0.4, 6)};
  all.push_back(
      season_family("answer, open, no late entry", "200, 40, 30, then none; survival 0.8, p 0.4", early));
  all.push_back(one_model_family("200, 40, 30, then none; survival 0.8, p 0.4", early));
  Season uneven = steady;
  uneven.capture = {0.3, 0.5, 0.2, 0.6, 0.35, 0.5};
  all.push_back(season_family("answer, open, unequal nights", "as open, p 0.3 0.5 0.2 0.6 0.35 0.5", uneven,
                              "what capture by occasion cannot tell is not given"));
  Season losses = steady;
  losses.lost = 0.2;
  all.push_back(season_family("answer, open, losses", "as open, a fifth of the caught not released", losses));
  Season sexes = steady;
  sexes.sexes = sexes.lengths = true;
  all.push_back(season_family("answer, open, groups and covariates",
                              "as open, males survive better, a length without effect", sexes, "",
                              nlohmann::json::parse(R"({"design": "open", "models": [
        {"model": "survival", "survival": {"varies_by": ["sex"]}},
        {"model": "survival", "survival": {"varies_by": ["sex"], "linear_in": ["svl_mm"]}},
        {"model": "survival", "survival": {"linear_in": ["svl_mm"]}}]})")));
  all.push_back(season_family("answer, open, numbers by sex",
                              "as open, males survive better by 1 on the logit scale; numbers by sex",
                              sexes));
  all.push_back(small_survey_by_sex());
  Season varied = steady;
  varied.survival = {0.6, 0.8, 0.5, 0.85, 0.7};
  varied.capture = uneven.capture;
  all.push_back(
      season_family("answer, open, all unlike",
                    "200 at first, 60 more each time, survival 0.6 0.8 0.5 0.85 0.7, p 0.3 0.5 0.2 0.6 "
                    "0.35 0.5",
                    varied, "numbers rest on all models, which take survival for more alike than it is"));
  Season happy = steady;
  happy.again = 0.8;
  all.push_back(season_family("answer, open, response to capture",
                              "as open, 0.8 more on the logit scale just after a capture", happy,
                              "numbers take marked and unmarked animals for equally catchable; the test of "
                              "animals caught or missed names it"));
  Season misread = steady;
  misread.misread = 0.15;
  all.push_back(season_family("answer, open, misread animals",
                              "as open, 15 % of the recaptures taken for new", misread,
                              "no interval allows for wrong identities that nobody doubts; the test of newly "
                              "marked animals names it"));
  Season passing = steady;
  passing.passing = 0.4;
  all.push_back(season_family("answer, open, passing through", "as open, 40 % of the animals pass through",
                              passing,
                              "animals passing through that a survey hardly shows count in part as dead"));
  const std::string periods = "periods of 4 nights found in the dates, survival 0.8, p 0.3";
  all.push_back(robust_family("answer, robust, none away", periods, 0, 0));
  all.push_back(robust_family("answer, robust, away at random", periods + ", 0.3 away", 0.3, 0.3));
  all.push_back(robust_family("answer, robust, away by the period before",
                              periods + ", 0.2 leave, 0.6 stay away", 0.2, 0.6, ""));
  return all;
}

}  // namespace evet::models
