#include "models/ask/registry.h"

#include <algorithm>
#include <functional>

#include "models/ask/messages.h"
#include "models/base/input_error.h"
#include "models/base/messages.h"
#include "models/closed/conditional.h"
#include "models/closed/full_likelihood.h"
#include "models/closed/heterogeneity.h"
#include "models/closed/two_sample.h"
#include "models/open/entry_models.h"
#include "models/open/jolly_seber.h"
#include "models/open/movement.h"
#include "models/open/release_effects.h"
#include "models/open/survival.h"

namespace evet::models {
namespace {

// Entry models by occasion have three parameters an occasion: beyond this they are left for a card to name.
constexpr std::size_t kMostEntryOccasions = 20;

PartChoice part_of(const ModelChoice& choice, const std::string& name) {
  const auto at = choice.parts.find(name);
  return at == choice.parts.end() ? PartChoice{} : at->second;
}

ModelChoice variant(const std::string& name, const std::vector<std::pair<std::string, std::string>>& parts) {
  ModelChoice choice;
  choice.name = name;
  for (const auto& [part, by] : parts) {
    choice.parts[part] = {};
    if (!by.empty()) choice.parts[part].varies_by = {by};
  }
  return choice;
}

ReleaseEffects effects_of(const Terms& survival, const Terms& recapture) {
  for (const Terms* terms : {&survival, &recapture})
    if (!terms->groups.empty() || !terms->covariates.empty() || !terms->occasion_covariates.empty())
      throw InputError("after_capture", messages::kGroupsAsWell, messages::kNameOneOrOther);
  return {survival.occasion, recapture.occasion, survival.response, recapture.response};
}

FittedModel fit_survival_as_said(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  const Terms survival = terms_of(part_of(choice, "survival"), data.histories());
  const Terms recapture = terms_of(part_of(choice, "recapture"), data.histories());
  data.releases();  // refuses a single occasion
  if (survival.response || recapture.response)
    return fit_release_effects(data.histories(), effects_of(survival, recapture), options);
  return fit_survival(data.histories(), survival, recapture, options);
}

// Many occasions with few recaptures: a chance for each occasion would take minutes to say that the data are
// too few for it.
bool too_thin_by_occasion(SurveyData& data, int chances_an_occasion) {
  const double occasions = data.releases().occasions();
  return occasions > static_cast<double>(kMostEntryOccasions) &&
         data.releases().next.sum() < 2 * chances_an_occasion * occasions;
}

std::vector<ModelChoice> survival_variants(SurveyData& data) {
  const bool too_thin = too_thin_by_occasion(data, 1), too_thin_for_both = too_thin_by_occasion(data, 2);
  std::vector<ModelChoice> variants;
  for (const char* survival : {"", "occasion"})
    for (const char* recapture : {"", "occasion"}) {
      if ((too_thin && (*survival || *recapture)) || (too_thin_for_both && *survival && *recapture)) continue;
      variants.push_back(variant("survival", {{"survival", survival}, {"recapture", recapture}}));
    }
  // Animals that pass through, and an answer to capture.
  const auto add_after_capture = [&](const char* part, const char* survival, const char* recapture) {
    variants.push_back(variant("survival", {{"survival", survival}, {"recapture", recapture}}));
    variants.back().parts[part].after_capture = true;
  };
  if (data.histories().occasion_count() >= 4)
    for (const char* recapture : {"", "occasion"}) {
      if (too_thin && *recapture) continue;
      add_after_capture("survival", "", recapture);
      add_after_capture("recapture", "", recapture);
      if (!(*recapture ? too_thin_for_both : too_thin)) add_after_capture("survival", "occasion", recapture);
    }
  for (const auto& [group, levels] : data.histories().groups) {
    // One level alone says nothing.
    if (std::adjacent_find(levels.begin(), levels.end(), std::not_equal_to<>()) == levels.end()) continue;
    variants.push_back(variant("survival", {{"survival", group}, {"recapture", ""}}));
    if (!too_thin) variants.push_back(variant("survival", {{"survival", group}, {"recapture", "occasion"}}));
  }
  return variants;
}

// More groups than these are left for a card to let the chances vary by.
std::vector<std::string> leading_groups(SurveyData& data) {
  constexpr std::size_t kMost = 2;
  std::vector<std::string> groups = data.usual_groups();
  if (groups.size() > kMost) groups.resize(kMost);
  return groups;
}

FittedModel fit_entry(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  EntryChoice terms;
  terms.survival = terms_of(part_of(choice, "survival"), data.histories());
  terms.capture = terms_of(part_of(choice, "capture"), data.histories());
  terms.passing = terms.survival.response;
  terms.survival.response = false;
  terms.ends_known = choice.ends_certain;
  terms.numbers_by = choice.numbers_by;
  data.releases();  // refuses a single occasion
  return fit_super_population(data.histories(), terms, options);
}

std::vector<ModelChoice> entry_variants(SurveyData& data) {
  const bool few = data.histories().occasion_count() <= kMostEntryOccasions;
  std::vector<ModelChoice> variants;
  const auto add = [&](const std::string& survival, const std::string& capture) {
    variants.push_back(variant("super-population", {{"survival", survival}, {"capture", capture}}));
    variants.back().numbers_by = data.usual_groups();
    return &variants.back();
  };
  for (const char* survival : {"", "occasion"})
    for (const char* capture : {"", "occasion"})
      if (few || (!*survival && !*capture)) add(survival, capture);
  if (data.histories().occasion_count() >= 4)
    for (const char* capture : {"", "occasion"})
      if (few || !*capture) add("", capture)->parts["survival"].after_capture = true;
  for (const std::string& group : leading_groups(data)) {
    add("", group);
    add(group, "");
    add(group, group);
    if (few) add("", "occasion")->parts["capture"].varies_by.push_back(group);
  }
  return variants;
}

FittedModel fit_growth_as_said(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  GrowthChoice terms;
  terms.survival = terms_of(part_of(choice, "survival"), data.histories());
  terms.capture = terms_of(part_of(choice, "capture"), data.histories());
  for (const auto& [name, form] : {std::pair{"growth rate", GrowthForm::growth},
                                   {"recruitment", GrowthForm::recruitment},
                                   {"seniority", GrowthForm::seniority}})
    if (choice.parts.contains(name)) {
      terms.form = form;
      terms.rate = terms_of(part_of(choice, name), data.histories());
    }
  data.releases();  // refuses a single occasion
  return fit_growth(data.histories(), terms, options);
}

std::vector<ModelChoice> growth_variants(SurveyData& data) {
  std::vector<ModelChoice> variants = {
      variant("growth", {{"survival", ""}, {"capture", ""}, {"growth rate", ""}})};
  if (data.histories().occasion_count() > kMostEntryOccasions) return variants;
  variants.push_back(variant("growth", {{"survival", ""}, {"capture", ""}, {"growth rate", "occasion"}}));
  variants.push_back(variant("growth", {{"survival", ""}, {"capture", "occasion"}, {"growth rate", ""}}));
  return variants;
}

// Terms of a part that may vary by period, for the design in which "occasion" means a night.
Terms terms_by_period(PartChoice part, const CaptureHistories& histories, bool& by_period) {
  by_period = part.by("period");
  std::replace(part.varies_by.begin(), part.varies_by.end(), std::string("period"), std::string("occasion"));
  return terms_of(part, histories);
}

FittedModel fit_robust_as_said(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  RobustChoice terms;
  terms.emigration = choice.emigration == "none"                ? Emigration::none
                     : choice.emigration == "depends on before" ? Emigration::markov
                                                                : Emigration::random;
  terms.emigration_by_period = choice.emigration == "random by period";
  bool by_period = false;
  terms.survival = terms_by_period(part_of(choice, "survival"), data.histories(), by_period);
  terms.capture = terms_by_period(part_of(choice, "capture"), data.histories(), terms.capture_by_period);
  if (part_of(choice, "capture").by("occasion")) terms.capture_by_period = false;
  terms.numbers_by = choice.numbers_by;
  return fit_robust(data.histories(), terms, options);
}

std::vector<ModelChoice> robust_variants(SurveyData& data) {
  // Away at random shows from three periods on, away by the period before from four.
  const int periods = data.histories().primary_count();
  std::vector<ModelChoice> variants;
  for (const auto& [emigration, needed] : {std::pair{"none", 2}, {"random", 3}, {"depends on before", 4}}) {
    if (periods < needed) continue;
    const auto add = [&, away = emigration](const std::string& survival, const std::string& capture) {
      variants.push_back(variant("robust", {{"survival", survival}, {"capture", capture}}));
      variants.back().emigration = away;
      variants.back().numbers_by = data.usual_groups();
    };
    add("", "");
    add("", "period");
    for (const std::string& group : leading_groups(data)) {
      add("", group);
      add(group, "");
    }
  }
  return variants;
}

FittedModel fit_conditional_as_said(SurveyData& data, const ModelChoice& choice,
                                    const ModelOptions& options) {
  return fit_conditional(data.histories(), terms_of(part_of(choice, "capture"), data.histories()), options,
                         choice.numbers_by);
}

PlaceTerms place_terms(const ModelChoice& choice, const std::string& name) {
  const PartChoice part = part_of(choice, name);
  for (const std::string& one : part.varies_by)
    if (one != "place" && one != "occasion")
      throw InputError(Message(messages::kItemPartOfMovement, {{"part", name}}),
                       {messages::kCannotVaryBy, {{"by", one}}}, messages::kUsePlaceOrOccasion);
  if (!part.linear_in.empty())
    throw InputError(Message(messages::kItemPartOfMovement, {{"part", name}}),
                     {messages::kIsLinearIn, {{"covariate", part.linear_in.front()}}},
                     messages::kLeaveLinearOut);
  return {part.by("place"), part.by("occasion")};
}

template <bool by_period>
FittedModel fit_movement_as_said(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  MovementChoice terms;
  terms.survival = place_terms(choice, "survival");
  terms.recapture = place_terms(choice, "recapture");
  const PlaceTerms moving = place_terms(choice, "moving");
  if (moving.by_occasion)
    throw InputError(Message(messages::kItemPartOfMovement, {{"part", std::string("moving")}}),
                     {messages::kCannotVaryBy, {{"by", "occasion"}}}, messages::kUsePlaceOrConstant);
  terms.moving_by_place = moving.by_place;
  return fit_movement(data.places(by_period), terms, options);
}

std::vector<ModelChoice> movement_variants(SurveyData& data) {
  constexpr std::size_t kMostPlacesByPair = 4;  // beyond, most pairs of places were seen by nobody
  const bool pairs = data.histories().places.size() <= kMostPlacesByPair;
  std::vector<ModelChoice> variants;
  for (const char* moving : {"", "place"})
    for (const char* survival : {"", "place"})
      for (const char* recapture : {"", "place"})
        if (pairs || !*moving)
          variants.push_back(
              variant("movement", {{"survival", survival}, {"recapture", recapture}, {"moving", moving}}));
  return variants;
}
std::vector<ModelChoice> period_movement_variants(SurveyData& data) {
  std::vector<ModelChoice> variants = movement_variants(data);
  for (ModelChoice& one : variants) one.name = "movement-by-period";
  return variants;
}

ModelEntry movement(const std::string& design, const std::string& name,
                    FittedModel (*fit)(SurveyData&, const ModelChoice&, const ModelOptions&),
                    std::vector<ModelChoice> (*variants)(SurveyData&)) {
  ModelEntry entry{design, name, {"survival", "recapture", "moving"}, ModelEntry::Freedom::full};
  entry.default_from = 3;
  entry.family = "movement";
  entry.quantities = {Quantity::moving, Quantity::survival};
  entry.for_places = true;
  entry.fit = fit;
  entry.variants = variants;
  return entry;
}

// Numbers by group, the chance of capture the same in all groups or not.
std::vector<ModelChoice> conditional_variants(SurveyData& data) {
  std::vector<ModelChoice> variants;
  std::vector<std::string> groups = leading_groups(data);
  groups.insert(groups.begin(), "");
  for (const std::string& group : groups)
    for (const bool response : {false, true})
      for (const char* occasion : {"", "occasion"}) {
        if (response && *occasion) continue;
        variants.push_back(variant("conditional", {{"capture", occasion}}));
        PartChoice& capture = variants.back().parts["capture"];
        if (!group.empty()) capture.varies_by.push_back(group);
        capture.after_capture = response;
        variants.back().numbers_by = data.usual_groups();
      }
  return variants;
}

// Animals lost at the first of two samples were there too, though the ratio is about those that remained.
std::vector<Estimate> two_samples(Estimate estimate, const CaptureHistories& histories) {
  double lost = 0;
  for (std::size_t i = 0; i < histories.animal_count(); ++i)
    lost += histories.was_lost(i) && histories.was_caught(i, 0) && !histories.was_caught(i, 1) ? 1 : 0;
  if (lost == 0) return {estimate};
  estimate.value += lost;
  for (Interval& interval : estimate.intervals)
    interval = {interval.lower + lost, interval.upper + lost, interval.level, interval.method};
  estimate.details["lost_at_first"] = lost;
  return {estimate};
}

using Estimates = std::vector<Estimate>;

template <Estimate (*estimator)(const TwoSampleCounts&, double)>
Estimates of_two_samples(SurveyData& data, double level) {
  return two_samples(estimator(two_sample_counts(data.histories()), level), data.histories());
}
template <Estimate (*estimator)(const BatchCounts&, double)>
Estimates of_batches(SurveyData& data, double level) {
  return {estimator(data.batch(), level)};
}
template <Estimate (*estimator)(const ClosedCounts&, double)>
Estimates of_counts(SurveyData& data, double level) {
  return {estimator(data.closed(), level)};
}
template <FittedModel (*model)(const ClosedCounts&, const ModelOptions&)>
FittedModel of_closed(SurveyData& data, const ModelChoice&, const ModelOptions& options) {
  return model(data.closed(), options);
}

ModelEntry estimator(const std::string& design, const std::string& name, int from, int until,
                     const MessageText& description, Estimates (*estimates)(SurveyData&, double)) {
  ModelEntry entry{design, name};
  entry.default_from = from;
  entry.default_until = until;
  entry.description = description;
  entry.estimates = estimates;
  return entry;
}

ModelEntry full(const std::string& name, int from, const std::vector<std::string>& case_of,
                FittedModel (*fit)(SurveyData&, const ModelChoice&, const ModelOptions&)) {
  ModelEntry entry{"closed", name};
  entry.default_from = from;
  entry.family = "closed";
  entry.quantities = {Quantity::number};
  entry.case_of = case_of;
  entry.fit = fit;
  return entry;
}

ModelEntry with_parts(const std::string& design, const std::string& name,
                      const std::vector<std::string>& parts, int from,
                      const std::vector<Quantity>& quantities,
                      FittedModel (*fit)(SurveyData&, const ModelChoice&, const ModelOptions&),
                      std::vector<ModelChoice> (*variants)(SurveyData&)) {
  ModelEntry entry{design, name, parts, ModelEntry::Freedom::full};
  entry.default_from = from;
  entry.family = name;
  entry.quantities = quantities;
  entry.fit = fit;
  entry.variants = variants;
  return entry;
}

constexpr int kEver = 1 << 30;

std::vector<ModelEntry> closed_models() {
  std::vector<ModelEntry> all = {
      estimator("closed", "chapman", 2, 2, messages::kEstimatorTwoSamplesCorrected, of_two_samples<chapman>),
      estimator("closed", "lincoln-petersen", 2, 2, messages::kEstimatorTwoSamples,
                of_two_samples<lincoln_petersen>),
      estimator("closed", "bailey", 0, 0, messages::kEstimatorTwoSamplesReplaced, of_two_samples<bailey>),
      full("constant", 3, {"occasion", "response", "mixture", "beta-binomial"}, of_closed<fit_constant>),
      full("occasion", 3, {"occasion-response", "occasion-mixture"}, of_closed<fit_occasion>),
      full("response", 3, {"occasion-response", "response-mixture"}, of_closed<fit_response>),
      full("occasion-response", 4, {}, of_closed<fit_occasion_response>),
      full("mixture", 4, {"occasion-mixture", "response-mixture"}, of_closed<fit_mixture>),
      full("beta-binomial", 4, {}, of_closed<fit_beta_binomial>),
      full("occasion-mixture", 4, {}, of_closed<fit_occasion_mixture>),
      full("response-mixture", 5, {}, of_closed<fit_response_mixture>),
      estimator("closed", "chao-corrected", 3, kEver, messages::kEstimatorLowerBoundCorrected,
                of_counts<chao_bias_corrected>),
      estimator("closed", "jackknife", 3, kEver, messages::kEstimatorJackknife, of_counts<jackknife>),
      estimator("closed", "sample-coverage", 3, kEver, messages::kEstimatorSampleCoverage,
                [](SurveyData& d, double level) -> Estimates {
                  return {sample_coverage(d.closed(), 2, false, level)};
                }),
      estimator("closed", "schnabel", 3, kEver, messages::kEstimatorSeveralSamplesMean, of_batches<schnabel>),
      estimator("closed", "schumacher-eschmeyer", 3, kEver, messages::kEstimatorSeveralSamplesRegression,
                of_batches<schumacher_eschmeyer>),
      estimator("closed", "binomial-batch", 0, 0, messages::kEstimatorSeveralSamplesBinomial,
                of_batches<binomial_batch>),
      estimator("closed", "chao", 0, 0, messages::kEstimatorLowerBound, of_counts<chao_1987>),
      estimator("closed", "chao-occasions", 0, 0, messages::kEstimatorLowerBoundOccasions,
                of_counts<chao_occasions>),
      estimator("closed", "sample-coverage-occasions", 0, 0, messages::kEstimatorSampleCoverageOccasions,
                [](SurveyData& d, double level) -> Estimates {
                  return {sample_coverage(d.closed(), 2, true, level)};
                }),
  };
  for (ModelEntry& entry : all)
    entry.by_occasion = entry.name == "occasion-response" || entry.name == "occasion-mixture";
  all.push_back(full("removal", 0, {}, [](SurveyData& d, const ModelChoice&, const ModelOptions& options) {
    return fit_removal(d.closed().newly, options);
  }));
  all.back().family = "removal";
  all.push_back(with_parts("closed", "conditional", {"capture"}, 3, {Quantity::number},
                           fit_conditional_as_said, conditional_variants));
  all.back().numbers_by_group = all.back().for_groups = true;
  return all;
}

std::vector<ModelEntry> all_models() {
  std::vector<ModelEntry> all = closed_models();
  all.push_back(with_parts("open", "survival", {"survival", "recapture"}, 2,
                           {Quantity::survival, Quantity::recapture}, fit_survival_as_said,
                           survival_variants));
  all.push_back(
      with_parts("open", "super-population", {"survival", "capture"}, 2,
                 {Quantity::number_ever, Quantity::number, Quantity::growth_rate, Quantity::mean_growth},
                 fit_entry, entry_variants));
  all.back().numbers_by_group = true;
  // Growth by interval follows from the numbers above, also where it is not the same throughout.
  all.push_back(with_parts("open", "growth",
                           {"survival", "capture", "growth rate", "recruitment", "seniority"}, 0,
                           {Quantity::growth_rate}, fit_growth_as_said, growth_variants));
  all.push_back(
      estimator("open", "jolly-seber", 3, kEver, messages::kEstimatorClosedFormOpen,
                [](SurveyData& d, double level) { return jolly_seber_estimates(d.releases(), level); }));
  all.push_back(movement("open", "movement", fit_movement_as_said<false>, movement_variants));
  all.push_back(with_parts("robust", "robust", {"survival", "capture"}, 2,
                           {Quantity::survival, Quantity::number, Quantity::mean_growth}, fit_robust_as_said,
                           robust_variants));
  all.back().numbers_by_group = true;
  all.push_back(
      movement("robust", "movement-by-period", fit_movement_as_said<true>, period_movement_variants));
  all.push_back(estimator("robust", "closed-by-period", 2, kEver, messages::kEstimatorEachPeriodAlone,
                          [](SurveyData& d, double level) { return closed_by_period(d.robust(), level); }));
  return all;
}

}  // namespace

const std::vector<ModelEntry>& registry() {
  static const std::vector<ModelEntry> models = all_models();
  return models;
}

const ModelEntry* find_model(const std::string& name) {
  const auto found = std::find_if(registry().begin(), registry().end(),
                                  [&](const ModelEntry& entry) { return entry.name == name; });
  return found == registry().end() ? nullptr : &*found;
}

}  // namespace evet::models
