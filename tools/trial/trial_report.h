// Everything that `evet trial` found, and its forms: text, JSON, a page. The figures are the same in all.
#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "matcher/catalogue/calibration.h"
#include "tools/trial/trial_catalogue.h"
#include "tools/trial/trial_claim.h"
#include "tools/trial/trial_groups.h"
#include "tools/trial/trial_plots.h"
#include "tools/trial/trial_refit.h"

namespace evet::trial {

struct TrialReport {
  std::string catalogue, ledger_head, made_at, program;
  KnownSet known;  // its captures may have been moved from
  Trial trial;
  Scores scores;
  Rate failure_to_acquire;  // of all captures in the catalogue, settled or not
  std::vector<Grouping> groups;
  std::vector<std::string> claims;
  std::vector<Promise> promises;
  std::vector<Suspect> suspects;
  SearchOptions search;  // what was tried
  bool own_calibration = false;
  std::optional<Refit> refit;
  bool holds() const;
};

// Of a trial that was run: the rest follows.
void fill(TrialReport& report, const ScoreOptions& options);

std::string text_of(const TrialReport& report, bool colour);
nlohmann::json to_json(const TrialReport& report);
// One self-contained page: nothing is fetched, no script runs.
std::string page_of(const TrialReport& report);

// "196 of 200".
std::string so_many_of(const Rate& rate);
// "98.0 % (95.1-99.6), 196 of 200"; the interval is left out where nothing was counted.
std::string short_text(const Rate& rate);
// What the truth was taken from and what was left out of it.
std::vector<std::string> about_truth(const TrialReport& report);
std::string promise_text(const Promise& promise);
std::string refit_text(const Refit& refit);
std::string calibration_text(const TrialReport& report);

}  // namespace evet::trial
