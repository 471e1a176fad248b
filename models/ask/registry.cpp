#include "models/ask/registry.h"

#include <algorithm>
#include <functional>

#include "models/base/input_error.h"
#include "models/closed/conditional.h"
#include "models/closed/full_likelihood.h"
#include "models/closed/heterogeneity.h"
#include "models/closed/two_sample.h"
#include "models/open/entry_models.h"
#include "models/open/jolly_seber.h"
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
      throw InputError("after_capture", "the model has groups or covariates as well",
                       "name one or the other; fit groups apart for both");
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
  if (data.histories().occasion_count() >= 4)
    for (const char* recapture : {"", "occasion"})
      for (const char* part : {"survival", "recapture"}) {
        if (too_thin && *recapture) continue;
        variants.push_back(variant("survival", {{"survival", ""}, {"recapture", recapture}}));
        variants.back().parts[part].after_capture = true;
      }
  for (const auto& [group, levels] : data.histories().groups) {
    // One level alone says nothing.
    if (std::adjacent_find(levels.begin(), levels.end(), std::not_equal_to<>()) == levels.end()) continue;
    variants.push_back(variant("survival", {{"survival", group}, {"recapture", ""}}));
    if (!too_thin) variants.push_back(variant("survival", {{"survival", group}, {"recapture", "occasion"}}));
  }
  return variants;
}

FittedModel fit_entry(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  EntryTerms terms;
  terms.survival_by_occasion = part_of(choice, "survival").by("occasion");
  terms.capture_by_occasion = part_of(choice, "capture").by("occasion");
  terms.ends_known = choice.ends_certain;
  // Rows compare by the likelihood given capture: what is set in one of them then moves no weight.
  terms.conditional = true;
  return fit_super_population(data.releases(), terms, options);
}

std::vector<ModelChoice> entry_variants(SurveyData& data) {
  const bool few = data.histories().occasion_count() <= kMostEntryOccasions;
  std::vector<ModelChoice> variants;
  for (const char* survival : {"", "occasion"})
    for (const char* capture : {"", "occasion"})
      if (few || (!*survival && !*capture))
        variants.push_back(variant("super-population", {{"survival", survival}, {"capture", capture}}));
  return variants;
}

FittedModel fit_growth_as_said(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  GrowthTerms terms;
  terms.survival_by_occasion = part_of(choice, "survival").by("occasion");
  terms.capture_by_occasion = part_of(choice, "capture").by("occasion");
  for (const auto& [name, form] : {std::pair{"growth rate", GrowthForm::growth},
                                   {"recruitment", GrowthForm::recruitment},
                                   {"seniority", GrowthForm::seniority}})
    if (choice.parts.contains(name)) {
      terms.form = form;
      terms.growth_by_occasion = part_of(choice, name).by("occasion");
    }
  return fit_growth(data.releases(), terms, options);
}

std::vector<ModelChoice> growth_variants(SurveyData& data) {
  std::vector<ModelChoice> variants = {
      variant("growth", {{"survival", ""}, {"capture", ""}, {"growth rate", ""}})};
  if (data.histories().occasion_count() > kMostEntryOccasions) return variants;
  variants.push_back(variant("growth", {{"survival", ""}, {"capture", ""}, {"growth rate", "occasion"}}));
  variants.push_back(variant("growth", {{"survival", ""}, {"capture", "occasion"}, {"growth rate", ""}}));
  return variants;
}

FittedModel fit_robust_as_said(SurveyData& data, const ModelChoice& choice, const ModelOptions& options) {
  RobustTerms terms;
  terms.emigration = choice.emigration == "none"                ? Emigration::none
                     : choice.emigration == "depends on before" ? Emigration::markov
                                                                : Emigration::random;
  terms.emigration_by_period = choice.emigration == "random by period";
  terms.survival_by_period = part_of(choice, "survival").by("period");
  terms.capture_by_period = part_of(choice, "capture").by("period");
  terms.capture_by_occasion = part_of(choice, "capture").by("occasion");
  return fit_robust(data.robust(), terms, options);
}

