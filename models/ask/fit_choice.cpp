#include "models/ask/fit_choice.h"

#include <algorithm>
#include <functional>
#include <set>

#include "models/base/input_error.h"
#include "models/closed/conditional.h"
#include "models/closed/exact_distinct.h"
#include "models/closed/full_likelihood.h"
#include "models/closed/heterogeneity.h"
#include "models/closed/two_sample.h"
#include "models/open/entry_models.h"
#include "models/open/jolly_seber.h"
#include "models/open/release_effects.h"
#include "models/open/survival.h"

namespace evet::models {
namespace {

using EstimatesOf = std::vector<Estimate> (*)(SurveyData&, double);
struct Estimator {
  const char* name;
  const char* description;
  EstimatesOf estimates;
};

// Estimators without a likelihood.
constexpr Estimator kEstimators[] = {
    {"lincoln-petersen", "two samples, ratio estimate",
     [](SurveyData& d, double level) -> std::vector<Estimate> {
       return {lincoln_petersen(two_sample_counts(d.histories()), level)};
     }},
    {"chapman", "two samples, ratio estimate corrected for bias",
     [](SurveyData& d, double level) -> std::vector<Estimate> {
       return {chapman(two_sample_counts(d.histories()), level)};
     }},
    {"bailey", "two samples, the second with replacement",
     [](SurveyData& d, double level) -> std::vector<Estimate> {
       return {bailey(two_sample_counts(d.histories()), level)};
     }},
    {"schnabel", "several samples, weighted mean of two-sample estimates",
     [](SurveyData& d, double level) -> std::vector<Estimate> { return {schnabel(d.batch(), level)}; }},
    {"schumacher-eschmeyer", "several samples, regression through the origin",
     [](SurveyData& d, double level) -> std::vector<Estimate> {
       return {schumacher_eschmeyer(d.batch(), level)};
     }},
    {"binomial-batch", "several samples, recaptures binomial given the marked",
     [](SurveyData& d, double level) -> std::vector<Estimate> { return {binomial_batch(d.batch(), level)}; }},
    {"jackknife", "unequal catchability, jackknife of the order that the data ask for",
     [](SurveyData& d, double level) -> std::vector<Estimate> { return {jackknife(d.closed(), level)}; }},
    {"chao", "unequal catchability, lower bound",
     [](SurveyData& d, double level) -> std::vector<Estimate> { return {chao_1987(d.closed(), level)}; }},
    {"chao-occasions", "unequal catchability, lower bound for a set number of occasions",
     [](SurveyData& d, double level) -> std::vector<Estimate> {
       return {chao_occasions(d.closed(), level)};
     }},
    {"chao-corrected", "unequal catchability, lower bound corrected for bias",
     [](SurveyData& d, double level) -> std::vector<Estimate> {
       return {chao_bias_corrected(d.closed(), level)};
     }},
    {"sample-coverage", "unequal catchability, by the share of the population's catchability covered",
     [](SurveyData& d, double level) -> std::vector<Estimate> {
       return {sample_coverage(d.closed(), 2, false, level)};
     }},
    {"sample-coverage-occasions", "unequal catchability and unequal occasions, by sample coverage",
     [](SurveyData& d, double level) -> std::vector<Estimate> {
       return {sample_coverage(d.closed(), 2, true, level)};
     }},
    {"jolly-seber", "numbers, survival and births by occasion in closed form",
     [](SurveyData& d, double level) { return jolly_seber_estimates(d.releases(), level); }},
    {"closed-by-period", "each primary period alone, the same chance of capture on all its occasions",
     [](SurveyData& d, double level) { return closed_by_period(d.robust(), level); }},
};

// Animals lost at the first of two samples were there too, though the ratio is about those that remained.
void add_lost_at_first(Estimate& estimate, const CaptureHistories& histories) {
  double lost = 0;
  for (std::size_t i = 0; i < histories.animal_count(); ++i)
    lost += histories.was_lost(i) && histories.was_caught(i, 0) && !histories.was_caught(i, 1) ? 1 : 0;
  if (lost == 0) return;
  estimate.value += lost;
  for (Interval& interval : estimate.intervals)
    interval = {interval.lower + lost, interval.upper + lost, interval.level, interval.method};
  estimate.details["lost_at_first"] = lost;
}

// A ratio may come out below the number of animals in hand: then that number is the estimate.
void raise_to_seen(Estimate& estimate, double seen) {
  if (estimate.what != Parameter{Quantity::number} || !(estimate.value < seen)) return;
  estimate.details["as_computed"] = estimate.value;
  estimate.value = seen;
  for (Interval& interval : estimate.intervals)
    interval = {std::max(seen, interval.lower), std::max(seen, interval.upper), interval.level,
                interval.method};
  estimate.warnings.push_back(
      "The method gives fewer animals than were seen: the number seen is given instead.");
}

PartChoice part_of(const ModelChoice& choice, const std::string& name) {
  const auto at = choice.parts.find(name);
  return at == choice.parts.end() ? PartChoice{} : at->second;
}

struct Fitted {
  std::string family;
  FittedModel model;
};

ReleaseEffects effects_of(const Terms& survival, const Terms& recapture) {
  for (const Terms* terms : {&survival, &recapture})
    if (!terms->groups.empty() || !terms->covariates.empty() || !terms->occasion_covariates.empty())
      throw InputError("after_capture", "the model has groups or covariates as well",
                       "name one or the other; fit groups apart for both");
  return {survival.occasion, recapture.occasion, survival.response, recapture.response};
}

Fitted fit_likelihood(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  for (const FullModel& full : full_models())
    if (choice.name == full.name) return {"closed", full.fit(data.closed(), options)};
  if (choice.name == "removal") return {"removal", fit_removal(data.closed().newly, options)};
  const auto by_occasion = [&](const char* name) { return part_of(choice, name).by("occasion"); };
  if (choice.name == "conditional")
    return {"conditional", fit_conditional(data.histories(),
                                           terms_of(part_of(choice, "capture"), data.histories()), options)};
  if (choice.name == "survival") {
    const Terms survival = terms_of(part_of(choice, "survival"), data.histories());
    const Terms recapture = terms_of(part_of(choice, "recapture"), data.histories());
    data.releases();  // refuses a single occasion
    if (survival.response || recapture.response)
      return {"survival", fit_release_effects(data.histories(), effects_of(survival, recapture), options)};
    return {"survival", fit_survival(data.histories(), survival, recapture, options)};
  }
  if (choice.name == "super-population") {
    EntryTerms terms;
    terms.survival_by_occasion = by_occasion("survival");
    terms.capture_by_occasion = by_occasion("capture");
    terms.ends_known = choice.ends_certain;
    // Rows compare by the likelihood given capture: what is set in one of them then moves no weight.
    terms.conditional = true;
    return {"super-population", fit_super_population(data.releases(), terms, options)};
  }
  if (choice.name == "growth") {
    GrowthTerms terms;
    terms.survival_by_occasion = by_occasion("survival");
    terms.capture_by_occasion = by_occasion("capture");
    for (const auto& [name, form] : {std::pair{"growth rate", GrowthForm::growth},
                                     {"recruitment", GrowthForm::recruitment},
                                     {"seniority", GrowthForm::seniority}})
      if (choice.parts.contains(name)) {
        terms.form = form;
        terms.growth_by_occasion = by_occasion(name);
      }
    return {"growth", fit_growth(data.releases(), terms, options)};
  }
  RobustTerms terms;
  terms.emigration = choice.emigration == "none"                ? Emigration::none
                     : choice.emigration == "depends on before" ? Emigration::markov
                                                                : Emigration::random;
  terms.emigration_by_period = choice.emigration == "random by period";
  terms.survival_by_period = part_of(choice, "survival").by("period");
  terms.capture_by_period = part_of(choice, "capture").by("period");
  terms.capture_by_occasion = by_occasion("capture");
  return {"robust", fit_robust(data.robust(), terms, options)};
}

// Entry models by occasion have three parameters an occasion: beyond this they are left for a card to name.
constexpr std::size_t kMostEntryOccasions = 20;

ModelChoice variant(const std::string& name, const std::vector<std::pair<std::string, std::string>>& parts) {
  ModelChoice choice;
  choice.name = name;
  for (const auto& [part, by] : parts) {
    choice.parts[part] = {};
    if (!by.empty()) choice.parts[part].varies_by = {by};
  }
  return choice;
}

}  // namespace

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

FittedRow fit_choice(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  FittedRow fitted;
  fitted.choice = choice;
  ModelRow& row = fitted.row;
  row.name = choice.name;
  row.card_entry = to_json(choice);
  for (const Estimator& estimator : kEstimators) {
    if (choice.name != estimator.name) continue;
    row.description = estimator.description;
    row.estimates = estimator.estimates(data, options.level);
    if (row.name == "lincoln-petersen" || row.name == "chapman" || row.name == "bailey")
      add_lost_at_first(row.estimates.front(), data.histories());
    raise_to_seen(row.estimates.front(), static_cast<double>(data.histories().animal_count()));
    if (row.estimates.front().what == Parameter{Quantity::number})
      widen_if_certain(row.estimates.front(), data.closed().caught, data.closed().seen, options.level);
    row.warnings = row.estimates.front().warnings;
    return fitted;
  }
  Fitted result = fit_likelihood(data, choice, options);
  FittedModel& model = result.model;
  row.description = model.description;
  row.has_likelihood = true;
  row.family = result.family;
  row.parameters = model.parameters;
  row.sample_size = model.sample_size;
  row.log_likelihood = model.log_likelihood;
  row.not_estimable = model.fit.not_estimable;
  row.at_boundary = model.fit.at_boundary;
  row.estimates = model.estimates;
  row.warnings = model.estimates.front().warnings;
  fitted.model = std::make_shared<const FittedModel>(std::move(model));
  return fitted;
}

std::vector<ModelChoice> usual_variants(const ModelChoice& choice, SurveyData& data) {
  if (!choice.parts.empty() || choice.emigration != "none" || choice.ends_certain) return {choice};
  const std::string& name = choice.name;
  const bool few = data.histories().occasion_count() <= kMostEntryOccasions;
  std::vector<ModelChoice> variants;
  if (name == "survival") {
    for (const char* survival : {"", "occasion"})
      for (const char* recapture : {"", "occasion"})
        variants.push_back(variant(name, {{"survival", survival}, {"recapture", recapture}}));
    // Animals that pass through, and an answer to capture.
    if (data.histories().occasion_count() >= 4)
      for (const char* recapture : {"", "occasion"})
        for (const char* part : {"survival", "recapture"}) {
          variants.push_back(variant(name, {{"survival", ""}, {"recapture", recapture}}));
          variants.back().parts[part].after_capture = true;
        }
    for (const auto& [group, levels] : data.histories().groups) {
      // One level alone says nothing.
      if (std::adjacent_find(levels.begin(), levels.end(), std::not_equal_to<>()) == levels.end()) continue;
      variants.push_back(variant(name, {{"survival", group}, {"recapture", ""}}));
      variants.push_back(variant(name, {{"survival", group}, {"recapture", "occasion"}}));
    }
  } else if (name == "super-population") {
    for (const char* survival : {"", "occasion"})
      for (const char* capture : {"", "occasion"})
        if (few || (!*survival && !*capture))
          variants.push_back(variant(name, {{"survival", survival}, {"capture", capture}}));
  } else if (name == "growth") {
    variants.push_back(variant(name, {{"survival", ""}, {"capture", ""}, {"growth rate", ""}}));
    if (few) {
      variants.push_back(variant(name, {{"survival", ""}, {"capture", ""}, {"growth rate", "occasion"}}));
      variants.push_back(variant(name, {{"survival", ""}, {"capture", "occasion"}, {"growth rate", ""}}));
    }
  } else if (name == "robust") {
    // Away at random shows from three periods on, away by the period before from four.
    const int periods = data.histories().primary_count();
    for (const auto& [emigration, needed] : {std::pair{"none", 2}, {"random", 3}, {"depends on before", 4}})
      for (const char* capture : {"", "period"}) {
        if (periods < needed) continue;
        variants.push_back(variant(name, {{"survival", ""}, {"capture", capture}}));
        variants.back().emigration = emigration;
      }
  } else {
    variants.push_back(choice);
  }
  return variants;
}

}  // namespace evet::models