std::vector<ModelChoice> robust_variants(SurveyData& data) {
  // Away at random shows from three periods on, away by the period before from four.
  const int periods = data.histories().primary_count();
  std::vector<ModelChoice> variants;
  for (const auto& [emigration, needed] : {std::pair{"none", 2}, {"random", 3}, {"depends on before", 4}})
    for (const char* capture : {"", "period"}) {
      if (periods < needed) continue;
      variants.push_back(variant("robust", {{"survival", ""}, {"capture", capture}}));
      variants.back().emigration = emigration;
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

using Freedom = ModelEntry::Freedom;
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
                     const std::string& description, Estimates (*estimates)(SurveyData&, double)) {
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
                      const std::vector<std::string>& parts, Freedom freedom, int from,
                      const std::vector<Quantity>& quantities,
                      FittedModel (*fit)(SurveyData&, const ModelChoice&, const ModelOptions&),
                      std::vector<ModelChoice> (*variants)(SurveyData&)) {
  ModelEntry entry{design, name, parts, freedom};
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
      estimator("closed", "chapman", 2, 2, "two samples, ratio estimate corrected for bias",
                of_two_samples<chapman>),
      estimator("closed", "lincoln-petersen", 2, 2, "two samples, ratio estimate",
                of_two_samples<lincoln_petersen>),
      estimator("closed", "bailey", 0, 0, "two samples, the second with replacement", of_two_samples<bailey>),
      full("constant", 3, {"occasion", "response", "mixture", "beta-binomial"}, of_closed<fit_constant>),
      full("occasion", 3, {"occasion-response", "occasion-mixture"}, of_closed<fit_occasion>),
      full("response", 3, {"occasion-response", "response-mixture"}, of_closed<fit_response>),
      full("occasion-response", 4, {}, of_closed<fit_occasion_response>),
      full("mixture", 4, {"occasion-mixture", "response-mixture"}, of_closed<fit_mixture>),
      full("beta-binomial", 4, {}, of_closed<fit_beta_binomial>),
      full("occasion-mixture", 4, {}, of_closed<fit_occasion_mixture>),
      full("response-mixture", 5, {}, of_closed<fit_response_mixture>),
      estimator("closed", "chao-corrected", 3, kEver, "unequal catchability, lower bound corrected for bias",
                of_counts<chao_bias_corrected>),
      estimator("closed", "jackknife", 3, kEver,
                "unequal catchability, jackknife of the order that the data ask for", of_counts<jackknife>),
      estimator("closed", "sample-coverage", 3, kEver,
                "unequal catchability, by the share of the population's catchability covered",
                [](SurveyData& d, double level) -> Estimates {
                  return {sample_coverage(d.closed(), 2, false, level)};
                }),
      estimator("closed", "schnabel", 3, kEver, "several samples, weighted mean of two-sample estimates",
                of_batches<schnabel>),
      estimator("closed", "schumacher-eschmeyer", 3, kEver, "several samples, regression through the origin",
                of_batches<schumacher_eschmeyer>),
      estimator("closed", "binomial-batch", 0, 0, "several samples, recaptures binomial given the marked",
                of_batches<binomial_batch>),
      estimator("closed", "chao", 0, 0, "unequal catchability, lower bound", of_counts<chao_1987>),
      estimator("closed", "chao-occasions", 0, 0,
                "unequal catchability, lower bound for a set number of occasions", of_counts<chao_occasions>),
      estimator("closed", "sample-coverage-occasions", 0, 0,
                "unequal catchability and unequal occasions, by sample coverage",
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
  all.push_back(with_parts(
      "closed", "conditional", {"capture"}, Freedom::full, 0, {Quantity::number},
      [](SurveyData& d, const ModelChoice& choice, const ModelOptions& options) {
        return fit_conditional(d.histories(), terms_of(part_of(choice, "capture"), d.histories()), options);
      },
      nullptr));
  return all;
}

std::vector<ModelEntry> all_models() {
  std::vector<ModelEntry> all = closed_models();
  all.push_back(with_parts("open", "survival", {"survival", "recapture"}, Freedom::full, 2,
                           {Quantity::survival, Quantity::recapture}, fit_survival_as_said,
                           survival_variants));
  all.push_back(with_parts("open", "super-population", {"survival", "capture"}, Freedom::occasion, 2,
                           {Quantity::number_ever, Quantity::number}, fit_entry, entry_variants));
  all.push_back(
      with_parts("open", "growth", {"survival", "capture", "growth rate", "recruitment", "seniority"},
                 Freedom::occasion, 2, {Quantity::growth_rate}, fit_growth_as_said, growth_variants));
  all.push_back(
      estimator("open", "jolly-seber", 3, kEver, "numbers, survival and births by occasion in closed form",
                [](SurveyData& d, double level) { return jolly_seber_estimates(d.releases(), level); }));
  all.push_back(with_parts("robust", "robust", {"survival", "capture"}, Freedom::occasion, 2,
                           {Quantity::survival, Quantity::number}, fit_robust_as_said, robust_variants));
  all.push_back(estimator("robust", "closed-by-period", 2, kEver,
                          "each primary period alone, the same chance of capture on all its occasions",
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
